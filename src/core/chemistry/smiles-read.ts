import { elementOf } from './element.ts';
import { SmilesRefusal } from './smiles-graph.ts';
import type { Atom, Bond, SmilesGraph } from './smiles-graph.ts';

const LONGEST = 5000;
const DEEPEST = 1000;

const ORGANIC = /Cl|Br|[BCNOPSFI]/y;
const AROMATIC = /[bcnops]/y;
const BRACKET =
  /\[(\d{0,4})(se|as|te|si|[bcnops]|[A-Z][a-z]?|\*)(@(?:TH[12]|AL[12]|SP[1-3]|TB\d{1,2}|OH\d{1,2}|@)?)?(?:H(\d{0,2}))?(\+{1,15}|-{1,15}|[+-]\d{1,2})?(?::(\d{1,4}))?\]/y;
const BONDS: Readonly<Record<string, { order: number; aromatic: boolean }>> = {
  '-': { order: 1, aromatic: false },
  '/': { order: 1, aromatic: false },
  '\\': { order: 1, aromatic: false },
  '=': { order: 2, aromatic: false },
  '#': { order: 3, aromatic: false },
  $: { order: 4, aromatic: false },
  ':': { order: 1, aromatic: true },
};

interface WrittenBond {
  readonly sign: string;
  readonly at: number;
}

interface OpenRing {
  readonly atom: number;
  readonly bond: WrittenBond | undefined;
  readonly at: number;
}

interface Reader {
  readonly text: string;
  at: number;
  readonly atoms: Atom[];
  readonly bonds: Bond[];
  /** Atom pairs already bonded, lower index first. */
  readonly pairs: Set<string>;
  readonly rings: Map<number, OpenRing>;
  /** Atoms that a closing bracket returns to, with the place of the opening one. */
  readonly branches: { atom: number; at: number; atomsThen: number }[];
  /** The atom that the next one will be bonded to; none at the start and after a dot. */
  previous: number | undefined;
  bond: WrittenBond | undefined;
  /** A dot was read and nothing after it yet. */
  dot: boolean;
}

function matchAt(pattern: RegExp, reader: Reader): RegExpExecArray | null {
  pattern.lastIndex = reader.at;
  return pattern.exec(reader.text);
}

function join(
  reader: Reader,
  from: number,
  to: number,
  bond: WrittenBond | undefined,
  at: number,
): void {
  const pair = from < to ? `${from}-${to}` : `${to}-${from}`;
  if (from === to) throw new SmilesRefusal('A ring from an atom to itself.', at);
  if (reader.pairs.has(pair))
    throw new SmilesRefusal('A second bond between the same two atoms.', at);
  reader.pairs.add(pair);
  const bothAromatic = reader.atoms[from]!.aromatic && reader.atoms[to]!.aromatic;
  const written = bond === undefined ? undefined : BONDS[bond.sign]!;
  if (written?.aromatic && !bothAromatic)
    throw new SmilesRefusal('The sign : joins lower-case (aromatic) atoms only.', bond!.at);
  reader.bonds.push({ from, to, ...(written ?? { order: 1, aromatic: bothAromatic }) });
}

function addAtom(reader: Reader, atom: Atom): void {
  const index = reader.atoms.push(atom) - 1;
  if (reader.previous !== undefined) join(reader, reader.previous, index, reader.bond, atom.at);
  else if (reader.bond !== undefined)
    throw new SmilesRefusal('A bond with no atom before it.', reader.bond.at);
  reader.previous = index;
  reader.bond = undefined;
  reader.dot = false;
}

/** `[2H]` is deuterium, `[3H]` tritium; another element's mass number is kept and noted. */
function bracketSymbol(written: string, isotope: number | undefined, at: number): string {
  const symbol = written.charAt(0).toUpperCase() + written.slice(1);
  if (symbol === 'H' && (isotope === 2 || isotope === 3)) return isotope === 2 ? 'D' : 'T';
  if (symbol === '*')
    throw new SmilesRefusal('* stands for any atom, so that there is no composition.', at);
  if (symbol === 'D' || symbol === 'T')
    throw new SmilesRefusal(`${symbol} is written [${symbol === 'D' ? 2 : 3}H] in SMILES.`, at);
  if (elementOf(symbol) === undefined)
    throw new SmilesRefusal(`No element has the symbol ${symbol}.`, at);
  return symbol;
}

function readBracketAtom(reader: Reader): void {
  const match = matchAt(BRACKET, reader);
  const at = reader.at;
  if (match === null) {
    const closed = reader.text.indexOf(']', at) > 0;
    throw new SmilesRefusal(
      closed
        ? 'This bracket does not hold an atom as SMILES writes it.'
        : 'This [ is never closed.',
      at,
    );
  }
  const [written, mass, symbol, , hydrogens, charge] = match;
  const isotope = mass === '' ? undefined : Number(mass);
  const size =
    charge === undefined ? 0 : /\d/.test(charge) ? Number(charge.slice(1)) : charge.length;
  if (size > 15) throw new SmilesRefusal('A charge beyond 15.', at);
  addAtom(reader, {
    symbol: bracketSymbol(symbol!, isotope, at),
    aromatic: /^[a-z]/.test(symbol!),
    organic: false,
    hydrogens: hydrogens === undefined ? 0 : hydrogens === '' ? 1 : Number(hydrogens),
    charge: charge?.startsWith('-') ? -size : size,
    ...(isotope === undefined ? {} : { isotope }),
    at,
  });
  reader.at += written.length;
}

