import { shortestDecimals } from '../../../core/record/entry.ts';

export type DecimalSign = '.' | ',';

/** How a number may be typed. */
export interface Typing {
  readonly sign: DecimalSign;
  /** A temperature may lie below zero; a mass may not. */
  readonly minus: boolean;
}

/** A number with the decimals that it was typed with. */
export interface TypedNumber {
  readonly value: number;
  /** Only where the number was typed with noughts at its end: 1.1200. */
  readonly decimals?: number;
}

const MOST_CHARACTERS = 12;

/** What stands after a key was pressed; a key that makes no number there changes nothing. */
export function afterKey(text: string, key: string, { sign, minus }: Typing): string {
  if (key === '-') {
    if (!minus) return text;
    return text.startsWith('-') ? text.slice(1) : `-${text}`;
  }
  if (text.length >= MOST_CHARACTERS) return text;
  if (key === '.' || key === ',') {
    if (text.includes(sign)) return text;
    return /\d$/.test(text) ? text + sign : `${text}0${sign}`;
  }
  return /^\d$/.test(key) ? text + key : text;
}

/** What of a pasted or typed text can be the beginning of a number. */
export function onlyNumber(text: string, typing: Typing): string {
  const negative = typing.minus && /^\s*[-−]/.test(text);
  const digits = Array.from(text.replace(/[-−]/g, '')).reduce(
    (typed, key) => afterKey(typed, key, typing),
    '',
  );
  return negative ? `-${digits}` : digits;
}

/** Undefined while there is no number yet. */
export function numberOf(text: string, sign: DecimalSign): TypedNumber | undefined {
  const plain = text.replace(sign, '.');
  if (!/^-?\d+\.?\d*$/.test(plain)) return undefined;
  const value = Number(plain);
  const decimals = plain.split('.')[1]?.length ?? 0;
  // "-0" is nothing that anybody means.
  const meant = value === 0 ? 0 : value;
  return decimals > shortestDecimals(meant) ? { value: meant, decimals } : { value: meant };
}

/** A number as it was written down, in the laboratory's decimal sign. */
export function numberText({ value, decimals = 0 }: TypedNumber, sign: DecimalSign): string {
  return value
    .toFixed(Math.min(20, Math.max(decimals, shortestDecimals(value))))
    .replace('.', sign)
    .replace('-', '−');
}

/** A text of the sheet in the laboratory's decimal sign. */
export function inSign(text: string, sign: DecimalSign): string {
  return sign === '.' ? text : text.replace(/(\d)\.(\d)/g, '$1,$2');
}
