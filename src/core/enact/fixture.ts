/** Programs for tests, put together by hand: the sentences are left out. */
import { isNothing, addCompositions, scaleComposition } from '../chemistry/composition.ts';
import { readEquation } from '../chemistry/equation.ts';
import type { Term } from '../chemistry/equation.ts';
import { findSubstance } from '../chemistry/find.ts';
import { readMaterial } from '../chemistry/material.ts';
import type { Substance, SubstanceTable } from '../chemistry/substance.ts';
import { tableWith } from '../chemistry/substance.ts';
import type { Move, ReactTrigger, Selector, SplitRule, Whither } from '../experiment/move.ts';
import type {
  Experiment,
  MaterialUse,
  ReactionDeclaration,
  ReactionTerm,
  Slots,
  Span,
  VesselShape,
} from '../experiment/step.ts';
import type { VerbKind } from '../experiment/verbs/kind.ts';
import { readAmount } from '../quantity/amount.ts';
import type { Program, ProgramLine } from './program.ts';

export const TABLE: SubstanceTable = tableWith([]);

export function spanAt(line: number): Span {
  return { start: 0, end: 10, line, column: 1 };
}

export function substance(name: string, table: SubstanceTable = TABLE): Substance {
  const found = findSubstance(table, name);
  if (found.kind !== 'found') throw new Error(`the table has no ${name}`);
  return found.substance;
}

let uses = 0;

/** A use of a material: `use('ethanol', '10 mL', '171 mmol')`. */
export function use(
  name: string,
  amounts: string | readonly string[] = [],
  repeat = 1,
  table: SubstanceTable = TABLE,
): MaterialUse {
  const read = readMaterial(name, table);
  const texts = typeof amounts === 'string' ? [amounts] : amounts;
  return {
    id: `u${++uses}`,
    name,
    ...(read.ok ? { material: read.material } : {}),
    amounts: texts.map((text) => {
      const amount = readAmount(text);
      if (amount.kind === 'refused') throw new Error(`${text}: ${amount.message}`);
      return amount;
    }),
    span: spanAt(1),
    repeat,
  };
}

export function reaction(
  text: string,
  more: Partial<ReactionDeclaration> = {},
  table: SubstanceTable = TABLE,
): ReactionDeclaration {
  const read = readEquation(text);
  if (!read.ok) throw new Error(read.message);
  const terms = (side: readonly Term[]): ReactionTerm[] =>
    side.map((term) => ({
      coefficient: term.coefficient ?? 1,
      substance: substance(term.name, table),
      name: term.name,
    }));
  const reactants = terms(read.equation.left);
  const products = terms(read.equation.right);
  const scaled = (side: ReactionTerm[], sign: number) =>
    side.map((t) => scaleComposition(t.substance.composition!, sign * t.coefficient));
  const rest = addCompositions(...scaled(products, 1), ...scaled(reactants, -1));
  const balance = isNothing(rest) ? 'written' : 'open';
  const id = 'reaction 1';
  return { id, text, reactants, products, balance, conversion: 1, span: spanAt(1), ...more };
}

export interface Sketch {
  readonly reactions?: readonly ReactionDeclaration[];
  readonly products?: readonly string[];
  readonly basis?: string;
  readonly vessels?: Readonly<Record<string, { shape?: VesselShape; capacity_mL?: number }>>;
  readonly lines: readonly {
    readonly verb: VerbKind;
    readonly moves: readonly Move[];
    readonly slots?: Partial<Slots>;
  }[];
}

export function program(sketch: Sketch): Program {
  const lines = sketch.lines.map(({ verb, moves, slots }, i): ProgramLine => ({
    stepId: String(i + 1),
    verb,
    moves,
    slots: { manner: [], ...slots },
    span: spanAt(i + 1),
  }));
  const experiment: Experiment = {
    title: 'A test',
    header: {},
    reactions: sketch.reactions ?? [],
    substances: [],
    vessels: Object.entries(sketch.vessels ?? {}).map(([id, v]) => ({
      id,
      name: id,
      shape: v.shape ?? 'other',
      ...(v.capacity_mL === undefined ? {} : { capacity_mL: v.capacity_mL }),
      tared: false,
      origin: 'written',
      span: spanAt(1),
    })),
    steps: [],
    products: (sketch.products ?? []).map((name) => ({
      substance: substance(name),
      name,
      span: spanAt(1),
    })),
    ...(sketch.basis === undefined ? {} : { basis: substance(sketch.basis).id }),
    expectations: {},
    notes: [],
    diagnostics: [],
  };
  return { experiment, lines };
}

const to = (vessel: string): Whither => ({ kind: 'vessel', vessel });

export const charge = (u: MaterialUse, vessel: string, turn?: number): Move => ({
  kind: 'move',
  from: 'stock',
  use: u,
  to: to(vessel),
  ...(turn === undefined ? {} : { turn }),
});
export const gas = (u: MaterialUse, vessel: string): Move => ({
  kind: 'move',
  from: 'stock',
  use: u,
  to: to(vessel),
  asGas: true,
});
type Part = NonNullable<Extract<Selector, { kind: 'phase' }>['phase']>;
const taking = (part: Part | Selector | undefined): Selector =>
  part === undefined
    ? { kind: 'all' }
    : typeof part === 'string'
      ? { kind: 'phase', phase: part }
      : part;
export const pour = (from: string, into: string, part?: Part | Selector): Move => ({
  kind: 'move',
  from: 'vessel',
  vessel: from,
  take: taking(part),
  to: to(into),
});
export const discard = (from: string, stream: string, part?: Part | Selector): Move => ({
  kind: 'move',
  from: 'vessel',
  vessel: from,
  take: taking(part),
  to: { kind: 'waste', stream },
});
export const split = (vessel: string, by: SplitRule): Move => ({ kind: 'split', vessel, by });
export const react = (vessel: string, trigger: ReactTrigger = 'wait'): Move => ({
  kind: 'react',
  vessel,
  trigger,
});
export const weigh = (vessel: string): Move => ({ kind: 'observe', vessel, observation: 'net' });
export const stir = (vessel: string, time_min = 10): Move => ({
  kind: 'wait',
  vessel,
  time_min,
  heating: 'none',
  forReaction: true,
});
export const reflux = (vessel: string, closed = false): Move => ({
  kind: 'wait',
  vessel,
  time_min: 30,
  heating: 'reflux',
  forReaction: true,
  closed,
});
