import type { Verb } from './verb.ts';
import { CONDITIONS, conditions, react, waiting } from './common.ts';

export const stir: Verb = {
  kind: 'stir',
  about: 'Stir, swirl or shake; a wait in which a reaction may run.',
  forms: [
    'Stir {vessel} for {time}',
    'Stir {vessel} at {temperature} for {time}',
    'Swirl {vessel} until {what is seen}',
  ],
  examples: [
    'Stir the flask at 20 °C for 20 min',
    'Swirl the mixture until the solid has dissolved',
  ],
  heads: [
    'stir',
    'swirl',
    'shake',
    'agitate',
    'continue stirring',
    'continue to stir',
    'keep stirring',
    'stir up',
    'mix',
    'start stirring',
    'begin stirring',
    'start to stir',
    'start the stirrer',
    'turn on the stirrer',
    'scratch',
    'seed',
    'crush',
    'break up',
    'grind',
    'invert',
    'pulverise',
    'loosen',
    'knead',
    'rock',
    'roll',
    'tilt',
    'whirl',
  ],
  participles: { shaken: 'shake', ground: 'grind', broken: 'break up' },
  object: [{ kind: 'ref', slot: 'on' }],
  clauses: [...CONDITIONS, { words: ['in'], kind: 'ref', slot: 'on' }],
  resolve(raw, context) {
    const on = context.refOf(raw.arguments.on) ?? {
      vessel: context.vessel('the flask', 0),
      portion: { kind: 'all' as const },
    };
    context.setFocus(on.vessel);
    return { on: [on], ...conditions(raw) };
  },
  print: (slots, w) => `Stir ${w.ref(slots.on![0]!)}${w.tail(slots)}`,
  lower: ({ slots }) => [
    waiting(slots.on![0]!.vessel, slots, 'none', true),
    react(slots.on![0]!.vessel, 'wait'),
  ],
};
