import type { Move } from '../move.ts';
import type { Verb } from './verb.ts';
import { AT, FOR, OVER, UNTIL, conditions, react, waiting } from './common.ts';

export const bubble: Verb = {
  kind: 'bubble',
  about: 'Pass a gas into what a vessel holds; what is not taken up leaves for the air.',
  forms: [
    'Bubble {gas} {amount} into {vessel} over {time}',
    'Pass excess {gas} through {vessel} until {what is seen}',
  ],
  examples: [
    'Bubble carbon dioxide 4.4 g into the flask over 20 min',
    'Bubble excess hydrogen into the flask for 2 h',
  ],
  heads: [
    'bubble',
    'pass',
    'bubble in',
    'admit',
    'lead',
    'feed',
    'pass in',
    'stir',
    'shake',
    'hydrogenate',
    'hold',
    'keep',
    'connect',
    'open',
    'fill',
  ],
  object: [
    { kind: 'materials', slot: 'materials' },
    { kind: 'ref', slot: 'into' },
    { kind: 'vessel', slot: 'into' },
  ],
  clauses: [
    {
      words: [
        'under',
        'with',
        'under an atmosphere of',
        'under a balloon of',
        'to a balloon of',
        'under a slight pressure of',
        'under an excess of',
      ],
      kind: 'materials',
      slot: 'materials',
    },
    { words: ['into', 'through', 'to', 'over', 'in'], kind: 'ref', slot: 'into' },
    { words: ['into', 'through', 'to', 'over', 'in'], kind: 'vessel', slot: 'into' },
    FOR,
    OVER,
    AT,
    UNTIL,
  ],
  fits: (raw) => {
    const { materials } = raw.arguments;
    if (materials?.kind !== 'materials') return false;
    if (/^(?:bubble|pass|bubble in|admit|lead|feed|pass in|hydrogenate)$/.test(raw.head))
      return true;
    return materials.materials.every((m) =>
      /^(?:hydrogen|oxygen|air|carbon dioxide|ethene|ethylene|chlorine|hydrogen chloride)(?: gas)?$/i.test(
        m.name,
      ),
    );
  },
  resolve(raw, context) {
    const materials = context.materials(raw.arguments.materials, { excess: true });
    const into =
      context.vesselOf(raw.arguments.into) ?? context.focus ?? context.vessel('the flask', 0);
    context.setFocus(into);
    return { materials, into, ...conditions(raw) };
  },
  print: (slots, w) =>
    `Bubble ${w.materials(slots.materials ?? [])} into ${w.vessel(slots.into!)}${w.tail(slots)}`,
  lower: ({ slots }) => [
    ...(slots.materials ?? []).map((use): Move => ({
      kind: 'move',
      from: 'stock',
      use,
      to: { kind: 'vessel', vessel: slots.into! },
      asGas: true,
    })),
    waiting(slots.into!, slots, 'none', true),
    react(slots.into!, 'wait'),
  ],
};
