import type { NmrSignal } from './schema.ts';

/** Lower and upper end in ppm; the same for a signal written as one number. */
export function endsOf(signal: NmrSignal): readonly [low: number, high: number] {
  const other = signal.to_ppm ?? signal.shift_ppm;
  return [Math.min(signal.shift_ppm, other), Math.max(signal.shift_ppm, other)];
}

export function middleOf(signal: NmrSignal): number {
  const [low, high] = endsOf(signal);
  return (low + high) / 2;
}

/** How far outside a window a signal lies, in ppm; 0 where they meet. */
export function distanceTo(signal: NmrSignal, low_ppm: number, high_ppm: number): number {
  const [low, high] = endsOf(signal);
  return Math.max(0, low_ppm - high, low - high_ppm);
}

/** "7.26" or "7.20–7.34", with the multiplicity where one was written: "4.12 (q)". */
export function signalText(signal: NmrSignal): string {
  const [low, high] = endsOf(signal);
  const place = low === high ? low.toFixed(2) : `${low.toFixed(2)}–${high.toFixed(2)}`;
  return signal.multiplicity === undefined ? place : `${place} (${signal.multiplicity.trim()})`;
}
