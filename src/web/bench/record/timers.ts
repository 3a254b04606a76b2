import type { BenchSheet } from '../sheet.ts';
import { FINISHED, STARTED } from './new-entry.ts';
import { linesOfStep } from './place.ts';
import type { PlacedLines, StepLines } from './place.ts';

/** When a step began and ended: the last pair of stamps that stand. */
export interface StepTimes {
  /** ISO 8601. */
  readonly started?: string;
  readonly finished?: string;
}

/** A wait that was started and that nobody has called finished. */
export interface Timer {
  readonly step: string;
  readonly what: string;
  readonly startedAt: string;
  /** ms since 1970. */
  readonly endsAt_ms: number;
}

export function timesOf({ times }: Pick<StepLines, 'times'>): StepTimes {
  let pair: StepTimes = {};
  for (const { entry, struck } of times) {
    if (struck !== undefined) continue;
    if (entry.text === STARTED) pair = { started: entry.at };
    else if (entry.text === FINISHED) pair = { ...pair, finished: entry.at };
  }
  return pair;
}

/**
 * The timers that run, or ran out and wait to be seen. They are read out of the record, so that they
 * last through a locked screen, a reload and a change of the device.
 */
export function timersOf(sheet: BenchSheet, placed: PlacedLines): Timer[] {
  return sheet.steps.flatMap((step): Timer[] => {
    const { started, finished } = timesOf(linesOfStep(placed, step.id));
    if (step.wait === undefined || started === undefined || finished !== undefined) return [];
    const { duration_min, what } = step.wait;
    const endsAt_ms = Date.parse(started) + duration_min * 60_000;
    return [{ step: step.id, what, startedAt: started, endsAt_ms }];
  });
}

/** "12:05", "1:02:05", and past the end "+0:30". */
export function clockText(left_ms: number): string {
  const left_s = Math.ceil(left_ms / 1000);
  const s = Math.abs(left_s);
  const two = (n: number) => String(n).padStart(2, '0');
  const hours = Math.floor(s / 3600);
  const minutes = Math.floor(s / 60) % 60;
  const text = hours > 0 ? `${hours}:${two(minutes)}:${two(s % 60)}` : `${minutes}:${two(s % 60)}`;
  return left_s < 0 ? `+${text}` : text;
}

/** The time of the day where the bench stands. */
export function timeOfDay(at: string | Date): string {
  const time = new Date(at);
  const two = (n: number) => String(n).padStart(2, '0');
  return `${two(time.getHours())}:${two(time.getMinutes())}`;
}

/** ISO 8601, where the bench stands. */
export function dayOf(at: string | Date): string {
  const time = new Date(at);
  const two = (n: number) => String(n).padStart(2, '0');
  return `${time.getFullYear()}-${two(time.getMonth() + 1)}-${two(time.getDate())}`;
}

/** "20 min", "1 h 30 min", "30 s". */
export function durationText(duration_min: number): string {
  if (duration_min < 1) return `${Math.round(duration_min * 60)}\u202fs`;
  const hours = Math.floor(duration_min / 60);
  const minutes = Math.round(duration_min - hours * 60);
  const parts = [hours > 0 ? `${hours}\u202fh` : '', minutes > 0 ? `${minutes}\u202fmin` : ''];
  return parts.filter((part) => part !== '').join(' ');
}
