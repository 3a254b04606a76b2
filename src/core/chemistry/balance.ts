import {
  addCompositions,
  isNothing,
  scaleComposition,
  subtractComposition,
} from './composition.ts';
import type { Composition } from './composition.ts';
import { elementOf } from './element.ts';
import { hillOrder, printCharge } from './hill.ts';
import { extremeRays, independent, nullSpace } from './null-space.ts';
import { rationalNear } from './rational.ts';
import type { Rational } from './rational.ts';

export type Balance =
  | {
      readonly kind: 'balanced';
      readonly left: readonly number[];
      readonly right: readonly number[];
    }
  | { readonly kind: 'impossible'; readonly message: string }
  | {
      readonly kind: 'several';
      readonly message: string;
      /** Independent solutions, each a list of coefficients, the left side's first. */
      readonly basis: readonly (readonly number[])[];
    };

export interface SideNames {
  readonly left: readonly string[];
  readonly right: readonly string[];
}

const MOST_SUBSTANCES = 40;
const LARGEST_COEFFICIENT = 1_000_000n;

function symbolsOf(compositions: readonly Composition[]): string[] {
  return hillOrder(new Set(compositions.flatMap((c) => [...c.counts.keys()])));
}

/** One row an element, one for charge; products enter with a minus, so that a balance is a zero. */
function matrixOf(left: readonly Composition[], right: readonly Composition[]): Rational[][] {
  const both = [...left, ...right];
  const signed = (value: number, i: number): Rational =>
    rationalNear(i < left.length ? value : -value);
  const rows = symbolsOf(both).map((symbol) =>
    both.map((c, i) => signed(c.counts.get(symbol) ?? 0, i)),
  );
  const charges = both.map((c, i) => signed(c.charge, i));
  return charges.some((charge) => charge.over !== 0n) ? [...rows, charges] : rows;
}

const list = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

/** Why no amounts can do: an element, or all charge of one sign, on one side only. */
function oneSided(left: readonly Composition[], right: readonly Composition[]): string | undefined {
  const on = [new Set(symbolsOf(left)), new Set(symbolsOf(right))] as const;
  const only = (side: 0 | 1): string[] =>
    [...on[side]]
      .filter((symbol) => !on[1 - side]!.has(symbol))
      .map((symbol) => elementOf(symbol)?.name ?? symbol);
  const [lost, gained] = [only(0), only(1)];
  if (lost.length > 0) return `Only the left side has ${list(lost)}: a product is missing.`;
  if (gained.length > 0) return `Only the right side has ${list(gained)}: a reactant is missing.`;
  const signs = [left, right].map(
    (side) => new Set(side.map((c) => Math.sign(c.charge)).filter((s) => s !== 0)),
  );
  for (const [side, name] of [
    [0, 'left'],
    [1, 'right'],
  ] as const) {
    const [here, there] = [signs[side]!, signs[1 - side]!];
    if (here.size !== 1) continue;
    const sign = [...here][0]!;
    if (there.size === 0 || (there.size === 1 && !there.has(sign)))
      return `The ${name} side carries ${sign > 0 ? 'positive' : 'negative'} charge that the other side cannot match: an ion or electron is missing.`;
  }
  return undefined;
}

const equationOf = (
  numbers: readonly bigint[],
  names: readonly string[],
  lefts: number,
): string => {
  const side = (from: number, to: number): string =>
    numbers
      .map((n, i) =>
        i >= from && i < to && n !== 0n ? `${n === 1n ? '' : `${n} `}${names[i]}` : '',
      )
      .filter((term) => term !== '')
      .join(' + ');
  return `${side(0, lefts)} -> ${side(lefts, numbers.length)}`;
};

function severalMessage(
  basis: readonly bigint[][],
  names: readonly string[] | undefined,
  lefts: number,
): string {
  const start =
    `Atoms and charge alone do not settle the numbers: ${basis.length} independent reactions ` +
    'between these substances can be added in any proportion';
  const shown = names && basis.map((numbers) => equationOf(numbers, names, lefts)).join('; ');
  return `${start}${shown ? ` (${shown})` : ''}. Write the coefficients, or one equation for each.`;
}

function ordinal(i: number, lefts: number, names: readonly string[] | undefined): string {
  if (names !== undefined) return names[i]!;
  return i < lefts ? `substance ${i + 1} on the left` : `substance ${i - lefts + 1} on the right`;
}

