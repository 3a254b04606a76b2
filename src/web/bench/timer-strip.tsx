import { useEffect, useRef } from 'react';
import { ringBell } from './device/bell.ts';
import { useNow } from './device/now.ts';
import { addressOf } from './device/view.ts';
import { useRecord } from './record-context.ts';
import { FINISHED, stamp } from './record/new-entry.ts';
import { clockText, timersOf } from './record/timers.ts';
import type { Timer } from './record/timers.ts';
import { useEnter } from './step/use-enter.ts';
import './timer-strip.css';

/**
 * Every clock that runs at another step than the one that is open: there it is shown large. One whose
 * time is over is shown at every step, until it is called done.
 */
export function TimerStrip({ current }: { readonly current: string | undefined }) {
  const { sheet, placed } = useRecord();
  const timers = timersOf(sheet, placed);
  const now = useNow(timers.length > 0);
  const over = timers.filter(({ endsAt_ms }) => endsAt_ms <= now);
  useBell(over);
  const shown = timers.filter((timer) => timer.step !== current || over.includes(timer));
  return (
    <>
      <p role="status" className="spoken">
        {over.map(({ step, what }) => `Step ${step}, ${what}: the time is over.`).join(' ')}
      </p>
      {shown.length > 0 && (
        <section className="bench-timers screen-only" aria-label="Clocks">
          <ul>
            {shown.map((timer) => (
              <TimerRow
                key={timer.step}
                timer={timer}
                left_ms={timer.endsAt_ms - now}
                own={timer.step === current}
              />
            ))}
          </ul>
        </section>
      )}
    </>
  );
}

function TimerRow({
  timer,
  left_ms,
  own,
}: {
  readonly timer: Timer;
  readonly left_ms: number;
  /** Its step is open, and has the key that ends it. */
  readonly own: boolean;
}) {
  const { writer } = useRecord();
  const { enter } = useEnter();
  return (
    <li data-over={left_ms <= 0}>
      <a href={addressOf({ kind: 'step', step: timer.step })}>
        <span className="bench-timer-clock">{clockText(left_ms)}</span>
        <span>
          {timer.what}
          <span className="bench-timer-step">step {timer.step}</span>
        </span>
      </a>
      {!own && (
        <button type="button" onClick={() => void enter(stamp(writer, timer.step, FINISHED))}>
          Done<span className="spoken"> with {timer.what}</span>
        </button>
      )}
    </li>
  );
}

/** Rings once for each clock; one that was over when the page opened rings too, if it may. */
function useBell(over: readonly Timer[]): void {
  const rung = useRef(new Set<string>());
  useEffect(() => {
    for (const { step, startedAt } of over) {
      const name = `${step} ${startedAt}`;
      if (!rung.current.has(name)) ringBell();
      rung.current.add(name);
    }
  });
}
