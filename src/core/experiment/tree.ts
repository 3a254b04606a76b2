import type { Substance } from '../chemistry/substance.ts';
import type { Experiment } from './step.ts';

/** A substance without its working parts: what a file or another program needs of it. */
export interface SubstanceTree {
  readonly id: string;
  readonly name: string;
  readonly formula?: string;
  readonly smiles?: string;
  readonly cas?: string;
  /** How many atoms of each element; absent where the substance is known by mass only. */
  readonly elements?: Readonly<Record<string, number>>;
  readonly charge?: number;
  readonly molarMass_g_mol?: number;
  readonly state: Substance['state'];
  readonly phase: Substance['phase'];
  readonly density_g_mL?: number;
  readonly meltingPoint_C?: number;
  readonly boilingPoint_C?: number;
  readonly origin: Substance['origin'];
}

/** A type in which every substance is a `SubstanceTree`. */
export type Tree<T> = T extends Substance
  ? SubstanceTree
  : T extends readonly (infer Item)[]
    ? readonly Tree<Item>[]
    : T extends object
      ? { readonly [Key in keyof T]: Tree<T[Key]> }
      : T;

/** The derived tree of a document as plain data: what `experiment.schema.json` describes. */
export type ExperimentTree = Tree<Experiment>;

export function treeOf(experiment: Experiment): ExperimentTree {
  return plain(experiment) as ExperimentTree;
}

function plain(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(plain);
  if (typeof value !== 'object' || value === null) return value;
  if (isSubstance(value)) return substanceTree(value);
  return Object.fromEntries(
    Object.entries(value)
      .filter(([, part]) => part !== undefined)
      .map(([key, part]) => [key, plain(part)]),
  );
}

function isSubstance(value: object): value is Substance {
  return 'hazardCodes' in value && 'synonyms' in value && 'phase' in value;
}

function substanceTree(substance: Substance): SubstanceTree {
  const { id, name, formula, smiles, cas, composition, molarMass_g_mol, state, phase, origin } =
    substance;
  const { density_g_mL, meltingPoint_C, boilingPoint_C } = substance;
  return {
    id,
    name,
    ...(formula !== undefined && { formula }),
    ...(smiles !== undefined && { smiles }),
    ...(cas !== undefined && { cas }),
    ...(composition && {
      elements: Object.fromEntries(composition.counts),
      charge: composition.charge,
    }),
    ...(molarMass_g_mol !== undefined && { molarMass_g_mol }),
    state,
    phase,
    ...(density_g_mL !== undefined && { density_g_mL }),
    ...(meltingPoint_C !== undefined && { meltingPoint_C }),
    ...(boilingPoint_C !== undefined && { boilingPoint_C }),
    origin,
  };
}
