import { SAMPLE_STATES } from '../../core/evidence/spectrum/infrared.ts';
import type { SampleState } from '../../core/evidence/spectrum/infrared.ts';
import { readStored, store } from '../bench/device/stored.ts';

const NAME = 'weighboat.sample state';

/** How the last sample was measured on this device; ATR before there was one. */
export function lastState(): SampleState {
  const kept = readStored<unknown>(NAME, undefined);
  return SAMPLE_STATES.find((state) => state === kept) ?? 'atr';
}

export const keepLastState = (state: SampleState): void => store(NAME, state);
