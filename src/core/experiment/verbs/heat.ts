import type { Verb } from './verb.ts';
import { CONDITIONS, react, waiting } from './common.ts';
import { stir } from './stir.ts';

export const heat: Verb = {
  ...stir,
  kind: 'heat',
  about: 'Warm or heat, without a condenser.',
  forms: [
    'Heat {vessel} to {temperature} for {time}',
    'Warm {vessel} in a water bath at {temperature} for {time}',
  ],
  examples: [
    'Heat the flask at 60 °C for 15 min',
    'Warm the mixture in a water bath at 50 °C for 10 min',
  ],
  heads: [
    'heat',
    'warm',
    'boil',
    'bring',
    'place',
    'put',
    'stand',
    'immerse',
    'melt',
    'warm up',
    'reheat',
    'raise the temperature of',
    'raise the temperature',
    'ignite',
    'roast',
    'calcine',
    'digest',
  ],
  clauses: [
    ...CONDITIONS,
    {
      words: [
        'to start',
        'to melt',
        'to complete',
        'to begin',
        'to drive off',
        'to redissolve',
        'to re-dissolve',
      ],
      kind: 'detail',
      slot: 'detail',
    },
  ],
  manners: {
    'to the boil': 'to boiling',
    'to boiling': 'to boiling',
    'to a boil': 'to boiling',
    'to a gentle boil': 'to boiling',
    'to its boiling point': 'to boiling',
    'in the closed vessel': 'closed',
    'with the stopper in': 'closed',
    'in a sealed tube': 'closed',
    stoppered: 'closed',
    sealed: 'closed',
  },
  fits: (raw) => {
    const bath = raw.arguments.bath?.kind === 'bath' ? raw.arguments.bath : undefined;
    if (bath !== undefined && /^(?:ice|ice-salt|dry-ice)$/.test(bath.bath)) return false;
    if (!/^(?:place|put|stand|immerse)$/.test(raw.head)) return true;
    return bath === undefined
      ? raw.arguments.temperature !== undefined || raw.manner.includes('to boiling')
      : (bath.temperature_C ?? 100) > 20;
  },
  print: (slots, w) => `Heat ${w.ref(slots.on![0]!)}${w.tail(slots)}`,
  lower: ({ slots }) => [
    waiting(slots.on![0]!.vessel, slots, 'warm', true),
    react(slots.on![0]!.vessel, 'wait'),
  ],
};
