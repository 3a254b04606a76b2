import type { AmountKind } from './amount-model.ts';
import type { Numeral } from './numeral.ts';
import { BLANK, GAP, LETTER, WORD_END, afterAbbreviationStop, matchAt, sticky } from './text.ts';

/**
 * A unit and how people write it. A unit that differs from the base unit by a power of ten says
 * `power`, so that 12.5 mg becomes exactly the number that "0.0125" is; the others say `factor`.
 */
export interface Unit {
  readonly kind: AmountKind;
  /** Standard spelling. */
  readonly unit: string;
  readonly power?: number;
  readonly factor?: number;
  /** Added after the factor, for temperatures. */
  readonly offset?: number;
}

interface Spelling extends Unit {
  /** Regular expression of the spellings in which upper and lower case matter. */
  readonly symbol?: string;
  /** Of the spellings in which they do not. */
  readonly word?: string;
  /** One of the many that `CONCENTRATION` begins. */
  readonly compound?: true;
}

/** Volume of one drop of an aqueous liquid from a dropping pipette: common practice. */
export const DROP_mL = 0.05;

const MICRO = '(?:[µμu])';
const CUBED = '(?:³|\\^?3)';
const LITRE_WORD = 'lit(?:re|er)s?';

// Conversion factors: SI Brochure, 9th ed. (2019), tables 2-8; conventional mmHg 0.133322 kPa.
const SIMPLE: readonly Spelling[] = [
  { kind: 'mass', unit: 'kg', power: 3, symbol: '[kK][gG]s?', word: 'kilogram(?:me)?s?' },
  { kind: 'mass', unit: 'g', power: 0, symbol: 'g(?:ms?|rms?)?', word: 'gram(?:me)?s?' },
  { kind: 'mass', unit: 'mg', power: -3, symbol: 'mgs?', word: 'milligram(?:me)?s?' },
  { kind: 'mass', unit: 'µg', power: -6, symbol: `${MICRO}g`, word: 'microgram(?:me)?s?' },
  { kind: 'volume', unit: 'L', power: 3, symbol: '[Llℓ]', word: LITRE_WORD },
  { kind: 'volume', unit: 'mL', power: 0, symbol: 'm[Ll]s?', word: `milli${LITRE_WORD}` },
  { kind: 'volume', unit: 'µL', power: -3, symbol: `${MICRO}[Ll]`, word: `micro${LITRE_WORD}` },
  { kind: 'volume', unit: 'cm³', power: 0, symbol: `(?:cm${CUBED}|ccs?)` },
  { kind: 'volume', unit: 'dm³', power: 3, symbol: `dm${CUBED}` },
  { kind: 'amount', unit: 'kmol', power: 6, symbol: 'kmol' },
  { kind: 'amount', unit: 'mol', power: 3, word: 'mol(?:es?|s)?' },
  { kind: 'amount', unit: 'mmol', power: 0, symbol: 'm[Mm](?:ol|OL)s?', word: 'millimoles?' },
  { kind: 'amount', unit: 'µmol', power: -3, symbol: `${MICRO}mol`, word: 'micromoles?' },
  {
    kind: 'equivalents',
    unit: 'equiv',
    power: 0,
    word: `(?:eqs?|equivs?|equivalents?|molar${GAP}equivalents?)`,
  },
  { kind: 'moleFraction', unit: 'mol%', power: 0, word: `mol(?:e)?(?:${BLANK}?|-)(?:%|per ?cent)` },
  { kind: 'molarity', unit: 'M', power: 0, symbol: 'M', word: 'molar' },
  { kind: 'molarity', unit: 'mM', power: -3, symbol: 'mM' },
  { kind: 'molarity', unit: 'µM', power: -6, symbol: `${MICRO}M` },
  { kind: 'molarity', unit: 'N', power: 0, symbol: 'N', word: 'normal' },
  ...percent('massPercent', '% w/w', 'w/w|m/m|wt/wt|by (?:mass|weight)', 'wt\\.?|mass|weight|w/w'),
  ...percent('volumePercent', '% v/v', 'v/v|vol/vol|by volume', 'vol\\.?|volume|v/v'),
  ...percent('massVolumePercent', '% w/v', 'w/v|m/v|wt/vol', 'w/v|m/v'),
  { kind: 'percent', unit: '%', power: 0, word: '(?:%|per ?cent)' },
  {
    kind: 'temperature',
    unit: '°C',
    power: 0,
    symbol: `(?:[°º˚]${BLANK}?C|℃|[Dd]eg(?:rees?)?\\.?${GAP}(?:C|[Cc]elsius|[Cc]entigrade))`,
  },
  { kind: 'temperature', unit: 'K', factor: 1, offset: -273.15, symbol: 'K', word: 'kelvins?' },
  {
    kind: 'temperature',
    unit: '°F',
    factor: 5 / 9,
    offset: -160 / 9,
    symbol: `(?:[°º˚]${BLANK}?F|℉|[Dd]eg(?:rees?)?\\.?${GAP}(?:F|[Ff]ahrenheit))`,
  },
  { kind: 'time', unit: 's', factor: 1 / 60, symbol: 's', word: '(?:secs?|seconds?)' },
  { kind: 'time', unit: 'min', power: 0, word: '(?:mins?|minutes?)' },
  { kind: 'time', unit: 'h', factor: 60, symbol: 'h', word: '(?:hrs?|hours?)' },
  { kind: 'time', unit: 'd', factor: 1440, symbol: 'd', word: 'days?' },
  { kind: 'time', unit: 'weeks', factor: 10080, word: 'weeks?' },
  { kind: 'pressure', unit: 'Pa', power: -3, symbol: 'Pa' },
  { kind: 'pressure', unit: 'hPa', power: -1, symbol: 'hPa' },
  { kind: 'pressure', unit: 'kPa', power: 0, word: 'kPa' },
  { kind: 'pressure', unit: 'MPa', power: 3, symbol: 'MPa' },
  { kind: 'pressure', unit: 'mbar', power: -1, symbol: 'mbar' },
  { kind: 'pressure', unit: 'bar', power: 2, symbol: 'bar' },
  { kind: 'pressure', unit: 'atm', factor: 101.325, symbol: 'atm' },
  { kind: 'pressure', unit: 'mmHg', factor: 0.133322, word: `mm${BLANK}?hg` },
  { kind: 'pressure', unit: 'Torr', factor: 101.325 / 760, word: 'torr' },
  { kind: 'length', unit: 'nm', power: -6, symbol: 'nm' },
  { kind: 'length', unit: 'µm', power: -3, symbol: `${MICRO}m` },
  { kind: 'length', unit: 'mm', power: 0, symbol: 'mm', word: 'millimet(?:re|er)s?' },
  { kind: 'length', unit: 'cm', power: 1, symbol: 'cm', word: 'centimet(?:re|er)s?' },
  {
    kind: 'frequency',
    unit: 'rpm',
    power: 0,
    word: `(?:rpm|r\\.p\\.m\\.?|rev(?:olutions?)?(?:/min|${GAP}per${GAP}minute))`,
  },
  {
    kind: 'frequency',
    unit: 'drops/s',
    factor: 60,
    word: `drops?(?:/s(?:ec)?|${GAP}(?:per|a|each)${GAP}second)`,
  },
  {
    kind: 'frequency',
    unit: 'drops/min',
    power: 0,
    word: `drops?(?:/min|${GAP}(?:per|a|each)${GAP}minute)`,
  },
  { kind: 'drops', unit: 'drops', factor: DROP_mL, word: 'drops?' },
];

