import type { Move } from '../move.ts';
import type { Verb } from './verb.ts';
import { figureOf, whole } from './verb.ts';
import { BATH, UNTIL, conditions, react } from './common.ts';

const FRACTION_WORDS = [
  'the fraction boiling at',
  'the fraction boiling between',
  'the fraction of bp',
  'collecting the fraction of bp',
  'collect the fraction of bp',
  'at',
  'between',
  'collecting the fraction boiling at',
  'collect the fraction boiling at',
  'collecting the fraction boiling between',
  'collect the fraction boiling between',
  'collect the fraction that boils at',
  'collecting the fraction that boils at',
  'collecting the fraction that boils between',
  'collect the fraction that boils between',
  'collecting the fraction from',
  'collecting at',
  'collecting between',
  'collect between',
  'collect at',
  'boiling at',
  'boiling between',
  'that boils at',
  'that boils between',
  'from',
  'collecting material boiling at',
  'collecting the material that boils at',
  'collecting the material boiling at',
  'collect the material boiling at',
  'of',
  'collecting the product at',
  'collect the product at',
  'collecting the liquid that boils at',
  'collecting the liquid boiling at',
];

export const distil: Verb = {
  kind: 'distil',
  about: 'Distil; what comes over between two temperatures (or with steam) is caught.',
  forms: [
    'Distil {contents} into {vessel}',
    'Distil {contents}; collect the fraction boiling at {temperature} in {vessel}',
    'Steam-distil {contents} into {vessel}',
  ],
  examples: ['Distil the flask; collect the fraction boiling at 135–143 °C in the receiver'],
  heads: [
    'distil',
    'distill',
    'fractionate',
    'steam distil',
    'steam distill',
    'steam-distil',
    'steam-distill',
    'redistil',
    'redistill',
    'vacuum distil',
    'vacuum distill',
    'vacuum-distil',
    'vacuum-distill',
    'purify',
    'fractionally distil',
    'fractionally distill',
    'distil over',
    'collect',
    'set up for steam distillation and collect',
  ],
  participles: {
    distilled: 'distil',
    'vacuum-distilled': 'vacuum-distil',
    'steam-distilled': 'steam-distil',
  },
  object: [
    { kind: 'ref', slot: 'on' },
    { kind: 'vessel', slot: 'on' },
    { kind: 'refs', slot: 'on' },
  ],

  clauses: [
    { words: FRACTION_WORDS, kind: 'temperature', slot: 'range' },
    {
      words: ['up to', 'until the head reaches', 'until the head temperature reaches', 'below'],
      kind: 'temperature',
      slot: 'temperature',
    },
    {
      words: [
        'into',
        'in',
        'to',
        'being collected in',
        'collecting the distillate in',
        'collect the distillate in',
        'and collect the distillate in',
        'collecting in',
        'collecting it in',
        'and collect it in',
      ],
      kind: 'vessel',
      slot: 'into',
    },
    { words: ['from'], kind: 'ref', slot: 'with' },
    {
      words: ['collecting', 'collect', 'and collect', 'to remove', 'to drive off', 'to give'],
      kind: 'detail',
      slot: 'detail',
    },
    { words: ['at', 'under', 'under a pressure of'], kind: 'pressure', slot: 'bath' },
    BATH,
    { words: ['from'], kind: 'bath', slot: 'bath' },
    UNTIL,
  ],
  manners: {
    'under reduced pressure': 'reduced pressure',
    'under vacuum': 'reduced pressure',
    'in steam': 'steam',
    'with steam': 'steam',
    'at atmospheric pressure': 'atmospheric',
    'through a short column': 'column',
    'through a fractionating column': 'column',
    'through a vigreux column': 'column',
    'by simple distillation': 'simple',
    'by distillation': 'simple',
    'by vacuum distillation': 'reduced pressure',
    'by distillation under reduced pressure': 'reduced pressure',
    'by fractional distillation': 'column',
    'as it forms': 'as it forms',
  },
  fits: (raw) =>
    (raw.head !== 'collect' || raw.arguments.range !== undefined) &&
    (raw.head !== 'purify' ||
      raw.manner.some((m) => /^(?:simple|reduced pressure|column)$/.test(m))),
  resolve(raw, context) {
    const { arguments: args } = raw;
    const product =
      args.on?.kind === 'ref' && (args.on.ref.role === 'product' || args.on.ref.named !== undefined)
        ? args.on
        : undefined;
    const named =
      product?.ref.named === undefined ? undefined : context.substance(product.ref.named);
    const from = args.with ? context.refOf(args.with) : undefined;
    const source = from ?? context.refOf(args.on) ?? whole(context.vessel('the flask', 0));
    const into = context.vesselOf(args.into) ?? context.implied('distillate', 'round-bottom flask');
    context.setFocus(into);
    context.solventGone();
    context.moved(source.vessel, into, source.vessel);
    context.setRole('distillate', whole(into));
    context.setRole('product', whole(into));
    context.setRole('residue', whole(source.vessel));
    const limit = figureOf(args.temperature);
    const range = figureOf(args.range) ?? (limit && { ...limit, upTo: true as const });
    const manner = /steam/.test(raw.head) ? [...raw.manner, 'steam'] : raw.manner;
    return {
      on: [whole(source.vessel)],
      into,
      ...(named !== undefined && { detail: named }),
      ...conditions({ ...raw, manner }),
      ...(range && { temperature: range }),
    };
  },
  print: (slots, w) =>
    `${slots.manner.includes('steam') ? 'Steam-distil' : 'Distil'} ${slots.detail === undefined ? '' : `the ${slots.detail} from `}${w.ref(slots.on![0]!)} into ${w.vessel(slots.into!)}${slots.temperature ? `; collect the fraction boiling at ${w.amount(slots.temperature)}` : ''}${w.tail({ manner: slots.manner.filter((m) => m !== 'steam'), ...(slots.bath && { bath: slots.bath }), ...(slots.until && { until: slots.until }) })}`,
  lower({ slots }) {
    const { vessel } = slots.on![0]!;
    const { temperature } = slots;
    const low =
      temperature?.high !== undefined
        ? temperature.value
        : temperature && !temperature.upTo
          ? temperature.value
          : undefined;
    const high = temperature?.high ?? temperature?.value;
    const moves: Move[] = [
      { kind: 'wait', vessel, heating: 'warm', forReaction: false },
      react(vessel, 'wait'),
      {
        kind: 'split',
        vessel,
        by: {
          rule: 'distil',
          ...(low !== undefined && { from_C: low }),
          ...(high !== undefined && { to_C: high }),
          steam: slots.manner.includes('steam'),
          ...(slots.detail !== undefined && { substance: slots.detail }),
        },
      },
      {
        kind: 'move',
        from: 'vessel',
        vessel,
        take: { kind: 'phase', phase: 'vapour' },
        to: { kind: 'vessel', vessel: slots.into! },
        label: 'distillate',
      },
    ];
    return moves;
  },
};
