import { readyBell } from '../device/bell.ts';
import { useNow } from '../device/now.ts';
import { useRecord } from '../record-context.ts';
import { FINISHED, stamp, STARTED } from '../record/new-entry.ts';
import type { StepLines } from '../record/place.ts';
import { clockText, durationText, timesOf } from '../record/timers.ts';
import type { BenchStep } from '../sheet.ts';
import { LineRow } from './line-row.tsx';
import { SECOND_TAP_ms, useEnter } from './use-enter.ts';

/** When the step began and ended, one tap each; a step that takes its time has a clock. */
export function Stamps({
  step,
  lines,
  open,
  setOpen,
}: {
  readonly step: BenchStep;
  readonly lines: StepLines;
  readonly open: string | undefined;
  readonly setOpen: (id: string | undefined) => void;
}) {
  const { writer } = useRecord();
  const { enter, problem } = useEnter(SECOND_TAP_ms);
  const { started, finished } = timesOf(lines);
  const running = started !== undefined && finished === undefined;
  const { wait } = step;
  const press = (text: string) => {
    readyBell();
    void enter(stamp(writer, step.id, text));
  };
  return (
    <section className="bench-times" aria-label="Time">
      {lines.times.map((line) => (
        <LineRow key={line.entry.id} line={line} open={open} setOpen={setOpen} />
      ))}
      {running && wait !== undefined && (
        <Clock endsAt_ms={Date.parse(started) + wait.duration_min * 60_000} />
      )}
      {problem !== undefined && <p role="alert">{problem}</p>}
      {running ? (
        <button type="button" className="bench-target" onClick={() => press(FINISHED)}>
          {wait === undefined ? 'Stamp the end' : 'Done'}
        </button>
      ) : (
        <button type="button" className="bench-target" onClick={() => press(STARTED)}>
          {startWord(wait?.duration_min, started !== undefined)}
        </button>
      )}
    </section>
  );
}

function startWord(duration_min: number | undefined, again: boolean): string {
  const word =
    duration_min === undefined ? 'Stamp the start' : `Start ${durationText(duration_min)}`;
  return again ? `${word} again` : word;
}

function Clock({ endsAt_ms }: { readonly endsAt_ms: number }) {
  const left_ms = endsAt_ms - useNow(true);
  return (
    <p className="bench-clock" data-over={left_ms <= 0}>
      <span className="bench-clock-time">{clockText(left_ms)}</span>{' '}
      {left_ms > 0 ? 'left' : 'The time is over.'}
    </p>
  );
}
