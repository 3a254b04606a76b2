import { useId, useState } from 'react';
import { Button } from '../../ui/button.tsx';
import { useDraft } from '../device/stored.ts';
import { useRecord } from '../record-context.ts';
import { correctedReading, correctedText, withdrawal } from '../record/new-entry.ts';
import { TEXT_KINDS } from '../record/standing.ts';
import type { Line } from '../record/standing.ts';
import type { BenchField } from '../sheet.ts';
import { FieldKeypad } from './field-keypad.tsx';
import { isMass } from './field-kinds.ts';
import { useEnter } from './use-enter.ts';

const REASONS = ['misread', 'digits swapped', 'wrong vessel', 'spilt', 'weighed again'];

/** Why a line is struck: a word of the trade, or one's own. */
function Reason({
  place,
  reason,
  onReason,
}: {
  readonly place: string;
  readonly reason: string;
  readonly onReason: (reason: string) => void;
}) {
  const id = useId();
  return (
    <div className="bench-reason">
      <label htmlFor={id}>Why? The old line stays, struck through.</label>
      <div className="bench-observe-words">
        {REASONS.map((word) => (
          <button
            key={word}
            type="button"
            className="bench-word"
            aria-pressed={reason === word}
            onClick={() => onReason(reason === word ? '' : word)}
          >
            {word}
          </button>
        ))}
      </div>
      <input
        id={id}
        name={place}
        value={reason}
        maxLength={200}
        onChange={({ target }) => onReason(target.value)}
      />
    </div>
  );
}

/** Another number in the place of one that was wrong. */
export function CorrectNumber({
  line: { entry },
  field,
  onDone,
}: {
  readonly line: Line;
  readonly field: BenchField;
  readonly onDone: () => void;
}) {
  const { writer, balance } = useRecord();
  const { enter, problem } = useEnter();
  const [reason, setReason] = useDraft(`reason ${entry.id}`);
  // A correction keeps the unit of its line: the other measure of the field is not offered.
  const { or, ...own } = field;
  const measured = entry.unit === or?.unit && or !== undefined ? { ...own, ...or } : own;
  return (
    <>
      <Reason place={entry.id} reason={reason} onReason={setReason} />
      {problem !== undefined && <p role="alert">{problem}</p>}
      <FieldKeypad
        place={`correct ${entry.id}`}
        field={measured}
        title={`Correct: ${field.label}`}
        enterWord="Correct it"
        onClose={onDone}
        onEnter={async (readings) => {
          const instrument = isMass(measured) ? (balance ?? undefined) : undefined;
          const kept = await enter(
            correctedReading(writer, entry, readings, reason.trim(), instrument),
          );
          if (kept) setReason('');
          return kept;
        }}
      />
    </>
  );
}

/** Other words in the place of those that were wrong. */
export function CorrectWords({
  line: { entry },
  onDone,
}: {
  readonly line: Line;
  readonly onDone: () => void;
}) {
  const { writer } = useRecord();
  const { enter, problem } = useEnter();
  const id = useId();
  const [words, setWords] = useState(entry.text ?? '');
  const correct = async () => {
    if (await enter(correctedText(writer, entry, words.trim()))) onDone();
  };
  return (
    <form
      className="bench-reason"
      onSubmit={(event) => {
        event.preventDefault();
        void correct();
      }}
    >
      <label htmlFor={id}>What it should say. The old line stays, struck through.</label>
      <textarea
        id={id}
        rows={2}
        value={words}
        maxLength={5000}
        onChange={({ target }) => setWords(target.value)}
      />
      {problem !== undefined && <p role="alert">{problem}</p>}
      <div className="row-of-buttons">
        <Button type="submit" rank="first" disabled={words.trim() === '' || words === entry.text}>
          Correct it
        </Button>
        <Button rank="plain" onClick={onDone}>
          Leave it
        </Button>
      </div>
    </form>
  );
}

/** The line does not count, and nothing takes its place. */
export function Withdraw({
  line: { entry },
  onDone,
}: {
  readonly line: Line;
  readonly onDone: () => void;
}) {
  const { writer } = useRecord();
  const { enter, problem } = useEnter();
  const [reason, setReason] = useDraft(`reason ${entry.id}`);
  const asksWhy = !TEXT_KINDS.has(entry.kind);
  const withdraw = async () => {
    if (!(await enter(withdrawal(writer, entry, asksWhy ? reason.trim() : '')))) return;
    setReason('');
    onDone();
  };
  return (
    <form
      className="bench-reason"
      onSubmit={(event) => {
        event.preventDefault();
        void withdraw();
      }}
    >
      {asksWhy ? (
        <Reason place={entry.id} reason={reason} onReason={setReason} />
      ) : (
        <p>It will not count. It stays in the record, struck through.</p>
      )}
      {problem !== undefined && <p role="alert">{problem}</p>}
      <div className="row-of-buttons">
        <Button type="submit" rank="first">
          Withdraw it
        </Button>
        <Button rank="plain" onClick={onDone}>
          Leave it
        </Button>
      </div>
    </form>
  );
}
