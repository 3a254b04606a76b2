import { readFormula } from '../../chemistry/formula.ts';
import { molarMass } from '../../chemistry/molar-mass.ts';
import type { Material } from '../../chemistry/material.ts';
import type { PhaseHint, Substance } from '../../chemistry/substance.ts';
import type { VerbKind } from '../../experiment/verbs/kind.ts';
import type {
  Experiment,
  MaterialUse,
  ReactionDeclaration,
  ReactionTerm,
  Ref,
  Step,
} from '../../experiment/step.ts';
import type { Amount, AmountKind } from '../../quantity/amount-model.ts';

/** Experiments made by hand, for tests: they need no reader of sentences and no substance table. */

export const NOWHERE = { start: 0, end: 0, line: 1, column: 1 };

export function substance(
  name: string,
  formula: string,
  phase: PhaseHint,
  state: Substance['state'],
): Substance {
  const reading = readFormula(formula);
  if (!reading.ok) throw new Error(reading.message);
  const mass = molarMass(reading.composition);
  return {
    id: name,
    name,
    synonyms: [],
    formula,
    composition: reading.composition,
    molarMass_g_mol: mass.value_g_mol,
    molarMassU_g_mol: mass.u_g_mol,
    state,
    phase,
    origin: 'table',
    sources: { identity: 'from memory' },
    hazardCodes: [],
  };
}

export function neat(of: Substance, density_g_mL?: number): Material {
  return {
    name: of.name,
    substance: of,
    conditions: [],
    composition: [{ substance: of, massFraction: 1 }],
    compositionSource: 'pure',
    assumed: [],
    ...(density_g_mL === undefined ? {} : { density_g_mL }),
  };
}

const UNIT: Partial<Record<AmountKind, string>> = { mass: 'g', volume: 'mL', amount: 'mmol' };

export function amount(kind: AmountKind, value: number, digits: number, repeat?: number): Amount {
  const unit = UNIT[kind] ?? kind;
  const text = `${value} ${unit}`;
  return { kind, value, digits, unit, text, ...(repeat === undefined ? {} : { repeat }) };
}

export function use(id: string, material: Material, ...amounts: Amount[]): MaterialUse {
  return { id, name: material.name, material, amounts, span: NOWHERE, repeat: 1 };
}

export interface StepParts {
  readonly materials?: readonly MaterialUse[];
  readonly on?: string;
  readonly into?: string;
}

export function step(id: string, verb: VerbKind, parts: StepParts, text?: string): Step {
  const on: readonly Ref[] | undefined =
    parts.on === undefined ? undefined : [{ vessel: parts.on, portion: { kind: 'all' } }];
  return {
    id,
    verb,
    text: text ?? `${verb} ${parts.on ?? parts.into ?? ''}`.trim(),
    span: NOWHERE,
    slots: {
      manner: [],
      ...(parts.materials === undefined ? {} : { materials: parts.materials }),
      ...(on === undefined ? {} : { on }),
      ...(parts.into === undefined ? {} : { into: parts.into }),
    },
  };
}

export function term(of: Substance, coefficient = 1): ReactionTerm {
  return { coefficient, substance: of, name: of.name };
}

export function reaction(
  id: string,
  reactants: readonly ReactionTerm[],
  products: readonly ReactionTerm[],
  more: Partial<ReactionDeclaration> = {},
): ReactionDeclaration {
  const side = (terms: readonly ReactionTerm[]) => terms.map((each) => each.name).join(' + ');
  return {
    id,
    text: `${side(reactants)} -> ${side(products)}`,
    reactants,
    products,
    balance: 'written',
    conversion: 1,
    span: NOWHERE,
    ...more,
  };
}

export function experiment(
  reactions: readonly ReactionDeclaration[],
  steps: readonly Step[],
  products: readonly Substance[],
  more: Partial<Experiment> = {},
): Experiment {
  const names = new Set<string>();
  for (const { slots } of steps) {
    for (const ref of slots.on ?? []) names.add(ref.vessel);
    if (slots.into !== undefined) names.add(slots.into);
  }
  return {
    title: 'An experiment',
    header: {},
    reactions,
    substances: [],
    vessels: [...names].map((name) => ({
      id: name,
      name,
      shape: 'beaker',
      capacity_mL: 100,
      tared: false,
      origin: 'written',
      span: NOWHERE,
    })),
    steps,
    products: products.map((each) => ({ substance: each, name: each.name, span: NOWHERE })),
    expectations: {},
    notes: [],
    diagnostics: [],
    ...more,
  };
}

export const SODIUM_BENZOATE = substance('sodium benzoate', 'C7H5NaO2', 'salt', 'solid');
export const HYDROGEN_CHLORIDE = substance('hydrogen chloride', 'HCl', 'gas', 'gas');
export const BENZOIC_ACID = substance('benzoic acid', 'C7H6O2', 'organic', 'solid');
export const SODIUM_CHLORIDE = substance('sodium chloride', 'NaCl', 'salt', 'solid');
export const WATER = substance('water', 'H2O', 'water', 'liquid');

/** 2 M: 73 g of hydrogen chloride to a litre of 1.03 g/mL. */
export const DILUTE_ACID: Material = {
  name: '2 M hydrochloric acid',
  substance: HYDROGEN_CHLORIDE,
  strength: { kind: 'molarity', value: 2 },
  solvent: WATER,
  conditions: [],
  composition: [
    { substance: HYDROGEN_CHLORIDE, massFraction: 0.0708 },
    { substance: WATER, massFraction: 0.9292 },
  ],
  density_g_mL: 1.03,
  compositionSource: 'from memory',
  assumed: [],
};

/** The smallest whole experiment: benzoic acid from 1.44 g of sodium benzoate and acid in excess. */
export function benzoicAcid(): Experiment {
  return experiment(
    [
      reaction(
        'reaction 1',
        [term(SODIUM_BENZOATE), term(HYDROGEN_CHLORIDE)],
        [term(BENZOIC_ACID), term(SODIUM_CHLORIDE)],
      ),
    ],
    [
      step('1', 'charge', {
        materials: [
          use('1.1', neat(SODIUM_BENZOATE), amount('mass', 1.44, 3)),
          use('1.2', neat(WATER, 0.998), amount('volume', 20, 2)),
        ],
        into: 'beaker',
      }),
      step('2', 'add', {
        materials: [use('2.1', DILUTE_ACID, amount('volume', 6, 1))],
        into: 'beaker',
      }),
      step('3', 'filter', { on: 'beaker', into: 'dish' }),
      step('4', 'tare', { on: 'dish' }),
      step('5', 'weigh', { on: 'dish' }),
    ],
    [BENZOIC_ACID],
  );
}
