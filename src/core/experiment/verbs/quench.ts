import type { Verb } from './verb.ts';
import {
  AT,
  BATH,
  OVER,
  PORTIONS,
  UNTIL,
  conditions,
  fromStock,
  gather,
  pour,
  react,
  waiting,
} from './common.ts';

export const quench: Verb = {
  kind: 'quench',
  about:
    'Destroy what is left of a reactive reagent; what the quench consumes and the gas given off are counted.',
  forms: [
    'Quench {contents} with {material} {amount} dropwise',
    'Quench {contents} by pouring onto {material} {amount} in {vessel}',
  ],
  examples: ['Quench the flask with 1 M hydrochloric acid 10 mL dropwise'],
  heads: [
    'quench',
    'destroy',
    'decompose',
    'hydrolyse',
    'hydrolyze',
    'quench the reaction',
    'quench the excess',
    'carefully quench',
    'stop',
  ],
  object: [
    { kind: 'ref', slot: 'on' },
    { kind: 'vessel', slot: 'on' },
  ],
  clauses: [
    {
      words: [
        'with',
        'by adding',
        'by the addition of',
        'by addition of',
        'by slow addition of',
        'by the slow addition of',
        'by the careful addition of',
        'by careful addition of',
        'by dropwise addition of',
        'by the dropwise addition of',
        'using',
        'by pouring onto',
        'by pouring it onto',
        'by pouring into',
        'by pouring it into',
        'on',
        'onto',
        'in',
      ],
      kind: 'materials',
      slot: 'materials',
    },
    { words: ['into', 'in'], kind: 'vessel', slot: 'into' },
    OVER,
    { ...AT, words: AT.words.filter((word) => word !== 'to') },
    BATH,
    UNTIL,
    PORTIONS,
    { words: ['for'], kind: 'time', slot: 'time' },
  ],
  fits: (raw) => raw.arguments.materials !== undefined,
  resolve(raw, context) {
    const { uses, aside } = gather(context, raw);
    const on = context.refOf(raw.arguments.on) ?? {
      vessel: context.vessel('the flask', 0),
      portion: { kind: 'all' as const },
    };
    const into = context.vesselOf(raw.arguments.into) ?? on.vessel;
    context.disturb();
    context.setFocus(into);
    return {
      materials: uses,
      on: [{ vessel: on.vessel, portion: { kind: 'all' } }, ...aside],
      into,
      ...conditions(raw),
    };
  },
  print: (slots, w) =>
    `Quench ${w.ref(slots.on![0]!)} with ${w.materials(slots.materials ?? [], slots.on!.slice(1))}${slots.into === slots.on![0]!.vessel ? '' : ` in ${w.vessel(slots.into!)}`}${w.tail(slots)}`,
  lower({ slots }) {
    const into = slots.into!;
    const moved = (slots.on ?? [])
      .filter((ref) => ref.vessel !== into)
      .flatMap((ref) => pour(ref, into));
    return [
      ...fromStock(slots.materials, into),
      ...moved,
      react(into, 'quench'),
      waiting(into, slots, 'none', false),
    ];
  },
};
