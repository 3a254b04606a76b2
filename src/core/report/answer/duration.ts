import type { Enactment } from '../../enact/enactment.ts';
import type { Experiment, Slots, Step } from '../../experiment/step.ts';
import { stepsSaid } from '../common/words.ts';

/** A step whose sentence gives no time: the usual time of its operation is counted. */
export interface AssumedWait {
  readonly step: string;
  readonly duration_min: number;
}

export interface Duration {
  readonly duration_min: number;
  readonly assumedWaits: readonly AssumedWait[];
}

const isTime = (slot: Slots['time']): boolean => slot?.kind === 'time' && slot.value > 0;

/** Whether the sentence itself says how long it takes. */
export function saysHowLong({ slots }: Step): boolean {
  return isTime(slots.time) || isTime(slots.over);
}

/** How long a run takes from the first sentence to the last; needs a run made with a trace. */
export function durationOf({ steps }: Experiment, { trace }: Enactment): Duration {
  const written = new Set(steps.filter(saysHowLong).map((step) => step.id));
  const last = trace.at(-1);
  return {
    duration_min: last === undefined ? 0 : last.start_min + last.duration_min,
    assumedWaits: trace
      .filter((each) => each.duration_min > 0 && !written.has(each.step))
      .map(({ step, duration_min }) => ({ step, duration_min })),
  };
}

const HOUR_min = 60;
const DAY_min = 24 * HOUR_min;

/** To five minutes below two hours, to ten below ten hours, else to the hour: "about 2 h 10 min". */
export function aboutHowLong(duration_min: number): string {
  if (duration_min < 10) return `about ${Math.max(1, Math.round(duration_min))} min`;
  const to_min = duration_min < 2 * HOUR_min ? 5 : duration_min < 10 * HOUR_min ? 10 : HOUR_min;
  const rounded_min = Math.round(duration_min / to_min) * to_min;
  const days = rounded_min >= 2 * DAY_min ? Math.floor(rounded_min / DAY_min) : 0;
  const hours = Math.floor((rounded_min - days * DAY_min) / HOUR_min);
  const minutes = rounded_min % HOUR_min;
  const parts = [
    ...(days > 0 ? [`${days} days`] : []),
    ...(hours > 0 ? [`${hours} h`] : []),
    ...(minutes > 0 ? [`${minutes} min`] : []),
  ];
  return `about ${parts.join(' ')}`;
}

const STEPS_NAMED = 3;

/** "Takes about 2 h 40 min, of which about 1 h 35 min is assumed: 20 steps do not say how long." */
export function durationSentences({ duration_min, assumedWaits }: Duration): string[] {
  if (duration_min <= 0) return [];
  const takes = `Takes ${aboutHowLong(duration_min)}`;
  if (assumedWaits.length === 0) return [`${takes}.`];
  const sum_min = assumedWaits.reduce((sum, each) => sum + each.duration_min, 0);
  const ids = assumedWaits.map((each) => each.step);
  const where = ids.length > STEPS_NAMED ? `${ids.length} steps` : stepsSaid(ids);
  const say = ids.length === 1 ? 'does not say' : 'do not say';
  return [`${takes}, of which ${aboutHowLong(sum_min)} is assumed: ${where} ${say} how long.`];
}
