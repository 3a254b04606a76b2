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

/** Every clock that runs, whichever step is open. One whose time is over stays until it is called done. */
export function TimerStrip() {
  const { sheet, placed } = useRecord();
  const timers = timersOf(sheet, placed);
  const now = useNow(timers.length > 0);
  const over = timers.filter(({ endsAt_ms }) => endsAt_ms <= now);
  useBell(over);
  return (
    <>
      <p role="status" className="spoken">
        {over.map(({ step, what }) => `Step ${step}, ${what}: the time is over.`).join(' ')}
      </p>
      {timers.length > 0 && (
        <section className="bench-timers screen-only" aria-label="Clocks">
          <ul>
            {timers.map((timer) => (
              <TimerRow key={timer.step} timer={timer} left_ms={timer.endsAt_ms - now} />
            ))}
          </ul>
        </section>
      )}
    </>
  );
}

function TimerRow({ timer, left_ms }: { readonly timer: Timer; readonly left_ms: number }) {
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
      <button type="button" onClick={() => void enter(stamp(writer, timer.step, FINISHED))}>
        Done<span className="spoken"> with {timer.what}</span>
      </button>
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
