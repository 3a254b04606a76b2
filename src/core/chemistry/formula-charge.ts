const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹';
const SUBSCRIPTS = '₀₁₂₃₄₅₆₇₈₉';
export const MINUS = '-−–⁻';
const PLUS = '+⁺';

/** Digits of a text whose digits may be raised or lowered; anything else is left out. */
export function digitsOf(text: string): string {
  return Array.from(text)
    .map((c) => {
      const raised = SUPERSCRIPTS.indexOf(c);
      const lowered = SUBSCRIPTS.indexOf(c);
      return raised >= 0 ? String(raised) : lowered >= 0 ? String(lowered) : /\d/.test(c) ? c : '';
    })
    .join('');
}

export interface ChargeRead {
  readonly charge: number;
  readonly end: number;
}

const signOf = (text: string): 1 | -1 => (Array.from(text).some((c) => MINUS.includes(c)) ? -1 : 1);

const SIGN = `[${PLUS}${MINUS.replace('-', '\\-')}]`;
/** What may follow a charge: nothing, a hydrate's dot, a space, the bracket around an ion. */
const AFTER = '(?=$|[\\s\\]}·•∙⋅・.*])';
const FORMS = [
  new RegExp(`\\^\\{?(\\d*)(${SIGN})(\\d*)\\}?${AFTER}`, 'y'),
  new RegExp(`\\((\\d*)(${SIGN})\\)()${AFTER}`, 'y'),
  new RegExp(`([${SUPERSCRIPTS}]*)(${SIGN})([${SUPERSCRIPTS}]*)${AFTER}`, 'y'),
  new RegExp(`(\\d*)(${SIGN})(\\d*)${AFTER}`, 'y'),
];
const REPEATED = new RegExp(`(\\+{2,9}|[${MINUS.replace('-', '\\-')}]{2,9})${AFTER}`, 'y');

/** The charge that stands at `at` and ends its formula, in any of the usual ways of writing it. */
export function readCharge(text: string, at: number): ChargeRead | undefined {
  REPEATED.lastIndex = at;
  const repeated = REPEATED.exec(text)?.[0];
  if (repeated !== undefined)
    return { charge: signOf(repeated) * repeated.length, end: at + repeated.length };
  for (const form of FORMS) {
    form.lastIndex = at;
    const match = form.exec(text);
    if (match === null) continue;
    const digits = digitsOf(`${match[1]}${match[3]}`);
    if (match[1] !== '' && match[3] !== '') continue;
    const size = digits === '' ? 1 : Number(digits);
    return { charge: signOf(match[2]!) * size, end: at + match[0].length };
  }
  return undefined;
}

/** What the digits of `X42-` mean, when they stand on one line with a single sign after them. */
export interface CountAndCharge {
  readonly count: number;
  readonly charge: number;
  readonly assumed?: string;
}

export interface BeforeDigits {
  /** The element symbol, or the closing bracket, that the digits follow. */
  readonly symbol: string;
  /** Nothing else stands in this part of the formula. */
  readonly alone: boolean;
}

const HALOGENS = ['F', 'Cl', 'Br', 'I'];
const HYDROGENS = ['H', 'D', 'T'];
/** Ends of the ions whose charge is commonly run together with the count: SO42-, PtCl62-, Cu(NH3)42+. */
const ENDS_OF_IONS = ['O', 'S', ...HALOGENS, ')'];
/** Where both readings are ions that people use. */
const BOTH: Readonly<Record<string, string>> = {
  'N3-': 'azide is written N3^-',
  'O2-': 'superoxide is written O2^-',
  'C2-': 'acetylide is written C2^2-',
};

/**
 * Divides the digits before a plain sign between count and charge, by the custom of the trade:
 * `Cu2+` is copper two plus, `[Fe(CN)6]4-` has charge 4-, `NH4+` has four hydrogens, `SO42-` is
 * sulfate. A caret or raised digits leave nothing to divide.
 */
export function divideDigits(digits: string, sign: 1 | -1, before: BeforeDigits): CountAndCharge {
  const last = Number(digits.slice(-1));
  const rest = Number(digits.slice(0, -1) || '1');
  const mark = sign > 0 ? '+' : '-';
  const said = (count: number, charge: number): CountAndCharge => ({
    count,
    charge: charge * sign,
    assumed: `${before.symbol}${digits}${mark} is read with count ${count} and charge ${charge}${mark}; a caret (^) before the charge settles it.`,
  });
  if (before.symbol === ']' || before.symbol === '}')
    return { count: 1, charge: sign * Number(digits) };
  if (before.alone) {
    if (HYDROGENS.includes(before.symbol) || (HALOGENS.includes(before.symbol) && sign < 0))
      return said(Number(digits), 1);
    if (digits.length > 1) return said(rest, last);
    const other = BOTH[`${before.symbol}${digits}${mark}`];
    if (other === undefined) return { count: 1, charge: sign * last };
    return {
      ...said(1, last),
      assumed: `${before.symbol}${digits}${mark} is read as charge ${last}${mark}; ${other}.`,
    };
  }
  if (digits.length === 2 && last >= 2 && last <= 4 && ENDS_OF_IONS.includes(before.symbol))
    return said(rest, last);
  return { count: Number(digits), charge: sign };
}

const DIGITS_AND_SIGN = new RegExp(
  `(\\d+)([+${MINUS.replace('-', '\\-').replace('⁻', '')}])${AFTER}`,
  'y',
);

/** Plain digits with one plain sign after them at the end of a part; undefined where there are none. */
export function digitsAndSign(
  text: string,
  at: number,
): { digits: string; sign: 1 | -1; end: number } | undefined {
  DIGITS_AND_SIGN.lastIndex = at;
  const match = DIGITS_AND_SIGN.exec(text);
  if (match === null) return undefined;
  return { digits: match[1]!, sign: signOf(match[2]!), end: at + match[0].length };
}
