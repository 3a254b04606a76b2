import type { Verb } from './verb.ts';
import { conditions, fromStock, gather, pour, react } from './common.ts';

export const charge: Verb = {
  kind: 'charge',
  about: 'Put materials into a vessel at the start.',
  forms: [
    'Charge {vessel} with {material} {amount} and {material} {amount}',
    'Place {material} {amount} in {vessel}',
  ],
  examples: [
    'Charge the flask with cyclohexanol 10.0 g and 85 % phosphoric acid 3 mL',
    'Place sodium benzoate 1.44 g in the beaker',
  ],
  heads: ['charge', 'place', 'put', 'load', 'fill', 'set up', 'introduce', 'crush'],
  participles: { put: 'put' },
  object: [
    { kind: 'vessel', slot: 'into' },
    { kind: 'materials', slot: 'materials' },
  ],
  clauses: [
    { words: ['with', 'together with', 'containing'], kind: 'materials', slot: 'with' },
    { words: ['to', 'into', 'in', 'inside', 'on', 'onto'], kind: 'vessel', slot: 'into' },
  ],
  fits: (raw) => raw.arguments.materials !== undefined || raw.arguments.with !== undefined,
  resolve(raw, context) {
    const { uses, aside } = gather(context, raw);
    const into =
      context.vesselOf(raw.arguments.into) ?? context.focus ?? context.vessel('the flask', 0);
    context.setFocus(into);
    context.placed(uses, into);
    return { materials: uses, ...(aside.length > 0 && { on: aside }), into, ...conditions(raw) };
  },
  print: (slots, w) =>
    `Charge ${w.vessel(slots.into!)} with ${w.materials(slots.materials ?? [], slots.on)}${w.tail(slots)}`,
  lower: ({ slots }) => [
    { kind: 'open', vessel: slots.into! },
    ...fromStock(slots.materials, slots.into!),
    ...(slots.on ?? []).flatMap((ref) => pour(ref, slots.into!)),
    react(slots.into!, 'contact'),
  ],
};
