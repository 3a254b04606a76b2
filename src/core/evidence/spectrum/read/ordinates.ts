import { numberScan, scanDigits, scanNumber, type NumberScan } from './number-scan.ts';
import { collected, points, push, type Points } from './points.ts';

/** What a line of (X++(Y..Y)) says of its place: the abscissa as written, and of which ordinate. */
export interface AbscissaMark {
  /** Lines below the label's own. */
  readonly line: number;
  readonly x: number;
  /** One unit of the last figure as written. */
  readonly unit: number;
  readonly index: number;
}

export interface Ordinates {
  readonly values: Float64Array;
  readonly marks: readonly AbscissaMark[];
  /** The last number was a check ordinate that agreed, so that the last value is whole. */
  readonly endsInCheck: boolean;
}

/** Where the data stop making sense, and why. */
export interface OrdinateFault {
  readonly line: number;
  readonly kind: 'check' | 'character' | 'abscissa' | 'form' | 'many';
  readonly reason: string;
}

const OTHER = 0;
const BLANK = 1;
const PLAIN = 2;
const SQUEEZED = 3;
const DIFFERENCE = 4;
const DUPLICATE = 5;
const MISSING = 6;

/** The pseudo-digits of McDonald and Wilks 1988, Table VII: 0 to 9, then −1 to −9. */
const SQZ = '@ABCDEFGHIabcdefghi';
const DIF = '%JKLMNOPQRjklmnopqr';
const DUP = 'STUVWXYZs';

const KINDS = new Uint8Array(128);
const DIGITS = new Int8Array(128);
for (const c of ' \t,;') KINDS[c.charCodeAt(0)] = BLANK;
for (const c of '0123456789+-.') KINDS[c.charCodeAt(0)] = PLAIN;
KINDS['?'.charCodeAt(0)] = MISSING;
for (const [letters, kind] of [
  [SQZ, SQUEEZED],
  [DIF, DIFFERENCE],
] as const)
  letters.split('').forEach((c, i) => {
    KINDS[c.charCodeAt(0)] = kind;
    DIGITS[c.charCodeAt(0)] = i < 10 ? i : 9 - i;
  });
DUP.split('').forEach((c, i) => {
  KINDS[c.charCodeAt(0)] = DUPLICATE;
  DIGITS[c.charCodeAt(0)] = i + 1;
});

interface Decoding {
  readonly scan: NumberScan;
  readonly found: Points;
  readonly room: number;
  /** The value before, the difference that led to it, and what it was written as. */
  last: number;
  step: number;
  mode: typeof PLAIN | typeof DIFFERENCE | typeof MISSING | typeof OTHER;
  /** The next ordinate repeats the last of the line before, which was a difference. */
  checks: boolean;
  endsInCheck: boolean;
}

type Problem = Omit<OrdinateFault, 'line'>;

const form = (reason: string): Problem => ({ kind: 'form', reason });

/** A pseudo-digit and the digits behind it, with the sign that it carries. */
function signed(scan: NumberScan, digit: number, end: number): number {
  scan.at++;
  scanDigits(scan, end, Math.abs(digit) || undefined);
  return scan.value;
}

function pseudoNumber(scan: NumberScan, end: number): number {
  const digit = DIGITS[scan.text.charCodeAt(scan.at)]!;
  if (digit === 0) {
    scan.at++;
    return scanDigits(scan, end) ? scan.value : 0;
  }
  const value = signed(scan, digit, end);
  return digit < 0 ? -value : value;
}

function absolute(state: Decoding, value: number): Problem | undefined {
  state.mode = PLAIN;
  state.endsInCheck = state.checks;
  if (state.checks) {
    state.checks = false;
    if (value === state.last) return undefined;
    return {
      kind: 'check',
      reason: `the line begins with ${value}, and the line before ended at ${state.last}`,
    };
  }
  state.last = value;
  push(state.found, value);
  return undefined;
}

function difference(state: Decoding, step: number): Problem | undefined {
  if (state.checks) return form('a difference stands where the line should begin with a value');
  if (state.mode === OTHER)
    return form('a difference stands where the line should begin with a value');
  if (state.mode === MISSING) return form('a difference follows a missing value');
  state.mode = DIFFERENCE;
  state.step = step;
  state.last += step;
  state.endsInCheck = false;
  push(state.found, state.last);
  return undefined;
}

