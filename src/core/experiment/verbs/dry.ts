import type { Verb } from './verb.ts';
import { whole } from './verb.ts';
import { FOR, UNTIL, conditions, fromStock, waiting } from './common.ts';

export const dry: Verb = {
  kind: 'dry',
  about: 'Dry an organic liquid over a drying agent; the water that it binds is counted.',
  forms: ['Dry {contents} over {material} {amount} for {time}'],
  examples: ['Dry the extracts over anhydrous sodium sulfate 2.0 g for 15 min'],
  heads: ['dry', 'dry it', 'dry briefly', 'leave', 'let stand', 'stand'],
  object: [
    { kind: 'ref', slot: 'on' },
    { kind: 'vessel', slot: 'on' },
    { kind: 'bracketed', slot: 'materials' },
  ],
  clauses: [
    {
      words: ['over', 'with', 'using', 'on', 'by adding', 'by standing over'],
      kind: 'materials',
      slot: 'materials',
    },
    { words: [], kind: 'bracket', slot: 'materials' },
    FOR,
    UNTIL,
  ],
  fits: (raw) => raw.arguments.materials !== undefined,
  resolve(raw, context) {
    const materials = context.materials(raw.arguments.materials);
    const target = context.refOf(raw.arguments.on) ?? whole(context.vessel('the flask', 0));
    context.setFocus(target.vessel);
    context.setRole('dryingAgent', whole(target.vessel));
    return { materials, on: [whole(target.vessel)], ...conditions(raw) };
  },
  print: (slots, w) =>
    `Dry ${w.ref(slots.on![0]!)} over ${w.materials(slots.materials ?? [])}${w.tail(slots)}`,
  lower: ({ slots }) => {
    const { vessel } = slots.on![0]!;
    return [
      ...fromStock(slots.materials, vessel),
      waiting(vessel, slots, 'none', false),
      { kind: 'split', vessel, by: { rule: 'dry' } },
    ];
  },
};
