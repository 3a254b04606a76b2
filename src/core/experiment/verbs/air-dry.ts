import type { Verb } from './verb.ts';
import { whole } from './verb.ts';
import { CONDITIONS, conditions, waiting } from './common.ts';

export const airDry: Verb = {
  kind: 'airDry',
  about: 'Let a solid dry, in air, at the pump, in an oven or a desiccator.',
  forms: [
    'Dry the solid in air for {time}',
    'Air-dry the crystals on the filter for {time}',
    'Dry the product in an oven at {temperature} to constant mass',
  ],
  examples: ['Air-dry the crystals for 15 min', 'Dry the solid in an oven at 80 °C for 20 min'],
  heads: [
    'air-dry',
    'air dry',
    'dry',
    'suck dry',
    'press dry',
    'leave',
    'oven-dry',
    'spread',
    'pat dry',
    'draw air through',
    'pull air through',
    'press',
    'press out',
    'suck air through',
    'blot',
    'drain',
    'suck',
    'draw',
  ],
  participles: { spread: 'spread', sucked: 'suck dry', drawn: 'draw air through' },
  object: [
    { kind: 'ref', slot: 'on' },
    { kind: 'vessel', slot: 'on' },
  ],
  clauses: [
    { words: ['on', 'in', 'onto'], kind: 'vessel', slot: 'into' },
    { words: ['over'], kind: 'detail', slot: 'detail' },
    ...CONDITIONS,
  ],
  manners: {
    'in air': 'in air',
    'in the air': 'in air',
    'on the filter': 'on the filter',
    'in an oven': 'oven',
    'in the oven': 'oven',
    'in a drying oven': 'oven',
    'in a desiccator': 'desiccator',
    'in the desiccator': 'desiccator',
    'in a vacuum desiccator': 'desiccator',
    'under vacuum': 'vacuum',
    'at the pump': 'vacuum',
    'by suction': 'vacuum',
    'under suction': 'vacuum',
    'under high vacuum': 'vacuum',
    'on the pump': 'vacuum',
    'in vacuo': 'vacuum',
    'between filter papers': 'blotted',
    'between sheets of filter paper': 'blotted',
    'on filter paper': 'blotted',
    'on a paper towel': 'blotted',
    'on paper towels': 'blotted',
    'between paper towels': 'blotted',
    'to dry completely': 'to dry',
    'on a filter paper': 'blotted',
    dry: 'dry',
    'as dry as possible': 'dry',
    'to dry': 'to dry',
    'by drawing air through': 'vacuum',
    'by drawing air through it': 'vacuum',
    'by drawing air through them': 'vacuum',
    'to constant mass': 'to constant mass',
    'to constant weight': 'to constant mass',
    'in a warm oven': 'oven',
    'in a hood': 'in the hood',
    'on the filter paper': 'on the filter',
    'until next week': 'overnight',
    flat: 'flat',
    'in a thin layer': 'flat',
  },
  fits: (raw) =>
    (raw.arguments.on !== undefined ||
      raw.arguments.into !== undefined ||
      raw.arguments.temperature !== undefined ||
      raw.arguments.time !== undefined ||
      raw.manner.length > 0 ||
      /^(?:dry|air-dry|air dry|oven-dry|drain|suck dry|press dry|pat dry)$/.test(raw.head)) &&
    (raw.head !== 'drain' ||
      (raw.arguments.on === undefined && raw.arguments.into === undefined)) &&
    (raw.arguments.detail === undefined ||
      raw.manner.some((m) => m === 'desiccator' || m === 'vacuum')) &&
    (!/^(?:leave|spread|press)$/.test(raw.head) ||
      raw.manner.some((m) => /dry|air|filter|vacuum|oven|desiccator|blotted|watch glass/.test(m))),
  resolve(raw, context) {
    const target = context.refOf(raw.arguments.on) ?? whole(context.vessel('the filter', 0));
    const named =
      raw.arguments.into === undefined ? undefined : context.vesselOf(raw.arguments.into);
    const into = named !== undefined && named !== target.vessel ? named : undefined;
    const vessel = into ?? target.vessel;
    context.setFocus(vessel);
    context.setRole('product', whole(vessel));
    context.setRole('solid', whole(vessel));
    return { on: [whole(target.vessel)], ...(into !== undefined && { into }), ...conditions(raw) };
  },
  print: (slots, w) =>
    `Air-dry ${w.ref(slots.on![0]!)}${slots.into === undefined ? '' : ` on ${w.vessel(slots.into)}`}${w.tail(slots)}`,
  lower: ({ slots }) => {
    const { vessel } = slots.on![0]!;
    const at = slots.into ?? vessel;
    return [
      ...(slots.into === undefined
        ? []
        : [
            {
              kind: 'move',
              from: 'vessel',
              vessel,
              take: { kind: 'all' },
              to: { kind: 'vessel', vessel: slots.into },
              label: 'solid',
            } as const,
          ]),
      waiting(at, slots, slots.manner.includes('oven') ? 'warm' : 'none', false),
      { kind: 'split', vessel: at, by: { rule: 'evaporate', toDryness: true } },
      {
        kind: 'move',
        from: 'vessel',
        vessel: at,
        take: { kind: 'phase', phase: 'vapour' },
        to: { kind: 'air' },
        label: 'moisture',
      },
    ];
  },
};
