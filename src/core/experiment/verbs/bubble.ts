import type { Move } from '../move.ts';
import type { Verb } from './verb.ts';
import { AT, FOR, OVER, UNTIL, conditions, react, waiting } from './common.ts';

export const bubble: Verb = {
  kind: 'bubble',
  about: 'Pass a gas into what a vessel holds; what is not taken up leaves for the air.',
  forms: ['Bubble {gas} {amount} into {vessel} over {time}', 'Pass excess {gas} through {vessel} until {what is seen}'],
  examples: ['Bubble carbon dioxide 4.4 g into the flask over 20 min', 'Bubble excess hydrogen into the flask for 2 h'],
  heads: ['bubble', 'pass', 'bubble in', 'admit', 'lead', 'feed', 'pass in', 'stir under', 'hydrogenate under', 'shake under', 'hydrogenate with'],
  object: [{ kind: 'materials', slot: 'materials' }],
  clauses: [
    { words: ['into', 'through', 'to', 'over', 'in'], kind: 'ref', slot: 'into' },
    { words: ['into', 'through', 'to', 'over', 'in'], kind: 'vessel', slot: 'into' },
    FOR, OVER, AT, UNTIL,
  ],
  fits: (raw) => raw.arguments.materials !== undefined,
  resolve(raw, context) {
    const materials = context.materials(raw.arguments.materials);
    const into = context.vesselOf(raw.arguments.into) ?? context.focus ?? context.vessel('the flask', 0);
    context.setFocus(into);
    return { materials, into, ...conditions(raw) };
  },
  print: (slots, w) => `Bubble ${w.materials(slots.materials ?? [])} into ${w.vessel(slots.into!)}${w.tail(slots)}`,
  lower: ({ slots }) => [
    ...(slots.materials ?? []).map((use): Move => ({ kind: 'move', from: 'stock', use, to: { kind: 'vessel', vessel: slots.into! }, asGas: true })),
    waiting(slots.into!, slots, 'none', true),
    react(slots.into!, 'wait'),
  ],
};