function percent(kind: AmountKind, unit: string, after: string, before: string): Spelling[] {
  const word = `(?:(?:%|per ?cent)${GAP}(?:\\((?:${after})\\)|(?:${after})${WORD_END})|(?:${before})(?:${BLANK}?|-)(?:%|per ?cent))`;
  return [{ kind, unit, power: 0, word }];
}

interface Part {
  readonly unit: string;
  readonly pattern: string;
  readonly power: number;
}

const MASSES: readonly Part[] = [
  { unit: 'g', pattern: 'g', power: 0 },
  { unit: 'kg', pattern: 'kg', power: 3 },
  { unit: 'mg', pattern: 'mg', power: -3 },
  { unit: 'µg', pattern: `${MICRO}g`, power: -6 },
];
const AMOUNTS: readonly Part[] = [
  { unit: 'mol', pattern: 'mol', power: 0 },
  { unit: 'mmol', pattern: 'mmol', power: -3 },
  { unit: 'µmol', pattern: `${MICRO}mol`, power: -6 },
];
/** `power` is that of the volume in mL. */
const VOLUMES: readonly (Part & { readonly cubed: boolean })[] = [
  { unit: 'L', pattern: '[Ll]', power: 3, cubed: false },
  { unit: 'mL', pattern: 'm[Ll]', power: 0, cubed: false },
  { unit: 'dm', pattern: 'dm', power: 3, cubed: true },
  { unit: 'cm', pattern: 'cm', power: 0, cubed: true },
  { unit: 'm', pattern: 'm', power: 6, cubed: true },
];

