import { useEffect, useRef } from 'react';
import type { RefObject } from 'react';
import { useDraft } from '../device/stored.ts';
import { balanceLabel } from '../device/preferences.ts';
import { useRecord } from '../record-context.ts';
import { isExtra } from '../record/place.ts';
import { lot, observation, reading, stamp } from '../record/new-entry.ts';
import type { Line } from '../record/standing.ts';
import type { BenchField, BenchStep } from '../sheet.ts';
import { FieldKeypad } from './field-keypad.tsx';
import { FILLED_WITH, isMass, stands } from './field-kinds.ts';
import { Glued } from './glued.tsx';
import { LineRow } from './line-row.tsx';
import { SaidOf } from './said-of.tsx';
import { draftOf, planText } from './typed-field.ts';
import { useEnter } from './use-enter.ts';
import { WordsField } from './words-field.tsx';

interface Props {
  readonly step: BenchStep;
  readonly field: BenchField;
  readonly lines: readonly Line[];
  readonly open: string | undefined;
  readonly setOpen: (id: string | undefined) => void;
}

/** One thing to be weighed, measured or seen: what was planned, what was written, and where to write. */
export function FieldRow(props: Props) {
  const { field, lines, open, setOpen } = props;
  const { settings, balance } = useRecord();
  const row = useRef<HTMLLIElement>(null);
  useFocusAfter(open === field.key, row);
  const filled = lines.some(stands);
  const mass = isMass(field) && balance !== null && !filled;
  const aside = [
    planText(field, settings.decimalSign),
    isExtra(field) && !filled ? 'only if you weigh again' : '',
    mass ? balanceLabel(balance, settings) : '',
  ].filter((word) => word !== '');
  return (
    <li ref={row} className="bench-field">
      <p className="bench-field-label">
        <span>
          <Glued>{field.label}</Glued>
        </span>
        {aside.length > 0 && <span className="bench-field-aside">{aside.join(' · ')}</span>}
      </p>
      {lines.map((line) => (
        <LineRow
          key={line.entry.id}
          line={line}
          field={field}
          open={open}
          setOpen={setOpen}
          {...(field.kind === 'charge' && { onAnother: () => setOpen(field.key) })}
        />
      ))}
      <SaidOf field={field} lines={lines} />
      <Blank {...props} />
    </li>
  );
}

/** Where the keypad was, what was just entered gets the focus, or the blank that is still empty. */
function useFocusAfter(isOpen: boolean, row: RefObject<HTMLLIElement | null>): void {
  const was = useRef(false);
  useEffect(() => {
    if (was.current && !isOpen) {
      const targets = row.current?.querySelectorAll<HTMLElement>('button.bench-line-target');
      const blank = row.current?.querySelector<HTMLElement>('.bench-blank');
      (blank ?? targets?.[targets.length - 1])?.focus({ preventScroll: true });
    }
    was.current = isOpen;
  }, [isOpen, row]);
}

function Blank(props: Props) {
  const { step, field, lines } = props;
  const { run, writer } = useRecord();
  const { enter, problem } = useEnter();
  const filled = lines.some(stands);
  const kind = FILLED_WITH[field.kind];
  if (kind === 'number') return <NumberBlank {...props} filled={filled} />;
  if (filled) return null;
  if (kind === 'words')
    return (
      <WordsField
        place={`${run.id} ${step.id} ${field.key}`}
        label={field.label}
        problem={problem}
        onEnter={(words) =>
          enter(
            field.kind === 'lot'
              ? lot(writer, step.id, field, words)
              : observation(writer, step.id, words),
          )
        }
      />
    );
  return (
    <button
      type="button"
      className="bench-target"
      onClick={() => void enter(stamp(writer, step.id, field.label))}
    >
      Stamp the time
    </button>
  );
}

/** The empty line with its unit; tapping it opens the keypad. */
function NumberBlank({ step, field, filled, open, setOpen }: Props & { readonly filled: boolean }) {
  const { run, writer, balance } = useRecord();
  const { enter, problem } = useEnter();
  const place = `${run.id} ${step.id} ${field.key}`;
  const [draft] = useDraft(place);
  const isOpen = open === field.key;
  const typed = draftOf(draft, 2)
    .texts.filter((text) => text !== '')
    .join('–');
  if (filled && !isOpen) return null;
  return (
    <>
      <button
        type="button"
        className="bench-blank"
        aria-expanded={isOpen}
        onClick={() => setOpen(isOpen ? undefined : field.key)}
      >
        <span className="spoken">Enter {field.label}: </span>
        <span className="bench-blank-line">
          {typed !== '' && <span className="bench-blank-typed">{typed} not entered</span>}
        </span>
        <span>{field.unit}</span>
      </button>
      {problem !== undefined && <p role="alert">{problem}</p>}
      {isOpen && (
        <FieldKeypad
          key={place}
          place={place}
          field={field}
          title={field.label}
          enterWord="Enter it"
          onClose={() => setOpen(undefined)}
          onEnter={(readings, measured) => {
            const instrument = isMass(measured) ? (balance ?? undefined) : undefined;
            return enter(reading(writer, step.id, measured, readings, instrument));
          }}
        />
      )}
    </>
  );
}
