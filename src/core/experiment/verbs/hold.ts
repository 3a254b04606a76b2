import type { Verb } from './verb.ts';
import { CONDITIONS, react, waiting } from './common.ts';
import { stir } from './stir.ts';

export const hold: Verb = {
  ...stir,
  kind: 'hold',
  about: 'Leave or keep for a time.',
  forms: [
    'Leave {vessel} for {time}',
    'Hold {vessel} at {temperature} for {time}',
    'Let {vessel} stand until {what is seen}',
  ],
  examples: [
    'Leave the flask at room temperature for 1 h',
    'Allow the mixture to stand for 10 min',
  ],
  heads: [
    'hold',
    'keep',
    'leave',
    'stand',
    'let stand',
    'let',
    'maintain',
    'wait',
    'set aside',
    'leave to stand',
    'allow',
    'continue',
    'store',
    'let settle',
    'age',
    'take',
    'remove',
    'lift',
    'stopper',
    'cork',
    'seal',
    'cap',
    'vent',
    'unstopper',
    'uncork',
    'open',
    'clamp',
    'detach',
    'lower',
    'centrifuge',
    'spin down',
    'cover',
    'close',
  ],
  resolve(raw, context) {
    const slots = stir.resolve(raw, context);
    const manner = /^(?:stopper|cork|seal|cap)$/.test(raw.head)
      ? ['closed']
      : /^(?:vent|unstopper|uncork|open)$/.test(raw.head)
        ? ['opened']
        : [];
    return { ...slots, manner: [...slots.manner, ...manner] };
  },
  participles: { held: 'hold', kept: 'keep', left: 'leave' },
  clauses: [
    ...CONDITIONS,
    { words: ['with'], kind: 'vessel', slot: 'otherInto' },
    {
      words: [
        'for the fizzing',
        'for the bubbling',
        'for the effervescence',
        'for the reaction',
        'for the gas',
        'for the evolution',
      ],
      kind: 'until',
      slot: 'until',
    },
  ],
  manners: {
    'to stand': 'standing',
    'the ice bath': 'out of the bath',
    'the ice-water bath': 'out of the bath',
    'the cooling bath': 'out of the bath',
    'the cold bath': 'out of the bath',
    'the bath': 'out of the bath',
    'the water bath': 'out of the bath',
    'the oil bath': 'out of the bath',
    'the heating bath': 'out of the bath',
    'the heating mantle': 'out of the bath',
    'the mantle': 'out of the bath',
    'the hotplate': 'out of the bath',
    'the heat': 'out of the bath',
    'to cool': 'cooling',
    'to react': 'reacting',
    standing: 'standing',
    'to settle': 'settling',
    undisturbed: 'standing',
    'to crystallise': 'to crystallise',
    'to crystallize': 'to crystallise',
    'to evaporate': 'standing',
    'to drain': 'standing',
    'at reflux': 'reflux',
  },
  fits: (raw) =>
    (raw.head === 'set aside' || !raw.manner.includes('cooling')) &&
    (raw.arguments.time !== undefined ||
      raw.arguments.until !== undefined ||
      raw.arguments.temperature !== undefined ||
      raw.arguments.bath !== undefined ||
      raw.head === 'wait' ||
      raw.manner.includes('standing') ||
      raw.manner.some((m) => /settling|out of the bath/.test(m)) ||
      /^(?:stopper|cork|seal|cap|vent|unstopper|uncork|open|clamp|detach|stand|centrifuge|spin down|set aside)$/.test(
        raw.head,
      ) ||
      (/^(?:cover|close)$/.test(raw.head) && raw.arguments.on !== undefined) ||
      (raw.head === 'keep' && raw.manner.includes('closed'))),
  print: (slots, w) => {
    const { manner } = slots;
    const rest = (word: string) => ({ ...slots, manner: manner.filter((m) => m !== word) });
    const on = w.ref(slots.on![0]!);
    if (manner.includes('opened')) return `Open ${on}${w.tail(rest('opened'))}`;
    if (manner.includes('closed')) return `Stopper ${on}${w.tail(rest('closed'))}`;
    const waits = slots.time ?? slots.until ?? slots.temperature ?? slots.bath;
    const left =
      waits !== undefined || manner.some((m) => /standing|settling|out of the bath/.test(m));
    return `${left ? 'Leave' : 'Clamp'} ${on}${w.tail(slots)}`;
  },
  lower: ({ slots }) => [
    waiting(
      slots.on![0]!.vessel,
      slots,
      slots.manner.includes('reflux') ? 'reflux' : 'none',
      !slots.manner.includes('settling'),
    ),
    react(slots.on![0]!.vessel, 'wait'),
  ],
};
