import type { Verb } from './verb.ts';
import { whole } from './verb.ts';
import { ENDPOINT, UNTIL, conditions, react } from './common.ts';

export const weigh: Verb = {
  kind: 'weigh',
  about: 'Weigh what a vessel holds; at the bench the net mass is compared with what can be there.',
  forms: ['Weigh {vessel}', 'Weigh the product', 'Weigh {vessel} to constant mass'],
  examples: ['Weigh the receiver to constant mass', 'Weigh the crystals'],
  heads: [
    'weigh',
    'reweigh',
    're-weigh',
    'find the mass of',
    'record the mass of',
    'determine the mass of',
    'note the mass of',
    'find the weight of',
    'record the weight of',
    'weigh again',
    'measure the mass of',
    'determine the yield of',
    'record the yield of',
    'transfer and weigh',
  ],
  participles: { weighed: 'weigh' },
  object: [
    { kind: 'ref', slot: 'on' },
    { kind: 'vessel', slot: 'on' },
  ],
  clauses: [
    ENDPOINT,
    UNTIL,
    { words: ['in', 'with', 'on'], kind: 'vessel', slot: 'into' },
    {
      words: ['in', 'and', 'to', 'on', 'after', 'its', 'their', 'with', 'containing'],
      kind: 'detail',
      slot: 'detail',
    },
  ],
  manners: {
    'to constant mass': 'to constant mass',
    'to constant weight': 'to constant mass',
    'until its mass is constant': 'to constant mass',
  },
  resolve(raw, context) {
    const { arguments: args } = raw;
    const target = context.refOf(args.on) ?? whole(context.vessel('the flask', 0));
    const named = args.into === undefined ? undefined : context.vesselOf(args.into);
    const into = named !== undefined && named !== target.vessel ? named : undefined;
    const vessel = into ?? target.vessel;
    context.setFocus(vessel);
    if (into !== undefined) context.setRole('product', whole(into));
    return { on: [whole(target.vessel)], ...(into !== undefined && { into }), ...conditions(raw) };
  },
  print: (slots, w) =>
    `Weigh ${w.ref(slots.on![0]!)}${slots.into === undefined ? '' : ` in ${w.vessel(slots.into)}`}${w.tail(slots)}`,
  lower: ({ slots }) => {
    const { vessel } = slots.on![0]!;
    return [
      react(vessel, 'separation'),
      ...(slots.into === undefined
        ? []
        : [
            {
              kind: 'move',
              from: 'vessel',
              vessel,
              take: { kind: 'all' },
              to: { kind: 'vessel', vessel: slots.into },
            } as const,
          ]),
      { kind: 'observe', vessel: slots.into ?? vessel, observation: 'net' },
    ];
  },
};