const PER = `(?:${BLANK}?/${BLANK}?|${GAP}per${GAP})`;
const TIMES = `(?:${BLANK}?[·⋅.]${BLANK}?|${BLANK})`;
const anyOf = (parts: readonly Part[]) => parts.map(({ pattern }) => pattern).join('|');
/** How each of the concentrations begins: where this does not match, none of them is tried. */
const CONCENTRATION = sticky(
  `(?:${anyOf([...MASSES, ...AMOUNTS])})(?:${PER}|${TIMES})(?:${anyOf(VOLUMES)})`,
);

/** "mol/L", "mol dm⁻³", "g mL-1" and their like. */
function concentrations(kind: AmountKind, tops: readonly Part[], shift: number): Spelling[] {
  return tops.flatMap((top) =>
    VOLUMES.flatMap((below) => {
      const power = top.power - below.power + shift;
      const exponent = below.cubed ? '3' : '1';
      const raised = `(?:\\^?[-−–]${exponent}|⁻${below.cubed ? '³' : '¹'})`;
      const cube = below.cubed ? CUBED : '';
      const slash: Spelling = {
        kind,
        unit: `${top.unit}/${below.unit}${below.cubed ? '³' : ''}`,
        power,
        compound: true,
        symbol: `${top.pattern}${PER}${below.pattern}${cube}`,
      };
      const inverse: Spelling = {
        kind,
        unit: `${top.unit} ${below.unit}${below.cubed ? '⁻³' : '⁻¹'}`,
        power,
        compound: true,
        symbol: `${top.pattern}${TIMES}${below.pattern}${raised}`,
      };
      return [slash, inverse];
    }),
  );
}

const SPELLINGS: readonly Spelling[] = [
  ...SIMPLE,
  ...concentrations('molarity', AMOUNTS, 3),
  ...concentrations('massPerVolume', MASSES, 0),
  { kind: 'massPerVolume', unit: 'g/100 mL', power: -2, symbol: `g/100${BLANK}?m[Ll]` },
];

// After a unit no letter, figure, power or "/unit" may follow: "5 g/kg" is no mass.
const UNIT_END = `${WORD_END}(?![⁻^]|/[${LETTER}])`;
/** "N-methyl...", "N,N-dimethyl..." begin a name; 2 N, 2 M and 300 K are followed by a blank. */
const NAME_FOLLOWS = sticky(`[-,][${LETTER}(]|,[0-9N]`);

interface Matcher {
  readonly spelling: Spelling;
  readonly expression: RegExp;
}

/**
 * The expressions by the character that each begins with, so that a place in a text is tried with
 * the few that can match there, and the others are never compiled.
 */
const MATCHERS = new Map<string, Matcher[]>();
for (const spelling of SPELLINGS) {
  const { symbol, word } = spelling;
  if (symbol !== undefined) file(spelling, symbol, '');
  if (word !== undefined) file(spelling, word, 'i');
}

function file(spelling: Spelling, pattern: string, flags: string): void {
  const matcher = { spelling, expression: sticky(pattern + endOf(spelling), flags) };
  for (const first of firstCharacters(pattern)) {
    const cases = flags === 'i' ? new Set([first, first.toUpperCase()]) : [first];
    for (const key of cases) MATCHERS.set(key, [...(MATCHERS.get(key) ?? []), matcher]);
  }
}