function duplicate(state: Decoding, count: number): Problem | undefined {
  if (state.mode === OTHER) return form('a repeat count stands where there is nothing to repeat');
  const more = count - 1;
  if (!Number.isInteger(count) || count < 1) return form(`${count} is no repeat count`);
  if (state.found.count + more > state.room) return { kind: 'many', reason: 'too many points' };
  if (state.mode === DIFFERENCE)
    for (let i = 0; i < more; i++) push(state.found, (state.last += state.step));
  else if (more > 0) push(state.found, state.mode === MISSING ? Number.NaN : state.last, more);
  state.endsInCheck &&= more === 0;
  return undefined;
}

function missing(state: Decoding): Problem | undefined {
  state.scan.at++;
  if (state.checks) return form('a missing value stands where the check ordinate should be');
  state.mode = MISSING;
  state.endsInCheck = false;
  push(state.found, Number.NaN);
  return undefined;
}

function ordinate(state: Decoding, kind: number, end: number): Problem | undefined {
  const { scan } = state;
  if (kind === PLAIN)
    return scanNumber(scan, end) ? absolute(state, scan.value) : form('a sign without a number');
  if (kind === SQUEEZED) return absolute(state, pseudoNumber(scan, end));
  if (kind === DIFFERENCE) return difference(state, pseudoNumber(scan, end));
  if (kind === DUPLICATE) return duplicate(state, pseudoNumber(scan, end));
  if (kind === MISSING) return missing(state);
  const sign = scan.text.slice(scan.at, scan.at + 1);
  return { kind: 'character', reason: `“${sign}” is not part of any number` };
}

function lineOfOrdinates(state: Decoding, end: number): Problem | undefined {
  const { scan } = state;
  while (scan.at < end) {
    const code = scan.text.charCodeAt(scan.at);
    const kind = code < 128 ? KINDS[code]! : OTHER;
    if (kind === BLANK) scan.at++;
    else if (code === 36 && scan.text.charCodeAt(scan.at + 1) === 36) return undefined;
    else {
      const problem = ordinate(state, kind, end);
      if (problem !== undefined) return problem;
      if (state.found.count > state.room) return { kind: 'many', reason: 'too many points' };
    }
  }
  return undefined;
}

function skipBlanks(scan: NumberScan, end: number): boolean {
  while (scan.at < end && KINDS[scan.text.charCodeAt(scan.at) & 127] === BLANK) scan.at++;
  return scan.at < end && !scan.text.startsWith('$$', scan.at);
}

/**
 * Decodes (X++(Y..Y)) in any mixture of the forms AFFN, PAC, SQZ, DIF and DUP. Values are as written,
 * without factors; a `?` is NaN. In the DIF form the last value of a line stands again at the
 * beginning of the next, as a check, and counts once.
 * Source: McDonald and Wilks, Appl. Spectrosc. 1988, 42, 151, section 5.
 */
export function decodeOrdinates(
  text: string,
  start: number,
  end: number,
  { decimalComma, room }: { readonly decimalComma: boolean; readonly room: number },
): Ordinates | OrdinateFault {
  const scan = numberScan(text, start, decimalComma);
  const state: Decoding = {
    scan,
    found: points(Math.min(room, (end - start) >> 1)),
    room,
    last: 0,
    step: 0,
    mode: OTHER,
    checks: false,
    endsInCheck: false,
  };
  const marks: AbscissaMark[] = [];
  for (let line = 0; scan.at < end; line++) {
    const newline = text.indexOf('\n', scan.at);
    const lineEnd = newline < 0 || newline > end ? end : newline;
    if (skipBlanks(scan, lineEnd)) {
      if (!scanNumber(scan, lineEnd))
        return { line, kind: 'abscissa', reason: 'the line does not begin with a number' };
      const index = state.found.count - (state.mode === DIFFERENCE ? 1 : 0);
      marks.push({ line, x: scan.value, unit: scan.unit, index });
      state.checks = state.mode === DIFFERENCE;
      state.mode = OTHER;
      const problem = lineOfOrdinates(state, lineEnd);
      if (problem !== undefined) return { line, ...problem };
      if (state.mode === OTHER)
        return { line, kind: 'form', reason: 'an abscissa stands without any value' };
    }
    scan.at = lineEnd + 1;
  }
  return { values: collected(state.found), marks, endsInCheck: state.endsInCheck };
}
