import type { Move } from '../move.ts';
import type { Slots, Step } from '../step.ts';
import type { ClauseForm, Context, RawSentence, Verb } from './verb.ts';
import {
  AT,
  BATH,
  ENDPOINT,
  FOR,
  OVER,
  PORTIONS,
  UNTIL,
  conditions,
  fromStock,
  gather,
  hasRole,
  minutes,
  pour,
  react,
  waiting,
} from './common.ts';

/** What a material is added for. */
const PURPOSE: ClauseForm = {
  words: [
    'to neutralise',
    'to neutralize',
    'to destroy',
    'to precipitate',
    'to decompose',
    'to make',
    'to bring',
  ],
  kind: 'until',
  slot: 'until',
};

/** As much as it takes, where no amount stands: "acidify with hydrochloric acid". */
const TO_AN_END = /^(?:acidify|basify|neutrali[sz]e|adjust)$/;

const TARGETS = ['to', 'into', 'onto', 'on to', 'in', 'over', 'on'];

function lower({ slots }: Step): Move[] {
  const vessel = slots.into!;
  const takesTime =
    minutes(slots.over) !== undefined ||
    minutes(slots.time) !== undefined ||
    slots.manner.some((m) => /dropwise|slowly|in portions/.test(m)) ||
    slots.until !== undefined;
  return [
    ...fromStock(slots.materials, vessel),
    ...(slots.on ?? []).flatMap((ref) => pour(ref, vessel)),
    react(vessel, 'contact'),
    ...(takesTime
      ? [
          waiting(vessel, slots, slots.manner.includes('reflux') ? 'reflux' : 'none', true),
          react(vessel, 'wait'),
        ]
      : []),
  ];
}

function resolve(raw: RawSentence, context: Context): Slots {
  const target = context.refOf(raw.arguments.into);
  context.disturb();
  const { uses, aside } = gather(context, raw, { excess: TO_AN_END.test(raw.head) });
  const elsewhere =
    raw.arguments.otherInto === undefined ? undefined : context.vesselOf(raw.arguments.otherInto);
  if (elsewhere !== undefined && target && target.vessel !== elsewhere) aside.push(target);
  // "Prepare a solution of ...": not in what is in hand
  const fresh =
    /^(?:prepare|make|make up)$/.test(raw.head) &&
    uses.length > 1 &&
    raw.arguments.into === undefined
      ? context.implied('solution', 'beaker')
      : undefined;
  const into =
    elsewhere ?? fresh ?? target?.vessel ?? context.focus ?? context.vessel('the flask', 0);
  context.setFocus(into);
  context.placed(uses, into);
  return { materials: uses, ...(aside.length > 0 && { on: aside }), into, ...conditions(raw) };
}

export const add: Verb = {
  kind: 'add',
  about: 'Add materials to what a vessel holds; over a time, dropwise or in portions.',
  forms: [
    'Add {material} {amount} to {vessel}',
    'Add {material} {amount} to {vessel} dropwise over {time}',
    'Add {material} {amount} to {vessel} in portions over {time}',
  ],
  examples: [
    'Add sodium borohydride 0.15 g to the flask in portions over 10 min',
    'Add 2 M hydrochloric acid 6 mL to the beaker dropwise',
  ],
  heads: [
    'add',
    'pour',
    'run in',
    'introduce',
    'drop in',
    'pipette',
    'inject',
    'sprinkle',
    'tip',
    'stir in',
    'mix in',
    'add in',
    'layer',
    'pour in',
  ],
  object: [{ kind: 'materials', slot: 'materials' }],
  clauses: [
    { words: TARGETS, kind: 'ref', slot: 'into' },
    { words: TARGETS, kind: 'vessel', slot: 'into' },
    {
      words: ['with', 'followed by', 'then', 'and then', 'to', 'into', 'onto'],
      kind: 'materials',
      slot: 'with',
    },
    { words: ['in'], kind: 'vessel', slot: 'into' },
    OVER,
    { ...AT, words: AT.words.filter((word) => word !== 'to') },
    BATH,
    UNTIL,
    PURPOSE,
    ENDPOINT,
    PORTIONS,
    { words: ['for', 'for a further'], kind: 'time', slot: 'over' },
    { words: ['waiting', 'then waiting', 'and waiting'], kind: 'time', slot: 'time' },
  ],
  fits: (raw) =>
    raw.arguments.materials !== undefined ||
    raw.manner.some((m) => m === 'boiling chips' || m === 'with a stir bar'),
  resolve,
  print(slots, w) {
    const { time, ...rest } = slots;
    return `${(slots.materials ?? []).length === 0 && slots.on ? 'Add in' : 'Add'} ${w.materials(slots.materials ?? [], slots.on)} to ${w.vessel(slots.into!)}${w.tail(rest)}${time ? `, waiting ${w.amount(time)}` : ''}`;
  },
  lower,
};