/** What a pattern of this file can begin with: a character, a class, or a group of alternatives. */
function firstCharacters(pattern: string): readonly string[] {
  if (pattern.startsWith('[')) return pattern.slice(1, pattern.indexOf(']')).split('');
  if (!pattern.startsWith('(?:')) return [pattern[0]!];
  return alternatives(pattern.slice(3)).flatMap(firstCharacters);
}

/** The alternatives of a group that has just been opened. */
function alternatives(pattern: string): string[] {
  const parts = [''];
  let depth = 0;
  let inClass = false;
  for (let i = 0; i < pattern.length; i++) {
    const c = pattern[i]!;
    if (c === '\\') {
      parts.push(`${parts.pop()}${c}${pattern[++i]}`);
      continue;
    }
    if (inClass) inClass = c !== ']';
    else if (c === '[') inClass = true;
    else if (c === '(') depth++;
    else if (c === ')' && depth-- === 0) break;
    if (c === '|' && depth === 0 && !inClass) parts.push('');
    else parts.push(`${parts.pop()}${c}`);
  }
  return parts;
}

function endOf(spelling: Spelling): string {
  return spelling.unit.endsWith('%') || spelling.unit.startsWith('%') ? '' : UNIT_END;
}

const BY_SPELLING = new Map(SPELLINGS.map((spelling) => [spelling.unit, spelling as Unit]));

/** The unit of this standard spelling. */
export function unitNamed(unit: string): Unit | undefined {
  return BY_SPELLING.get(unit);
}

/** Every standard spelling, for tests and for help. */
export function unitNames(): readonly string[] {
  return [...BY_SPELLING.keys()];
}

const BEFORE_UNIT = sticky(GAP);
const HYPHEN = sticky(`[-‐‑](?=[${LETTER}])`);
const ABBREVIATION = sticky('(?:eqs?|equivs?|mins?|hrs?|secs?|gms?|rpm)\\.', 'i');

export interface UnitReading {
  readonly unit: Unit;
  /** Where the unit itself begins, after the gap. */
  readonly start: number;
  readonly end: number;
}

/** The unit that follows a number which ends at `at`: " mL", "mL", "-mL". The longest wins. */
export function readUnitAt(text: string, at: number): UnitReading | undefined {
  const hyphen = matchAt(HYPHEN, text, at) !== null;
  const start = hyphen ? at + 1 : at + (matchAt(BEFORE_UNIT, text, at)?.[0].length ?? 0);
  let best: UnitReading | undefined;
  const matchers = MATCHERS.get(text[start] ?? '') ?? [];
  const compound = matchers.length > 0 && matchAt(CONCENTRATION, text, start) !== null;
  for (const { spelling, expression } of matchers) {
    if (spelling.compound === true && !compound) continue;
    const found = matchAt(expression, text, start);
    if (found === null) continue;
    const end = start + found[0].length;
    if (best === undefined || end > best.end) best = { unit: spelling, start, end };
  }
  if (best === undefined) return undefined;
  const single = /^[MNK]$/.test(text.slice(start, best.end));
  if (single && (hyphen || matchAt(NAME_FOLLOWS, text, best.end) !== null)) return undefined;
  const stop = matchAt(ABBREVIATION, text, start);
  if (stop !== null && start + stop[0].length === best.end + 1)
    return { ...best, end: afterAbbreviationStop(text, best.end) };
  return best;
}

interface Mistake {
  readonly expression: RegExp;
  readonly message: string;
  readonly hint: string;
  /** The unit that is meant, where there is no doubt. */
  readonly meant?: string;
}

function mistake(pattern: string, message: string, hint: string, flags = ''): Mistake {
  return { expression: sticky(GAP + pattern + UNIT_END, flags), message, hint };
}

function slip(pattern: string, meant: string, message: string, hint: string): Mistake {
  return { ...mistake(pattern, message, hint), meant };
}

