import { addCompositions, compositionOf, isNothing, scaleComposition } from './composition.ts';
import type { Composition } from './composition.ts';
import { digitsAndSign, digitsOf, divideDigits, readCharge } from './formula-charge.ts';
import { nearSymbol, readSymbol } from './formula-symbol.ts';

export type FormulaReading =
  | {
      readonly ok: true;
      readonly composition: Composition;
      /** Said where the writing allows two readings: which one was taken. */
      readonly assumed?: string;
    }
  | {
      readonly ok: false;
      readonly message: string;
      readonly hint?: string;
      readonly column: number;
    };

const LONGEST = 2000;
const DEEPEST = 50;
const LARGEST = 1e6;

const DOT = /\s*[·•∙⋅・.*]\s*/y;
const COEFFICIENT = /(\d+)\s*\/\s*(\d+)\s*|(\d+(?:\.\d+)?)?([½¼¾⅓⅔])\s*|(\d+(?:\.\d+)?)\s*/y;
const COUNT = /[₀-₉]+|0\.\d+|\d+|\((?:\d+\.)?\d+\)/y;
const ELECTRON = /^\s*e\s*(?:\^?1?[-−–⁻]|\(-\))\s*$/;
const VULGAR: Readonly<Record<string, number>> = {
  '½': 1 / 2,
  '¼': 1 / 4,
  '¾': 3 / 4,
  '⅓': 1 / 3,
  '⅔': 2 / 3,
};
const CLOSES: Readonly<Record<string, string>> = { ')': '(', ']': '[', '}': '{' };

interface Bracket {
  readonly open: string;
  readonly at: number;
  readonly counts: Map<string, number>;
}

/** A formula half read. `brackets[0]` is the part itself; the rest are brackets still open. */
interface Reader {
  readonly text: string;
  at: number;
  brackets: Bracket[];
  coefficient: number;
  charge: number | undefined;
  /** Symbols and brackets met in this part at its outermost level. */
  items: number;
  readonly parts: { composition: Composition; coefficient: number }[];
  assumed: string | undefined;
}

class Refusal extends Error {
  constructor(
    message: string,
    readonly column: number,
    readonly hint?: string,
  ) {
    super(message);
  }
}

function matchAt(pattern: RegExp, reader: Reader): RegExpExecArray | null {
  pattern.lastIndex = reader.at;
  return pattern.exec(reader.text);
}

function add(
  to: Map<string, number>,
  atoms: Iterable<readonly [string, number]>,
  times: number,
  at: number,
): void {
  for (const [symbol, count] of atoms) {
    const sum = (to.get(symbol) ?? 0) + count * times;
    if (sum > LARGEST)
      throw new Refusal('A count above 1,000,000 is no formula of a substance.', at);
    to.set(symbol, sum);
  }
}

/** The count after a symbol or bracket; where digits run into a sign, the charge is read as well. */
function readCount(reader: Reader, symbol: string): number {
  const outermost = reader.brackets.length === 1 || aroundIon(reader);
  const mixed = outermost ? digitsAndSign(reader.text, reader.at) : undefined;
  if (mixed !== undefined) {
    const divided = divideDigits(mixed.digits, mixed.sign, { symbol, alone: reader.items === 1 });
    reader.at = mixed.end;
    setCharge(reader, divided.charge, mixed.end);
    reader.assumed = divided.assumed ?? reader.assumed;
    return checkedCount(divided.count, reader.at);
  }
  const match = matchAt(COUNT, reader);
  if (match === null) return 1;
  const at = reader.at;
  reader.at += match[0].length;
  const written = match[0].replace(/[()]/g, '');
  return checkedCount(Number(written.includes('.') ? written : digitsOf(written)), at);
}

function checkedCount(count: number, at: number): number {
  if (count === 0) throw new Refusal('A count of 0 stands for nothing.', at, 'Leave it out.');
  if (count > LARGEST)
    throw new Refusal('A count above 1,000,000 is no formula of a substance.', at);
  return count;
}

