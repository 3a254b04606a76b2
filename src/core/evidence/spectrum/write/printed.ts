/** Values as integers with one power of ten, where that loses nothing. */
export interface Grid {
  /** The values are integer / 10^decimals, exactly. */
  readonly decimals: number;
  /** NaN where there is no value. */
  readonly integers: Float64Array;
}

const GREATEST = 2 ** 31 - 1;
const MOST_DECIMALS = 15;

function onGrid(values: Float64Array, decimals: number): Float64Array | undefined {
  const power = 10 ** decimals;
  const integers = new Float64Array(values.length);
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    const integer = Math.round(value * power);
    if (Number.isNaN(value)) integers[i] = Number.NaN;
    else if (Math.abs(integer) > GREATEST || integer / power !== value) return undefined;
    else integers[i] = integer;
  }
  return integers;
}

/** The coarsest decimal grid on which every value stands exactly; undefined where there is none. */
export function gridOf(values: Float64Array): Grid | undefined {
  for (let decimals = 0; decimals <= MOST_DECIMALS; decimals++) {
    const integers = onGrid(values, decimals);
    if (integers !== undefined) return { decimals, integers };
  }
  return undefined;
}

/** The shortest decimal that is read back as the same number; ? where there is none. */
export const decimalText = (value: number): string =>
  Number.isFinite(value) ? String(value) : '?';
