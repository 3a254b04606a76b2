import type { Verb } from './verb.ts';
import { conditions, fromStock } from './common.ts';

/** Weighing or measuring out: the material lies in a vessel, or in a boat until a later sentence uses it. */
export const weighOut: Verb = {
  kind: 'weighOut',
  about: 'Weigh or measure out a material; it waits in a boat, or goes into the vessel named.',
  forms: [
    'Weigh {material} {amount} into {vessel}',
    'Weigh out {material} {amount}',
    'Measure out {material} {amount}',
  ],
  examples: ['Weigh benzoic acid 1.22 g into the beaker', 'Measure out 10 mL of ethanol'],
  heads: [
    'weigh out',
    'weigh',
    'measure out',
    'measure',
    'dispense',
    'weigh in',
    'weigh accurately',
  ],
  participles: { weighed: 'weigh', measured: 'measure' },
  object: [{ kind: 'materials', slot: 'materials' }],
  clauses: [{ words: ['into', 'in', 'to', 'onto', 'on'], kind: 'vessel', slot: 'into' }],
  fits: (raw) =>
    raw.arguments.materials?.kind === 'materials' &&
    raw.arguments.materials.materials.some((m) => m.amounts.length > 0),
  resolve(raw, context) {
    const materials = context.materials(raw.arguments.materials);
    const named = context.vesselOf(raw.arguments.into);
    const into = named ?? context.implied(`boat of ${materials[0]!.name}`, 'dish');
    if (named === undefined) materials.forEach((use) => context.setAside(use.name, into));
    else context.setFocus(named);
    context.placed(materials, into);
    return { materials, into, ...conditions(raw) };
  },
  print: (slots, w) =>
    `Weigh out ${w.materials(slots.materials ?? [])} into ${w.vessel(slots.into!)}${w.tail(slots)}`,
  lower: ({ slots }) => fromStock(slots.materials, slots.into!),
};
