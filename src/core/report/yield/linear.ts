import type { MonteCarloInput } from '../../quantity/monte-carlo.ts';
import type { Uncertain } from '../../quantity/uncertain.ts';

/** An independent input of a yield: a reading, a planned amount, an atomic weight. */
export interface YieldInput extends MonteCarloInput {
  readonly what: string;
  /** `planned`: not measured, taken as written. `assumed`: measured, its instrument guessed. */
  readonly basis: 'measured' | 'planned' | 'assumed' | 'table';
}

/** A value and its slope for each input, about the inputs' best values. */
export interface Linear {
  readonly value: number;
  readonly slopes: ReadonlyMap<string, number>;
}

export function constant(value: number): Linear {
  return { value, slopes: new Map() };
}

/** value + Σ slope·term, the terms' own values being counted in `value` already. */
export function withSlopes(
  value: number,
  terms: readonly { readonly slope: number; readonly of: Linear }[],
): Linear {
  const slopes = new Map<string, number>();
  for (const { slope, of } of terms) {
    if (slope === 0) continue;
    for (const [id, own] of of.slopes) slopes.set(id, (slopes.get(id) ?? 0) + slope * own);
  }
  return { value, slopes };
}

export function sumOfLinear(terms: readonly Linear[]): Linear {
  const value = terms.reduce((total, term) => total + term.value, 0);
  return withSlopes(
    value,
    terms.map((of) => ({ slope: 1, of })),
  );
}

/** For propagation: each slope times the input's standard uncertainty. */
export function toUncertain(of: Linear, inputs: ReadonlyMap<string, YieldInput>): Uncertain {
  const parts = new Map<string, number>();
  for (const [id, slope] of of.slopes) {
    const part = slope * (inputs.get(id)?.u ?? 0);
    if (part !== 0) parts.set(id, part);
  }
  return { value: of.value, parts };
}
