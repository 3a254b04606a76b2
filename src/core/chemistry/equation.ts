export { balance, describeExcess, isBalanced } from './balance.ts';
export type { Balance, Portion, SideNames } from './balance.ts';

/** One substance of an equation as it is written. */
export interface Term {
  /** As written; null where none is written. */
  readonly coefficient: number | null;
  readonly name: string;
  /** Zero-based place of the name in the text. */
  readonly at: number;
  /** State mark, kept off the name: s, l, g, aq. */
  readonly state?: string;
}

export interface EquationText {
  readonly left: readonly Term[];
  readonly right: readonly Term[];
  /** What is written over the arrow: `->[heat]`. */
  readonly over?: string;
}

export type EquationReading =
  | { readonly ok: true; readonly equation: EquationText }
  | {
      readonly ok: false;
      readonly message: string;
      readonly column: number;
      readonly hint: string;
    };

const LONGEST = 2000;
const MOST_TERMS = 20;
const LARGEST = 1e6;
const EXAMPLE = 'As in: 2 H2 + O2 -> 2 H2O';

class Refusal extends Error {
  constructor(
    message: string,
    readonly column: number,
    readonly hint: string = EXAMPLE,
  ) {
    super(message);
  }
}

interface Arrow {
  readonly from: number;
  readonly to: number;
  readonly over?: string;
}

/** Arrows, the surest first; a bare = is one only if nothing else is, since SMILES holds it too. */
const ARROWS = [
  /<(?:-+|=+)>|[⇌⇄⇋⇔↔]|[-−–—]+>|={1,}>|[→⟶⇒⟹➝➞]/g,
  /(?<=\s)={1,2}(?=\s|$)/g,
  /={1,2}/g,
];

function findArrow(text: string): Arrow {
  const backward = /<[-=]+(?![->=])|[←⟵]/.exec(text);
  if (backward !== null)
    throw new Refusal(
      'The arrow points to the left.',
      backward.index,
      'Write reactants on the left, products on the right.',
    );
  for (const pattern of ARROWS) {
    const found = [...text.matchAll(pattern)];
    const first = found[0];
    if (first === undefined) continue;
    if (found.length > 1)
      throw new Refusal('A second arrow.', found[1]!.index, 'Write one equation for each step.');
    const to = first.index + first[0].length;
    const over = /^\[([^\]]*)\](?=\s|$)/.exec(text.slice(to));
    if (over === null) return { from: first.index, to };
    return { from: first.index, to: to + over[0].length, over: over[1]!.trim() };
  }
  throw new Refusal('An equation has an arrow between its two sides.', text.length);
}

const isSpace = (c: string | undefined): boolean => c === undefined || /\s/.test(c);

/**
 * Whether the + at `i` divides two substances. A + with space on both sides always does. Without,
 * it may be a charge (`Na+`), which nothing but a space, another +, a state mark or the end
 * follows; `H2+O2` and `A +B` are two substances.
 */
function divides(side: string, i: number): boolean {
  const before = side[i - 1];
  const after = side[i + 1];
  if (isSpace(before)) return !/^\+?\)/.test(side.slice(i + 1));
  if (before === '^') return false;
  if (!isSpace(after))
    return (
      /[\p{L}\d[]/u.test(after!) || (after === '(' && !/^\((?:s|l|g|aq)\)/.test(side.slice(i + 1)))
    );
  const next = side.slice(i + 1).trimStart();
  return next !== '' && !/^(?:\+|\((?:s|l|g|aq)\)|[↑↓])/.test(next);
}

/** Places of the dividing + signs: those outside brackets, as far as the brackets are closed at all. */
function dividers(side: string): number[] {
  const found: number[] = [];
  const open: number[] = [];
  for (let i = 0; i < side.length; i++) {
    const c = side[i]!;
    if ('([{'.includes(c)) open.push(found.length);
    else if (')]}'.includes(c)) {
      const countThen = open.pop();
      if (countThen !== undefined) found.length = countThen;
    } else if (c === '+' && divides(side, i)) found.push(i);
  }
  return found;
}

const VULGAR: Readonly<Record<string, number>> = {
  '½': 0.5,
  '¼': 0.25,
  '¾': 0.75,
  '⅓': 1 / 3,
  '⅔': 2 / 3,
};