/** Inside the square bracket of an ion like `[Na+]`, which is all that its part holds. */
function aroundIon(reader: Reader): boolean {
  return (
    reader.brackets.length === 2 &&
    reader.brackets[1]!.open === '[' &&
    reader.brackets[0]!.counts.size === 0
  );
}

function setCharge(reader: Reader, charge: number, at: number): void {
  if (reader.charge !== undefined) throw new Refusal('A second charge.', at);
  if (Math.abs(charge) > LARGEST) throw new Refusal('The charge is too large.', at);
  reader.charge = charge;
}

function closeBracket(reader: Reader, closing: string): void {
  const bracket = reader.brackets.at(-1)!;
  if (reader.brackets.length === 1)
    throw new Refusal(`This ${closing} closes no bracket.`, reader.at);
  if (bracket.open !== CLOSES[closing])
    throw new Refusal(
      `This ${closing} meets the ${bracket.open} at column ${bracket.at + 1}.`,
      reader.at,
    );
  if (bracket.counts.size === 0) throw new Refusal('Empty brackets.', bracket.at);
  reader.brackets.pop();
  if (reader.brackets.length === 1) reader.items++;
  const at = reader.at++;
  const inside = reader.charge;
  const count = readCount(reader, closing);
  if (inside !== undefined && count !== 1)
    throw new Refusal(
      'A charge inside brackets that are counted.',
      at,
      'Write the charge at the end.',
    );
  add(reader.brackets.at(-1)!.counts, bracket.counts, count, at);
}

function endPart(reader: Reader): void {
  const open = reader.brackets.length > 1 ? reader.brackets.at(-1) : undefined;
  if (open !== undefined) throw new Refusal(`This ${open.open} is never closed.`, open.at);
  const composition = compositionOf(reader.brackets[0]!.counts, reader.charge ?? 0);
  if (isNothing(composition) || composition.counts.size === 0)
    throw new Refusal('Here a formula is missing.', reader.at);
  reader.parts.push({ composition, coefficient: reader.coefficient });
  reader.brackets = [{ open: '', at: reader.at, counts: new Map() }];
  reader.charge = undefined;
  reader.items = 0;
  reader.coefficient = 1;
}

function readCoefficient(reader: Reader): void {
  const match = matchAt(COEFFICIENT, reader);
  if (match === null) return;
  const [written, over, under, whole, vulgar, plain] = match;
  const value =
    over !== undefined
      ? Number(over) / Number(under)
      : vulgar !== undefined
        ? Number(whole ?? 0) + VULGAR[vulgar]!
        : Number(plain);
  if (!Number.isFinite(value) || value === 0)
    throw new Refusal('A coefficient of 0 or over 0.', reader.at);
  reader.coefficient = checkedCount(value, reader.at);
  reader.at += written.length;
}

function readDot(reader: Reader, length: number): void {
  if (reader.brackets.length > 1)
    throw new Refusal('The dot of a hydrate stands outside brackets.', reader.at);
  endPart(reader);
  reader.at += length;
  readCoefficient(reader);
}

function refuseCharacter(reader: Reader): never {
  const { text, at } = reader;
  const c = String.fromCodePoint(text.codePointAt(at)!);
  if (/\s/.test(c)) throw new Refusal('A space inside a formula.', at, 'Leave the space out.');
  if (/[nx]/.test(c) && at > 0 && reader.items === 0)
    throw new Refusal(`How much the ${c} stands for is not written.`, at, 'Write a number.');
  if (/^\((?:s|l|g|aq)\)/.test(text.slice(at - 1, at + 3)))
    throw new Refusal('A state mark is no part of a formula.', at - 1, 'Leave it out.');
  const near = nearSymbol(text, at);
  if (/\p{L}/u.test(c))
    throw new Refusal(`No element has the symbol ${c}.`, at, near && `Was ${near} meant?`);
  if (/[⁰¹²³⁴-⁹]/.test(c))
    throw new Refusal(
      'A raised number is read only as a charge.',
      at,
      'Deuterium is D, tritium T.',
    );
  if (/\d/.test(c)) throw new Refusal('This number counts nothing.', at);
  throw new Refusal(`${c} cannot stand in a formula.`, at);
}