const MISTAKES: readonly Mistake[] = [
  mistake(
    '(?:lbs?|pounds?|oz|ounces?|grains?)',
    'an avoirdupois mass is not taken',
    'give grams',
    'i',
  ),
  mistake(
    `(?:fl\\.?${BLANK}?oz|cups?|tsps?|teaspoons?|teaspoonfuls?|tbsps?|tablespoons?|pints?|quarts?|gallons?)`,
    'a kitchen measure is not taken',
    'give millilitres',
    'i',
  ),
  mistake('psi', 'psi is not taken', 'give kPa, bar or mbar', 'i'),
  slip('M[Ll]s?', 'mL', 'a capital M means mega', 'write mL for millilitres'),
  slip('M[Gg]', 'mg', 'a capital M means mega', 'write mg for milligrams'),
  slip('M(?:mol|MOL|Mol)', 'mmol', 'a capital M means mega', 'write mmol for millimoles'),
  mistake('M[Mm]', 'a capital M means mega', 'write mM for millimolar, mm for millimetres'),
  slip('U[Ll]', 'µL', 'U is no prefix', 'write µL or uL for microlitres'),
  slip('G', 'g', 'a capital G is no unit of mass', 'write g for grams'),
  slip('C', '°C', 'C alone is the coulomb, or carbon', 'write °C'),
  slip('[°º˚]', '°C', 'the degree sign stands alone', 'write °C'),
];

const RATE = sticky(
  `(?:${GAP}(?:/|per${GAP})${GAP}(?:min(?:ute)?|s|sec(?:ond)?|h|hr|hour)${WORD_END}|${BLANK}?[·⋅]?(?:min|s|h)(?:⁻¹|\\^?[-−]1(?![0-9])))`,
  'i',
);

/** What is wrong with what follows a number: a unit that is not taken, or a rate. */
export function unitMistakeAt(
  text: string,
  at: number,
): { readonly message: string; readonly hint: string; readonly end: number } | undefined {
  for (const { expression, message, hint } of MISTAKES) {
    const found = matchAt(expression, text, at);
    if (found !== null) return { message, hint, end: at + found[0].length };
  }
  return undefined;
}

/** "10 ML" as it is meant, "10 mL"; undefined where that is not plain. */
export function unitMeant(text: string): string | undefined {
  const figures = /^[^\p{L}°º˚]*/u.exec(text)![0];
  const at = figures.trimEnd().length;
  const found = MISTAKES.find(
    ({ expression }) => matchAt(expression, text, at)?.[0].length === text.length - at,
  );
  return found?.meant === undefined ? undefined : `${text.slice(0, at)} ${found.meant}`;
}

const LOOSE_UNIT = sticky(
  `${GAP}(?:[kmµμu]?g|m?[Ll]|[mµμ]?mol|°${BLANK}?[CF])(?=/|${BLANK}(?:per|min|s|h)|[·⋅])`,
);

/** "5 mL/min" and its like, from the end of the number; a rate is no amount. */
export function rateAt(text: string, at: number): number | undefined {
  const loose = matchAt(LOOSE_UNIT, text, at);
  if (loose === null) return undefined;
  const rate = matchAt(RATE, text, at + loose[0].length);
  return rate === null ? undefined : at + loose[0].length + rate[0].length;
}

/** A written number in the base unit of its kind. */
export function toBase(numeral: Numeral, unit: Unit): number {
  const sign = numeral.negative ? '-' : '';
  const shift = numeral.exponent + (unit.power ?? 0);
  const value = Number(`${sign}${numeral.mantissa}e${shift}`);
  if (unit.factor === undefined) return value + 0;
  // Rounding to more figures than are ever written keeps 1.1 h at 66 min.
  return tidy(value * unit.factor + (unit.offset ?? 0));
}

/** A value in the base unit of its kind, in this unit. */
export function fromBase(value: number, unit: Unit): number {
  if (unit.factor !== undefined) return tidy((value - (unit.offset ?? 0)) / unit.factor);
  const [mantissa, exponent] = value.toExponential().split('e');
  return Number(`${mantissa}e${Number(exponent) - (unit.power ?? 0)}`);
}

function tidy(value: number): number {
  return Number(value.toPrecision(14));
}
