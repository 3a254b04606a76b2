import groupsTable from '../facts/formula_groups.json' with { type: 'json' };
import { rowsOf } from '../facts/table.ts';
import { elementOf } from './element.ts';

/** Atoms that one symbol of a formula stands for. */
export interface SymbolRead {
  readonly atoms: readonly (readonly [string, number])[];
  readonly symbol: string;
  readonly end: number;
  /** Said when the symbol has another meaning in a chemist's notes: Ac is actinium here. */
  readonly assumed?: string;
}

interface AlsoGroup {
  readonly atoms: readonly (readonly [string, number])[];
  readonly hint: string;
}

/** Symbols that are elements and also trade shorthand for a group (common practice). */
const ALSO_A_GROUP: Readonly<Record<string, AlsoGroup>> = {
  Ac: {
    atoms: [
      ['C', 2],
      ['H', 3],
      ['O', 1],
    ],
    hint: 'acetyl is written CH3CO',
  },
  Pr: {
    atoms: [
      ['C', 3],
      ['H', 7],
    ],
    hint: 'propyl is written nPr, isopropyl iPr',
  },
  Ts: {
    atoms: [
      ['C', 7],
      ['H', 7],
      ['S', 1],
      ['O', 2],
    ],
    hint: 'tosyl is written CH3C6H4SO2',
  },
};

/**
 * Where only a group can be meant. In a formula in Hill order O and N stand before Pr and Ts, the
 * elements, but before Ac never; brackets it has none.
 */
const GROUP_BEFORE: Readonly<Record<string, RegExp>> = {
  Ac: /(?:O|N|S|NH)$/,
  Pr: /\((?:O|N|S|NH)$/,
  Ts: /\((?:O|N|S|NH)$/,
};
const GROUP_AFTER = /^O(?:H|Na|K|Li|Ag|Me|Et|Ph)(?![a-z])/;

function isGroupAt(text: string, at: number, symbol: string): boolean {
  const before = text.slice(Math.max(0, at - 3), at);
  return GROUP_BEFORE[symbol]!.test(before) || GROUP_AFTER.test(text.slice(at + symbol.length));
}

function readGroups(): ReadonlyMap<string, readonly (readonly [string, number])[]> {
  return new Map(
    rowsOf(groupsTable).map((row) => [
      row.symbol!,
      [...row.formula!.matchAll(/([A-Z][a-z]?)(\d*)/g)].map(
        (match) => [match[1]!, match[2] === '' ? 1 : Number(match[2])] as const,
      ),
    ]),
  );
}

let cachedGroups: ReturnType<typeof readGroups> | undefined;

/** The abbreviation groups that are no element: Me, Et, Bu, iPr, Ph ..., with their atoms. */
export function formulaGroups(): ReturnType<typeof readGroups> {
  return (cachedGroups ??= readGroups());
}

const PREFIXED = /[nist]-?(?:Pr|Bu)/y;

/** The element or group that stands at `at`, longest first, or undefined. */
export function readSymbol(text: string, at: number): SymbolRead | undefined {
  PREFIXED.lastIndex = at;
  const prefixed = PREFIXED.exec(text)?.[0];
  const candidates =
    prefixed !== undefined ? [prefixed] : [3, 2, 1].map((length) => text.slice(at, at + length));
  for (const written of candidates) {
    const end = at + written.length;
    const group = formulaGroups().get(written.replace('-', ''));
    if (group !== undefined) return { atoms: group, symbol: written, end };
    if (elementOf(written) !== undefined) {
      const also = ALSO_A_GROUP[written];
      if (also !== undefined && isGroupAt(text, at, written))
        return { atoms: also.atoms, symbol: written, end };
      const assumed =
        also && `${written} is read as the element ${elementOf(written)!.name}; ${also.hint}.`;
      const read = { atoms: [[written, 1]] as const, symbol: written, end };
      return assumed === undefined ? read : { ...read, assumed };
    }
  }
  return undefined;
}

/** What a mistyped symbol may have been meant to be: `CL` -> Cl, `na` -> Na. */
export function nearSymbol(text: string, at: number): string | undefined {
  const capital = (word: string): string =>
    word.charAt(0).toUpperCase() + word.slice(1).toLowerCase();
  const known = (word: string): boolean =>
    /^[a-z]+$/i.test(word) && elementOf(capital(word)) !== undefined;
  const around = [at > 0 ? text.slice(at - 1, at + 1) : '', text.slice(at, at + 2), text[at] ?? ''];
  const word = around.find(known);
  return word === undefined ? undefined : capital(word);
}