/** Reads one thing at the present place and moves on. */
function step(reader: Reader): void {
  const { text, at } = reader;
  const c = text[at]!;
  const dot = matchAt(DOT, reader);
  if (dot !== null) return readDot(reader, dot[0].length);
  if (reader.items > 0 || reader.brackets.length > 1) {
    const spaces = /^\s*/.exec(text.slice(at, at + 9))![0].length;
    const charge = readCharge(text, at + spaces);
    if (charge !== undefined && (reader.brackets.length === 1 || aroundIon(reader))) {
      setCharge(reader, charge.charge, at);
      reader.at = charge.end;
      return;
    }
  }
  if (reader.charge !== undefined && !(c in CLOSES))
    throw new Refusal('Something stands after the charge.', at, 'Write the charge last.');
  if ('([{'.includes(c)) {
    if (reader.brackets.length > DEEPEST)
      throw new Refusal(`Brackets nested more than ${DEEPEST} deep.`, at);
    reader.brackets.push({ open: c, at, counts: new Map() });
    reader.at++;
    return;
  }
  if (c in CLOSES) return closeBracket(reader, c);
  const symbol = readSymbol(text, at);
  if (symbol === undefined) refuseCharacter(reader);
  reader.at = symbol.end;
  reader.assumed = symbol.assumed ?? reader.assumed;
  if (reader.brackets.length === 1 || aroundIon(reader)) reader.items++;
  add(reader.brackets.at(-1)!.counts, symbol.atoms, readCount(reader, symbol.symbol), at);
}

function readAll(text: string): { composition: Composition; assumed: string | undefined } {
  if (text.length > LONGEST)
    throw new Refusal(`A formula of more than ${LONGEST} characters.`, LONGEST);
  if (text.trim() === '') throw new Refusal('Here a formula is missing.', 0);
  if (ELECTRON.test(text)) return { composition: compositionOf([], -1), assumed: undefined };
  const end = text.trimEnd().length;
  const reader: Reader = {
    text: text.slice(0, end),
    at: end - text.trim().length,
    brackets: [{ open: '', at: 0, counts: new Map() }],
    coefficient: 1,
    charge: undefined,
    items: 0,
    parts: [],
    assumed: undefined,
  };
  const start = reader.at;
  readCoefficient(reader);
  while (reader.at < end) step(reader);
  endPart(reader);
  if (reader.parts.length === 1 && reader.parts[0]!.coefficient !== 1)
    throw new Refusal(
      'A number before a formula says how many, not what.',
      start,
      'Leave it to the equation.',
    );
  const parts = reader.parts.map((part) => scaleComposition(part.composition, part.coefficient));
  return { composition: addCompositions(...parts), assumed: reader.assumed };
}

/**
 * Reads a chemical formula: nested brackets, hydrates (`CuSO4·5H2O`, `CaSO4.0.5H2O`), charges
 * (`SO4^2-`, `SO₄²⁻`, `Cu2+`, `NH4+`), D and T, the electron `e-`, a few groups (Me, Et, Ph ...).
 * How each writing is read, and what is refused: docs/methods/molar-mass.md.
 */
export function readFormula(text: string): FormulaReading {
  try {
    const { composition, assumed } = readAll(text);
    return assumed === undefined ? { ok: true, composition } : { ok: true, composition, assumed };
  } catch (refusal) {
    if (!(refusal instanceof Refusal)) throw refusal;
    const { message, column, hint } = refusal;
    return hint === undefined
      ? { ok: false, message, column }
      : { ok: false, message, hint, column };
  }
}
