import type { Verb } from './verb.ts';
import { conditions, fromStock, hasRole } from './common.ts';

export const rinse: Verb = {
  kind: 'rinse',
  about: 'Rinse what is left behind in with a little solvent; the rinse joins what was moved.',
  forms: [
    'Rinse with {material} {amount}',
    'Rinse {vessel} with {material} {amount} into {vessel}',
  ],
  examples: ['Rinse with diethyl ether 2 mL', 'Rinse the beaker with water 5 mL into the funnel'],
  heads: [
    'rinse',
    'rinse in',
    'rinse down',
    'wash in',
    'wash down',
    'rinse out',
    'rinse it',
    'wash out',
  ],
  object: [
    { kind: 'vessel', slot: 'on' },
    { kind: 'ref', slot: 'on' },
  ],
  clauses: [
    {
      words: ['with', 'in with', 'down with', 'out with', 'using'],
      kind: 'materials',
      slot: 'materials',
    },
    {
      words: [
        'into',
        'to',
        'and add the rinsings to',
        'and add the rinse to',
        'adding the rinsings to',
        'adding the rinse to',
      ],
      kind: 'vessel',
      slot: 'into',
    },
  ],
  fits: (raw) =>
    raw.arguments.materials !== undefined &&
    !hasRole(raw.arguments.on, 'solid', 'product', 'residue', 'organic', 'extracts', 'dryingAgent'),
  meant: (raw, context) =>
    (hasRole(raw.arguments.on, 'it') ||
      (raw.arguments.on === undefined && raw.arguments.into === undefined)) &&
    context.focus !== undefined &&
    context.shape(context.focus) === 'filter'
      ? 'washSolid'
      : undefined,
  resolve(raw, context) {
    const materials = context.materials(raw.arguments.materials);
    context.disturb();
    const rinsed =
      raw.arguments.on === undefined ? undefined : context.refOf(raw.arguments.on)?.vessel;
    const into =
      context.vesselOf(raw.arguments.into) ??
      context.focus ??
      rinsed ??
      context.vessel('the flask', 0);
    context.setFocus(into);
    return { materials, into, ...conditions(raw) };
  },
  print: (slots, w) =>
    `Rinse with ${w.materials(slots.materials ?? [])} into ${w.vessel(slots.into!)}${w.tail(slots)}`,
  lower: ({ slots }) => fromStock(slots.materials, slots.into!),
};