/** Sentences that name the contents first: "Dilute the mixture with water 20 mL". */
export const treat: Verb = {
  ...add,
  // A layer that is shaken with a liquid is extracted
  fits: (raw) =>
    raw.arguments.materials !== undefined &&
    (raw.arguments.with === undefined || raw.head === 'treat') &&
    !(raw.head === 'shake' && hasRole(raw.arguments.into, 'aqueous', 'organic', 'upper', 'lower')),
  about: 'Dilute, treat, acidify, basify or neutralise what a vessel holds.',
  forms: [
    'Dilute {contents} with {material} {amount}',
    'Acidify {contents} with {material} {amount} until pH {number}',
  ],
  examples: [
    'Dilute the mixture with water 20 mL',
    'Acidify the aqueous layer with 6 M hydrochloric acid 5 mL until pH 1',
  ],
  heads: [
    'treat',
    'dilute',
    'acidify',
    'basify',
    'neutralise',
    'neutralize',
    'make',
    'cover',
    'saturate',
    'top up',
    'adjust',
    'take up',
    'redissolve',
    'wet',
    'moisten',
    'slurry',
    'suspend',
    'dissolve',
    'mix',
    'stir',
    'shake',
    'swirl',
    'leach',
    'salt out',
    'seed',
    'partition',
    'layer',
  ],
  object: [
    { kind: 'ref', slot: 'into' },
    { kind: 'materials', slot: 'with' },
  ],
  clauses: [
    {
      words: [
        'with',
        'in',
        'by adding',
        'by the addition of',
        'by addition of',
        'using',
        'acidic with',
        'alkaline with',
        'basic with',
        'between',
      ],
      kind: 'materials',
      slot: 'materials',
    },
    { words: ['in', 'into'], kind: 'vessel', slot: 'otherInto' },
    OVER,
    { ...AT, words: AT.words.filter((word) => word !== 'to') },
    { ...BATH, words: ['on', 'over', 'by means of', 'in an', 'in a'] },
    {
      words: [
        'the ph to',
        'ph to',
        'its ph to',
        'to a ph of',
        'the ph of the solution to',
        'the ph of the mixture to',
      ],
      kind: 'acidity',
      slot: 'until',
    },
    UNTIL,
    PURPOSE,
    ENDPOINT,
    PORTIONS,
    { words: ['for'], kind: 'time', slot: 'time' },
  ],
};

/** "Dissolve vanillin 1.5 g in ethanol 15 mL in the flask", "Mix A with B". */
export const dissolve: Verb = {
  ...add,
  about: 'Dissolve or mix one material in another.',
  forms: ['Dissolve {material} {amount} in {material} {amount} in {vessel}'],
  examples: ['Dissolve vanillin 1.52 g in ethanol 15 mL in the flask'],
  heads: [
    'dissolve',
    'mix',
    'suspend',
    'slurry',
    'stir',
    'disperse',
    'combine',
    'cover',
    'prepare',
    'make',
    'make up',
  ],
  object: [{ kind: 'materials', slot: 'materials' }],
  clauses: [
    { words: ['in', 'with', 'and', 'into'], kind: 'materials', slot: 'with' },
    { words: ['in', 'into', 'inside'], kind: 'vessel', slot: 'into' },
    OVER,
    { ...AT, words: AT.words.filter((word) => word !== 'to') },
    BATH,
    UNTIL,
    ENDPOINT,
    { words: ['for'], kind: 'time', slot: 'time' },
  ],
  fits: (raw) =>
    raw.arguments.materials?.kind === 'materials' &&
    (raw.arguments.with !== undefined || raw.arguments.materials.materials.length > 1),
};

/** "Heat water 300 mL to 70 °C in the beaker": a material brought to a temperature where it is put. */
export const warmed: Verb = {
  ...add,
  about: 'Put a material into a vessel and bring it to a temperature.',
  forms: [
    'Heat {material} {amount} to {temperature} in {vessel}',
    'Cool {material} {amount} in ice in {vessel}',
  ],
  examples: ['Heat water 300 mL to 70 °C in the beaker'],
  heads: ['heat', 'warm', 'cool', 'boil', 'chill', 'reflux', 'stir', 'shake'],
  object: [{ kind: 'materials', slot: 'materials' }],
  clauses: [{ words: ['in', 'into'], kind: 'vessel', slot: 'into' }, AT, BATH, UNTIL, FOR, OVER],
  manners: {
    'under reflux': 'reflux',
    'at reflux': 'reflux',
    'to reflux': 'reflux',
    'to the boil': 'reflux',
  },
  fits: (raw) =>
    raw.arguments.materials?.kind === 'materials' &&
    raw.arguments.materials.materials.some((m) => m.amounts.length > 0),
};