function readRing(reader: Reader): void {
  const match = /^(?:\d|%\d\d)/.exec(reader.text.slice(reader.at, reader.at + 3));
  if (match === null) throw new SmilesRefusal('After % stand two digits.', reader.at);
  const { at } = reader;
  if (reader.previous === undefined)
    throw new SmilesRefusal('A ring number with no atom before it.', at);
  reader.at += match[0].length;
  const number = Number(match[0].replace('%', ''));
  const open = reader.rings.get(number);
  const bond = reader.bond;
  reader.bond = undefined;
  if (open === undefined) {
    reader.rings.set(number, { atom: reader.previous, bond, at });
    return;
  }
  reader.rings.delete(number);
  const ends = [open.bond, bond].filter((end) => end !== undefined);
  const orders = new Set(ends.map((end) => BONDS[end.sign]!.order));
  if (orders.size > 1)
    throw new SmilesRefusal('The two ends of this ring say different bonds.', at);
  join(reader, open.atom, reader.previous, ends[0], at);
}

function openBranch(reader: Reader): void {
  if (reader.previous === undefined)
    throw new SmilesRefusal('A branch with no atom before it.', reader.at);
  if (reader.bond !== undefined)
    throw new SmilesRefusal(
      'A bond sign stands inside the branch, after the bracket.',
      reader.bond.at,
    );
  if (reader.branches.length >= DEEPEST)
    throw new SmilesRefusal(`Branches nested more than ${DEEPEST} deep.`, reader.at);
  reader.branches.push({ atom: reader.previous, at: reader.at, atomsThen: reader.atoms.length });
  reader.at++;
}

function refuseDangling(reader: Reader): void {
  if (reader.bond !== undefined)
    throw new SmilesRefusal('A bond that leads nowhere.', reader.bond.at);
  if (reader.dot) throw new SmilesRefusal('A dot with nothing after it.', reader.at - 1);
}

function closeBranch(reader: Reader): void {
  const branch = reader.branches.pop();
  if (branch === undefined) throw new SmilesRefusal('This ) closes no branch.', reader.at);
  refuseDangling(reader);
  if (reader.atoms.length === branch.atomsThen)
    throw new SmilesRefusal('An empty branch.', branch.at);
  reader.previous = branch.atom;
  reader.at++;
}

function readBond(reader: Reader): void {
  if (reader.bond !== undefined) throw new SmilesRefusal('Two bond signs in a row.', reader.at);
  reader.bond = { sign: reader.text[reader.at]!, at: reader.at };
  reader.at++;
}

function readDot(reader: Reader): void {
  refuseDangling(reader);
  if (reader.previous === undefined)
    throw new SmilesRefusal('A dot with nothing before it.', reader.at);
  reader.previous = undefined;
  reader.dot = true;
  reader.at++;
}

function step(reader: Reader): void {
  const c = reader.text[reader.at]!;
  if (c === '[') return readBracketAtom(reader);
  if (c === '(') return openBranch(reader);
  if (c === ')') return closeBranch(reader);
  if (c === '.') return readDot(reader);
  if (c in BONDS) return readBond(reader);
  if (c === '%' || /\d/.test(c)) return readRing(reader);
  if (c === '*')
    throw new SmilesRefusal('* stands for any atom, so that there is no composition.', reader.at);
  const symbol = matchAt(ORGANIC, reader)?.[0] ?? matchAt(AROMATIC, reader)?.[0];
  if (symbol === undefined)
    throw new SmilesRefusal(
      `${/[A-Z]/i.test(c) ? `${c} is written in brackets in SMILES, if it is an atom.` : `${c} cannot stand in SMILES.`}`,
      reader.at,
    );
  const aromatic = /[a-z]/.test(symbol.charAt(0));
  addAtom(reader, {
    symbol: aromatic ? symbol.toUpperCase() : symbol,
    aromatic,
    organic: true,
    hydrogens: 0,
    charge: 0,
    at: reader.at,
  });
  reader.at += symbol.length;
}

/**
 * Reads the atoms and bonds of a SMILES string (OpenSMILES specification, 2016, opensmiles.org):
 * a loop with stacks of its own, so that no nesting can exhaust the machine's. Throws a
 * `SmilesRefusal` with the place of a mistake.
 */
export function readGraph(text: string): SmilesGraph {
  if (text === '') throw new SmilesRefusal('Here a structure is missing.', 0);
  if (text.length > LONGEST)
    throw new SmilesRefusal(`A SMILES of more than ${LONGEST} characters.`, LONGEST);
  const reader: Reader = {
    text,
    at: 0,
    atoms: [],
    bonds: [],
    pairs: new Set(),
    rings: new Map(),
    branches: [],
    previous: undefined,
    bond: undefined,
    dot: false,
  };
  while (reader.at < text.length) step(reader);
  refuseDangling(reader);
  const branch = reader.branches.at(-1);
  if (branch !== undefined) throw new SmilesRefusal('This ( is never closed.', branch.at);
  for (const [number, ring] of reader.rings)
    throw new SmilesRefusal(`Ring ${number} is opened and never closed.`, ring.at);
  return reader;
}
