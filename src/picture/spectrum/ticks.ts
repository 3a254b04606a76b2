export interface Tick {
  readonly value: number;
  readonly text: string;
}

const STEPS = [1, 2, 5, 10];

/** The least round step (1, 2 or 5 times a power of ten) that gives at most so many of them. */
export function roundStep(span: number, most: number): number {
  const least = span / Math.max(1, most);
  if (!(least > 0) || !Number.isFinite(least)) return 1;
  const power = 10 ** Math.floor(Math.log10(least));
  return power * STEPS.find((step) => step * power >= least * (1 - 1e-9))!;
}

const decimalsOf = (step: number) => Math.min(12, Math.max(0, Math.ceil(-Math.log10(step) - 1e-9)));

/** A number of an axis, with a true minus and the decimal sign of the laboratory. */
export function axisNumber(value: number, decimals: number, decimal: '.' | ','): string {
  const fixed = value.toFixed(decimals);
  const text = Number(fixed) === 0 ? fixed.replace('-', '') : fixed.replace('-', '−');
  return decimal === ',' ? text.replace('.', ',') : text;
}

/** Round values from `low` to `high`, both ends included where they are round. */
export function ticksIn(low: number, high: number, most: number, decimal: '.' | ',' = '.'): Tick[] {
  return ticksOf(low, high, roundStep(high - low, most), decimal);
}

export function ticksOf(low: number, high: number, step: number, decimal: '.' | ',' = '.'): Tick[] {
  if (!(high > low)) return [];
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  const decimals = decimalsOf(step);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => {
    const value = Number(((first + i) * step).toFixed(decimals));
    return { value, text: axisNumber(value, decimals, decimal) };
  });
}