/**
 * Balances an equation over every element and charge: the smallest whole positive coefficients,
 * found exactly in the null space of the composition matrix. Where the atoms allow more than one
 * reaction the answer is `several`, with independent solutions that use no negative number.
 * `names`, if given, are used in the messages only.
 */
export function balance(
  left: readonly Composition[],
  right: readonly Composition[],
  names?: SideNames,
): Balance {
  if (left.length === 0 || right.length === 0)
    return { kind: 'impossible', message: 'An equation has a reactant and a product at least.' };
  const columns = left.length + right.length;
  if (columns > MOST_SUBSTANCES)
    return {
      kind: 'impossible',
      message: `More than ${MOST_SUBSTANCES} substances in one equation.`,
    };
  const allNames = names && [...names.left, ...names.right];
  const empty = [...left, ...right].findIndex(isNothing);
  if (empty >= 0)
    return {
      kind: 'impossible',
      message: `${ordinal(empty, left.length, allNames)} has no composition.`,
    };
  const matrix = matrixOf(left, right);
  const free = nullSpace(matrix, columns);
  const impossible = (message: string): Balance => ({
    kind: 'impossible',
    message: oneSided(left, right) ?? message,
  });
  if (free.length === 0)
    return impossible(
      'No numbers make the two sides equal: a substance is missing or its formula is wrong.',
    );
  const rays = free.length === 1 ? positive(free[0]!) : extremeRays(matrix, columns);
  if (rays === undefined) return several(free, allNames, left.length);
  const idle = Array.from({ length: columns }, (_, i) => i).filter((i) =>
    rays.every((ray) => ray[i] === 0n),
  );
  if (rays.length === 0 || idle.length === columns)
    return impossible(
      'No positive numbers make the two sides equal: a substance stands on the wrong side, or one is missing.',
    );
  if (idle.length > 0) {
    const who = list(idle.map((i) => ordinal(i, left.length, allNames)));
    return impossible(`The rest balances only without ${who}.`);
  }
  if (free.length > 1) return several(independent(rays), allNames, left.length);
  return settled(rays[0]!, left.length);
}

/** A single solution as a ray of non-negative numbers, or none if its signs differ. */
function positive(vector: readonly bigint[]): bigint[][] {
  if (vector.every((n) => n >= 0n)) return [[...vector]];
  if (vector.every((n) => n <= 0n)) return [vector.map((n) => -n)];
  return [];
}

function settled(numbers: readonly bigint[], lefts: number): Balance {
  if (numbers.some((n) => n > LARGEST_COEFFICIENT))
    return {
      kind: 'impossible',
      message: 'It balances only with coefficients above 1,000,000: a formula is wrong.',
    };
  const plain = numbers.map(Number);
  return { kind: 'balanced', left: plain.slice(0, lefts), right: plain.slice(lefts) };
}

function several(
  basis: readonly bigint[][],
  names: readonly string[] | undefined,
  lefts: number,
): Balance {
  return {
    kind: 'several',
    message: severalMessage(basis, names, lefts),
    basis: basis.map((numbers) => numbers.map(Number)),
  };
}

export interface Portion {
  readonly c: Composition;
  /** How many, as written. */
  readonly n: number;
}

/** Whether the two sides are equal as written; `excess` is what the right side has more. */
export function isBalanced(
  left: readonly Portion[],
  right: readonly Portion[],
): { readonly balanced: boolean; readonly excess: Composition } {
  const sum = (side: readonly Portion[]): Composition =>
    addCompositions(...side.map(({ c, n }) => scaleComposition(c, n)));
  const excess = subtractComposition(sum(right), sum(left));
  return { balanced: isNothing(excess), excess };
}

/** An excess in plain words: `the right side has 2 H and 1 O too many and 1 Na too few`. */
export function describeExcess(excess: Composition): string {
  const atoms = hillOrder(excess.counts.keys()).map(
    (symbol) => [symbol, excess.counts.get(symbol)!] as const,
  );
  const many = atoms
    .filter(([, count]) => count > 0)
    .map(([symbol, count]) => `${count} ${symbol}`);
  const few = atoms
    .filter(([, count]) => count < 0)
    .map(([symbol, count]) => `${-count} ${symbol}`);
  const charge =
    excess.charge === 0 ? '' : `a charge of ${printCharge(excess.charge).slice(1)} in excess`;
  const clauses = [
    many.length > 0 ? `${list(many)} too many` : '',
    few.length > 0 ? `${list(few)} too few` : '',
    charge,
  ].filter((clause) => clause !== '');
  return clauses.length === 0 ? 'the two sides are equal' : `the right side has ${list(clauses)}`;
}
