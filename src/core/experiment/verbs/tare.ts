import type { Verb } from './verb.ts';
import { whole } from './verb.ts';
import { conditions } from './common.ts';

export const tare: Verb = {
  kind: 'tare',
  about: 'Weigh a vessel empty and write its mass down.',
  forms: ['Tare {vessel}', 'Weigh the empty {vessel}'],
  examples: ['Tare the receiver', 'Weigh the empty vial'],
  heads: [
    'tare',
    'weigh the empty',
    'weigh an empty',
    'weigh a clean dry',
    'weigh the clean dry',
    'weigh a clean, dry',
    'record the tare of',
    'note the tare of',
    'record the mass of the empty',
    'find the mass of the empty',
    'label and tare',
    'weigh the dry empty',
    'weigh the clean',
    'pre-weigh',
    'weigh a clean',
  ],
  object: [{ kind: 'vessel', slot: 'on' }],
  clauses: [{ words: ['on', 'to', 'with', 'and'], kind: 'detail', slot: 'detail' }],
  fits: (raw) => raw.arguments.on !== undefined,
  resolve(raw, context) {
    const vessel = context.vesselOf(raw.arguments.on)!;
    return { on: [whole(vessel)], ...conditions(raw) };
  },
  print: (slots, w) => `Tare ${w.vessel(slots.on![0]!.vessel)}${w.tail(slots)}`,
  lower: ({ slots }) => [
    { kind: 'open', vessel: slots.on![0]!.vessel },
    { kind: 'observe', vessel: slots.on![0]!.vessel, observation: 'tare' },
  ],
};
