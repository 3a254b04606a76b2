import type { Verb } from './verb.ts';
import { CONDITIONS, react, waiting } from './common.ts';
import { stir } from './stir.ts';

export const cool: Verb = {
  ...stir,
  kind: 'cool',
  about: 'Cool, in a bath or by standing.',
  forms: [
    'Cool {vessel} in ice to {temperature}',
    'Cool {vessel} to room temperature',
    'Place {vessel} in an ice bath for {time}',
  ],
  examples: ['Cool the flask in ice to 5 °C', 'Allow the mixture to cool to room temperature'],
  heads: [
    'cool',
    'chill',
    'place',
    'put',
    'immerse',
    'stand',
    'surround',
    'cool down',
    'continue cooling',
    'freeze',
  ],
  clauses: CONDITIONS,
  manners: {
    'by standing': 'standing',
    'to crystallise': 'to crystallise',
    'to crystallize': 'to crystallise',
  },
  fits: (raw) => {
    const bath = raw.arguments.bath?.kind === 'bath' ? raw.arguments.bath : undefined;
    const cold = bath !== undefined && (bath.temperature_C ?? 20) <= 20;
    return /cool|chill|freeze/.test(raw.head) || cold;
  },
  print: (slots, w) => `Cool ${w.ref(slots.on![0]!)}${w.tail(slots)}`,
  lower: ({ slots }) => [
    waiting(slots.on![0]!.vessel, slots, 'none', false),
    react(slots.on![0]!.vessel, 'wait'),
  ],
};