/**
 * A coefficient stands apart from its name (`4 4-methylcyclohexanone`) or straight before a
 * formula (`2H2O`). Digits that a name begins with (`2-naphthol`, `1,2-dibromoethane`,
 * `1H-indole`) are the name's.
 */
const COEFFICIENT =
  /^(?:(\d+)\/(\d+)|(\d+)?\s?([½¼¾⅓⅔])|(\d+(?:[.,]\d+)?))(?:\s+(?:[×x]\s+)?|×\s*|(?=[A-Z[(])(?!H[-,]))/;

function readCoefficient(text: string, at: number): { value: number | null; length: number } {
  const match = COEFFICIENT.exec(text);
  if (match === null) return { value: null, length: 0 };
  const [written, over, under, whole, vulgar, plain] = match;
  const value =
    over !== undefined
      ? Number(over) / Number(under)
      : vulgar !== undefined
        ? Number(whole ?? 0) + VULGAR[vulgar]!
        : Number(plain!.replace(',', '.'));
  if (!(value > 0)) throw new Refusal('A coefficient of 0.', at, 'Leave the substance out.');
  if (value > LARGEST) throw new Refusal('A coefficient above 1,000,000.', at);
  return { value, length: written.length };
}

const STATE = /\s*\((s|l|g|aq)\)$|\s*([↑↓])$/i;

function readTerm(text: string, start: number): Term {
  const at = start + (text.length - text.trimStart().length);
  const written = text.trim();
  if (written === '') throw new Refusal('A substance is missing here.', Math.max(0, at - 1));
  const { value, length } = readCoefficient(written, at);
  let name = written.slice(length);
  const state = STATE.exec(name);
  if (state !== null) name = name.slice(0, state.index);
  if (name === '' || /^[\d.,/]+$/.test(name))
    throw new Refusal('A number without a substance.', at, 'Write the substance after its number.');
  const mark =
    state?.[1]?.toLowerCase() ?? (state?.[2] === '↑' ? 'g' : state?.[2] === '↓' ? 's' : undefined);
  const term = { coefficient: value, name, at: at + length };
  return mark === undefined ? term : { ...term, state: mark };
}

function readSide(text: string, from: number, to: number): Term[] {
  const side = text.slice(from, to);
  const cuts = [-1, ...dividers(side), side.length];
  if (cuts.length > MOST_TERMS + 1)
    throw new Refusal(`More than ${MOST_TERMS} substances on one side.`, from + cuts[MOST_TERMS]!);
  return cuts
    .slice(1)
    .map((cut, i) => readTerm(side.slice(cuts[i]! + 1, cut), from + cuts[i]! + 1));
}

/**
 * Reads `2 A + B -> C + D` into terms; names are not looked up. Arrows: -> → = ⇌ <=> --> =>, with
 * words over the arrow as in `->[heat]`. A negative charge before an arrow needs a space between.
 */
export function readEquation(text: string): EquationReading {
  try {
    if (text.length > LONGEST)
      throw new Refusal(`An equation of more than ${LONGEST} characters.`, LONGEST);
    const end = text.replace(/[\s.;]+$/, '').length;
    if (end === 0) throw new Refusal('Here an equation is missing.', 0);
    const arrow = findArrow(text.slice(0, end));
    const left = readSide(text, 0, arrow.from);
    const right = readSide(text, arrow.to, end);
    const equation = arrow.over ? { left, right, over: arrow.over } : { left, right };
    return { ok: true, equation };
  } catch (refusal) {
    if (!(refusal instanceof Refusal)) throw refusal;
    const { message, column, hint } = refusal;
    return { ok: false, message, column, hint };
  }
}

/** Prints terms back as one line: `2 H2 + O2 -> 2 H2O`. */
export function printEquation(equation: EquationText): string {
  const side = (terms: readonly Term[]): string =>
    terms
      .map(({ coefficient, name, state }) => {
        const number = coefficient === null || coefficient === 1 ? '' : `${coefficient} `;
        return `${number}${name}${state === undefined ? '' : `(${state})`}`;
      })
      .join(' + ');
  const arrow = equation.over === undefined ? '->' : `->[${equation.over}]`;
  return `${side(equation.left)} ${arrow} ${side(equation.right)}`;
}
