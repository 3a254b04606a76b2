import * as z from 'zod';
import { BASE_UNIT } from '../quantity/amount.ts';
import type { AmountKind } from '../quantity/amount.ts';
import type { StrengthKind } from '../chemistry/solution.ts';
import type { BathKind, VesselShape } from './step.ts';
import type { VerbKind } from './verbs/kind.ts';
import { VERB_OF } from './verbs/index.ts';
import type { ExperimentTree } from './tree.ts';

/** All words of a union, so that one forgotten or one too many does not compile. */
function oneOf<Word extends string>(words: Readonly<Record<Word, true>>) {
  return z.enum(Object.keys(words) as [Word, ...Word[]]);
}

const list = <Item extends z.ZodType>(item: Item) => z.array(item).readonly();
const text = z.string();
const number = z.number();
const yes = z.literal(true);

const span = z.strictObject({ start: z.int(), end: z.int(), line: z.int(), column: z.int() });

const amount = z.strictObject({
  kind: z.enum(Object.keys(BASE_UNIT) as [AmountKind, ...AmountKind[]]),
  value: number.describe('In the base unit of the kind; of a range the lower end.'),
  high: number.exactOptional(),
  repeat: number.exactOptional(),
  approximate: yes.exactOptional(),
  further: yes.exactOptional(),
  upTo: yes.exactOptional(),
  atLeast: yes.exactOptional(),
  digits: number.describe('Significant figures as written.'),
  unit: text,
  text,
  assumed: text.exactOptional(),
});

const unquantified = z.strictObject({
  kind: z.literal('unquantified'),
  word: text,
  text,
  sense: z.enum(['excess', 'some', 'until', 'constantMass']),
  assumed: z
    .strictObject({ kind: z.enum(['mass', 'volume']), value: number, source: text })
    .exactOptional(),
});

const anyAmount = z.union([amount, unquantified]);

const substance = z.strictObject({
  id: text,
  name: text,
  formula: text.exactOptional(),
  smiles: text.exactOptional(),
  cas: text.exactOptional(),
  elements: z.record(text, number).readonly().exactOptional(),
  charge: number.exactOptional(),
  molarMass_g_mol: number.exactOptional(),
  state: z.enum(['solid', 'liquid', 'gas', 'unknown']),
  phase: z.enum(['gas', 'water', 'salt', 'miscible', 'organic', 'insoluble']),
  density_g_mL: number.exactOptional(),
  meltingPoint_C: number.exactOptional(),
  boilingPoint_C: number.exactOptional(),
  origin: z.enum(['table', 'document', 'formula']),
});

const strength = z.strictObject({
  kind: oneOf<StrengthKind>({
    molarity: true,
    massPercent: true,
    volumePercent: true,
    massVolumePercent: true,
    saturated: true,
    dilute: true,
  }),
  value: number.exactOptional(),
});

const material = z.strictObject({
  name: text,
  substance,
  strength: strength.exactOptional(),
  solvent: substance.exactOptional(),
  purity_percent: number.exactOptional(),
  conditions: list(text),
  form: text.exactOptional(),
  composition: list(z.strictObject({ substance, massFraction: number })),
  density_g_mL: number.exactOptional(),
  density_T_C: number.exactOptional(),
  densitySource: text.exactOptional(),
  compositionSource: text,
  assumed: list(text),
});

const materialUse = z.strictObject({
  id: text,
  name: text,
  material: material.exactOptional(),
  amounts: list(anyAmount),
  span,
  repeat: number,
});

const layer = ['organic', 'aqueous', 'upper', 'lower'] as const;

const ref = z.strictObject({
  vessel: text,
  portion: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('all') }),
    z.strictObject({ kind: z.literal('fraction'), fraction: number }),
    z.strictObject({ kind: z.literal('amount'), amount }),
    z.strictObject({ kind: z.literal('phase'), phase: z.enum(['solid', 'liquid', ...layer]) }),
  ]),
});

const bath = oneOf<BathKind>({
  ice: true,
  'ice-salt': true,
  'dry-ice': true,
  water: true,
  oil: true,
  sand: true,
  steam: true,
  block: true,
  mantle: true,
  flame: true,
  air: true,
});

const slots = z.strictObject({
  materials: list(materialUse).exactOptional(),
  on: list(ref).exactOptional(),
  into: text.exactOptional(),
  otherInto: text.exactOptional(),
  keep: z.enum(['solid', 'liquid', 'both', ...layer]).exactOptional(),
  time: anyAmount.exactOptional(),
  over: anyAmount.exactOptional(),
  temperature: amount.exactOptional(),
  bath: bath.exactOptional(),
  portions: number.exactOptional(),
  until: anyAmount.exactOptional(),
  leaves: amount.exactOptional(),
  stream: text.exactOptional(),
  repeat: number.exactOptional(),
  manner: list(text),
  detail: text.exactOptional(),
});

const step = z.strictObject({
  id: text,
  verb: z.enum(Object.keys(VERB_OF) as [VerbKind, ...VerbKind[]]),
  slots,
  text,
  span,
  part: text.exactOptional(),
});

const vessel = z.strictObject({
  id: text,
  name: text,
  shape: oneOf<VesselShape>({
    'round-bottom flask': true,
    'conical flask': true,
    'separatory funnel': true,
    'addition funnel': true,
    beaker: true,
    'test tube': true,
    vial: true,
    cylinder: true,
    filter: true,
    'filter flask': true,
    dish: true,
    trap: true,
    bottle: true,
    other: true,
  }),
  capacity_mL: number.exactOptional(),
  tared: z.boolean(),
  origin: z.enum(['written', 'sentence', 'implied']),
  span,
});

const term = z.strictObject({ coefficient: number, substance, name: text });

const reaction = z.strictObject({
  id: text,
  text,
  reactants: list(term),
  products: list(term),
  balance: z.enum(['written', 'found', 'open']),
  delivered: z.enum(['O', 'H']).exactOptional(),
  conversion: number,
  basis: text.exactOptional(),
  span,
});

const diagnostic = z.strictObject({
  code: text,
  severity: z.enum(['error', 'warning', 'note']),
  message: text,
  hint: text.exactOptional(),
  at: z
    .strictObject({
      line: number,
      column: number,
      length: number.exactOptional(),
      step: text.exactOptional(),
      field: text.exactOptional(),
    })
    .exactOptional(),
  fix: text.exactOptional(),
});

/** The derived tree of a document, as `treeOf` gives it. */
export const experimentSchema = z.strictObject({
  title: text,
  header: z.record(text, text).readonly(),
  reactions: list(reaction),
  substances: list(substance),
  vessels: list(vessel),
  steps: list(step),
  products: list(z.strictObject({ substance, name: text, span })),
  basis: text.exactOptional(),
  expectations: z.record(text, text).readonly(),
  notes: list(z.strictObject({ text, span, section: text, after: text.exactOptional() })),
  diagnostics: list(diagnostic),
});

type Read = z.infer<typeof experimentSchema>;
/** Both ways: what the schema takes is what the tree is. Either that fails does not compile. */
export type SchemaAgrees = [Read] extends [ExperimentTree]
  ? [ExperimentTree] extends [Read]
    ? true
    : 'the tree has what the schema refuses'
  : 'the schema takes what the tree has not';
export const schemaAgrees: SchemaAgrees = true;
