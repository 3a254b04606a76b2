import type { Amount, AmountKind, AnyAmount, Unquantified } from '../quantity/amount.ts';

/** One figure as written: its middle where it is a range, and half a unit in its last digit. */
export interface Stated {
  readonly value: number;
  readonly half: number;
  /** One unit of the last figure; none of a count of drops, of the middle of a range, of a guess. */
  readonly lastDigit?: number;
  readonly text: string;
  readonly assumed: readonly string[];
}

/** What a sentence says of how much of one material is taken, sorted by what it measures. */
export interface Measures {
  readonly mass_g?: Stated;
  readonly volume_mL?: Stated;
  readonly amount_mmol?: Stated;
  readonly equivalents?: Stated;
  readonly molePercent?: Stated;
  /** "excess", "until pH 1", "a little". */
  readonly words?: Unquantified;
  /** Brought to a pH: as much as that takes. */
  readonly toPH?: Stated;
}

const FIELD: Partial<Record<AmountKind, keyof Omit<Measures, 'words'>>> = {
  mass: 'mass_g',
  volume: 'volume_mL',
  drops: 'volume_mL',
  amount: 'amount_mmol',
  equivalents: 'equivalents',
  moleFraction: 'molePercent',
  pH: 'toPH',
};

/** The first figure of each kind; further ones of the same kind are left alone. */
export function readMeasures(amounts: readonly AnyAmount[]): Measures {
  const found: { -readonly [K in keyof Measures]: Measures[K] } = {};
  for (const amount of amounts) {
    if (amount.kind === 'unquantified') {
      found.words ??= amount;
      const guess = amount.assumed;
      if (guess === undefined) continue;
      const text = `${amount.text}: ${guess.value} ${guess.kind === 'mass' ? 'g' : 'mL'}`;
      const assumed = [`${text} (${guess.source})`];
      const stated = { value: guess.value, half: 0.5 * guess.value, text, assumed };
      if (guess.kind === 'mass') found.mass_g ??= stated;
      else found.volume_mL ??= stated;
      continue;
    }
    const field = FIELD[amount.kind];
    if (field !== undefined) found[field] ??= stated(amount);
  }
  return found;
}

function stated(amount: Amount): Stated {
  const assumed: string[] = amount.assumed === undefined ? [] : [amount.assumed];
  let value = amount.value;
  let half = halfUnit(amount.value, amount.digits);
  if (amount.high !== undefined) {
    value = (amount.value + amount.high) / 2;
    half = Math.max(half, (amount.high - amount.value) / 2);
    assumed.push(`${amount.text}: the middle of the range is counted`);
  }
  if (amount.upTo === true) assumed.push(`${amount.text}: all of it is counted`);
  const plain = amount.high === undefined && amount.kind !== 'drops' && half > 0;
  return { value, half, ...(plain && { lastDigit: 2 * half }), text: amount.text, assumed };
}

/** Half a unit in the last digit written: 0.005 for 1.12, 0.5 for 10. */
function halfUnit(value: number, digits: number): number {
  if (value === 0 || digits <= 0) return 0;
  return 0.5 * 10 ** (Math.floor(Math.log10(Math.abs(value))) - digits + 1);
}
