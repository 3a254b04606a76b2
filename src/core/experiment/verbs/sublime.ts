import type { Verb } from './verb.ts';
import { whole } from './verb.ts';
import { CONDITIONS, conditions } from './common.ts';

export const sublime: Verb = {
  kind: 'sublime',
  about: 'Sublime a solid onto a cold surface.',
  forms: ['Sublime {contents} into {vessel} at {temperature}'],
  examples: ['Sublime the crude product into the dish at 120 °C'],
  heads: ['sublime', 'resublime'],
  object: [
    { kind: 'ref', slot: 'on' },
    { kind: 'vessel', slot: 'on' },
  ],
  clauses: [
    { words: ['into', 'onto', 'on to', 'to', 'on', 'in'], kind: 'vessel', slot: 'into' },
    ...CONDITIONS,
  ],
  manners: { 'under vacuum': 'vacuum', 'under reduced pressure': 'vacuum' },
  resolve(raw, context) {
    const source = context.refOf(raw.arguments.on) ?? whole(context.vessel('the dish', 0));
    const into = context.vesselOf(raw.arguments.into) ?? context.implied('cold finger', 'trap');
    context.setFocus(into);
    context.setRole('product', whole(into));
    context.setRole('solid', whole(into));
    context.setRole('residue', whole(source.vessel));
    return { on: [whole(source.vessel)], into, ...conditions(raw) };
  },
  print: (slots, w) =>
    `Sublime ${w.ref(slots.on![0]!)} into ${w.vessel(slots.into!)}${w.tail(slots)}`,
  lower: ({ slots }) => {
    const { vessel } = slots.on![0]!;
    return [
      { kind: 'split', vessel, by: { rule: 'sublime' } },
      {
        kind: 'move',
        from: 'vessel',
        vessel,
        take: { kind: 'phase', phase: 'vapour' },
        to: { kind: 'vessel', vessel: slots.into! },
        label: 'sublimate',
      },
    ];
  },
};
