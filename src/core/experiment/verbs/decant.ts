import type { Verb } from './verb.ts';
import { whole } from './verb.ts';
import { conditions, hasRole, react } from './common.ts';
import { FILTER_MANNERS } from './filter.ts';

export const decant: Verb = {
  kind: 'decant',
  about: 'Pour a liquid off a solid; the solid stays behind.',
  forms: [
    'Decant {contents} into {vessel}',
    'Decant the liquid from the drying agent into {vessel}',
  ],
  examples: ['Decant the extracts into the receiver'],
  heads: ['decant', 'decant off', 'pour off', 'pipette off', 'draw off'],
  object: [
    { kind: 'ref', slot: 'on' },
    { kind: 'vessel', slot: 'on' },
  ],
  clauses: [
    { words: ['into', 'to', 'in'], kind: 'vessel', slot: 'into' },
    { words: ['from', 'off', 'away from'], kind: 'ref', slot: 'range' },
    {
      words: ['from', 'off', 'away from', 'leaving', 'leaving behind'],
      kind: 'detail',
      slot: 'detail',
    },
  ],
  manners: FILTER_MANNERS,
  fits: (raw) => /decant|pour off|pipette off/.test(raw.head) || raw.arguments.into !== undefined,
  resolve(raw, context) {
    const { arguments: args } = raw;
    const rangeVessel =
      args.range?.kind === 'ref' && args.range.ref.vesselPhrase !== undefined
        ? context.refOf(args.range)
        : undefined;
    const source = rangeVessel ?? context.refOf(args.on) ?? whole(context.vessel('the flask', 0));
    const into = context.vesselOf(args.into) ?? context.implied('decanted liquid', 'beaker', false);
    const toVessel = args.into !== undefined;
    context.setFocus(toVessel ? into : source.vessel);
    if (toVessel) context.setRole('organic', whole(into));
    if (toVessel) context.setRole('extracts', whole(into));
    context.moved(source.vessel, into, source.vessel);
    context.setRole('filtrate', whole(into));
    context.setRole('solid', whole(source.vessel));
    // "off the crystals": they have come out of the liquid
    const keep = hasRole(args.range, 'solid', 'product') ? ('both' as const) : ('liquid' as const);
    return { on: [whole(source.vessel)], into, keep, ...conditions(raw) };
  },
  print: (slots, w) =>
    `Decant ${w.ref(slots.on![0]!)}${slots.keep === 'both' ? ' from the solid' : ''} into ${w.vessel(slots.into!)}${w.tail(slots)}`,
  lower: ({ slots }) => {
    const { vessel } = slots.on![0]!;
    return [
      react(vessel, 'separation'),
      {
        kind: 'split',
        vessel,
        by: { rule: 'filter', keep: slots.keep === 'both' ? 'both' : 'liquid' },
      },
      {
        kind: 'move',
        from: 'vessel',
        vessel,
        take: { kind: 'phase', phase: 'liquid' },
        to: { kind: 'vessel', vessel: slots.into! },
        label: 'decanted',
      },
    ];
  },
};
