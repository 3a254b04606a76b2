import { useState } from 'react';
import { aboutText } from '../record/entry-text.ts';
import { TEXT_KINDS } from '../record/standing.ts';
import type { Line } from '../record/standing.ts';
import { Button } from '../../ui/button.tsx';
import type { BenchField } from '../sheet.ts';
import { CorrectNumber, CorrectWords, Withdraw } from './corrections.tsx';
import { stands } from './field-kinds.ts';
import { LineOrigin, LinePhotos, LineText } from './line-view.tsx';

/** A line that was written. Tapping one that stands offers to correct or to withdraw it. */
export function LineRow({
  line,
  field,
  about,
  onAnother,
  open,
  setOpen,
}: {
  readonly line: Line;
  /** That it fills; a line that fills none can have other words or be withdrawn. */
  readonly field?: BenchField;
  /** What it is about, where nothing above says so. */
  readonly about?: boolean;
  /** Opens the keypad for a further portion of the same material. */
  readonly onAnother?: () => void;
  readonly open: string | undefined;
  readonly setOpen: (id: string | undefined) => void;
}) {
  const id = `line ${line.entry.id}`;
  const isOpen = open === id;
  const words = (
    <>
      {about && <span className="bench-about">{aboutText(line.entry)}</span>}
      <span className="bench-line-words">
        <LineText line={line} />
      </span>
      <LineOrigin line={line} />
    </>
  );
  return (
    <div className="bench-line" id={`entry-${line.entry.id}`}>
      {stands(line) ? (
        <button
          type="button"
          className="bench-line-target"
          aria-expanded={isOpen}
          onClick={() => setOpen(isOpen ? undefined : id)}
        >
          {words}
        </button>
      ) : (
        <div className="bench-line-target">{words}</div>
      )}
      <LinePhotos line={line} />
      {isOpen && (
        <LineActions
          line={line}
          field={field}
          onAnother={onAnother}
          onDone={() => setOpen(undefined)}
        />
      )}
    </div>
  );
}

function LineActions({
  line,
  field,
  onAnother,
  onDone,
}: {
  readonly line: Line;
  readonly field: BenchField | undefined;
  readonly onAnother: (() => void) | undefined;
  readonly onDone: () => void;
}) {
  const [act, setAct] = useState<'correct' | 'withdraw'>();
  const { entry } = line;
  const isWords = TEXT_KINDS.has(entry.kind) && entry.kind !== 'time';
  const correctable = isWords || (field !== undefined && entry.value !== undefined);
  if (act === 'withdraw') return <Withdraw line={line} onDone={onDone} />;
  if (act === 'correct' && isWords) return <CorrectWords line={line} onDone={onDone} />;
  if (act === 'correct' && field !== undefined)
    return <CorrectNumber line={line} field={field} onDone={onDone} />;
  return (
    <div className="row-of-buttons bench-actions">
      {correctable && <Button onClick={() => setAct('correct')}>Correct</Button>}
      <Button onClick={() => setAct('withdraw')}>Withdraw</Button>
      {onAnother !== undefined && <Button onClick={onAnother}>Add a portion</Button>}
      <Button rank="plain" onClick={onDone}>
        Leave it
      </Button>
    </div>
  );
}
