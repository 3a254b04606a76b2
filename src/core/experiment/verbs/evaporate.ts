import type { Verb } from './verb.ts';
import { figureOf, whole } from './verb.ts';
import { CONDITIONS, conditions, degrees, minutes, pour } from './common.ts';

const SOLVENT_WORDS =
  /solvents?|ether|ethanol|methanol|acetone|dichloromethane|ethyl acetate|toluene|hexane|pentane|water|volatiles?|alcohol|thf|acetonitrile|excess|petrol/i;

/** What is left, as a share; "a small volume" is taken as a quarter (common practice). */
const SHARES: Readonly<Record<string, number>> = {
  'to half': 1 / 2,
  'to a third': 1 / 3,
  'to a quarter': 1 / 4,
  partly: 1 / 2,
};

export const evaporate: Verb = {
  kind: 'evaporate',
  about: 'Drive the solvent off, on a rotary evaporator, in a stream of air, or by boiling down.',
  forms: [
    'Evaporate {contents}',
    'Evaporate the solvent from {vessel} on a rotary evaporator',
    'Blow off the solvent in a stream of air',
  ],
  examples: [
    'Evaporate the receiver on a rotary evaporator',
    'Remove the ether from the receiver in a stream of nitrogen',
  ],
  heads: [
    'evaporate',
    'remove',
    'blow off',
    'strip',
    'strip off',
    'concentrate',
    'rotary evaporate',
    'rotary-evaporate',
    'boil off',
    'boil down',
    'distil off',
    'distill off',
    'drive off',
    'evaporate off',
    'reduce',
    'rotavap',
    'take off',
    'blow down',
    'evaporate down',
  ],
  participles: { blown: 'blow off', driven: 'drive off', taken: 'take off' },
  object: [
    { kind: 'ref', slot: 'on' },
    { kind: 'vessel', slot: 'on' },
    { kind: 'detail', slot: 'detail' },
  ],
  clauses: [
    { words: ['into'], kind: 'vessel', slot: 'into' },
    { words: ['from', 'in', 'off'], kind: 'ref', slot: 'range' },
    { words: ['from', 'in'], kind: 'vessel', slot: 'range' },
    {
      words: [
        'to',
        'to about',
        'down to',
        'down to about',
        'until about',
        'until only',
        'to a volume of',
        'to a volume of about',
      ],
      kind: 'volume',
      slot: 'range',
    },
    { words: ['to', 'until'], kind: 'until', slot: 'until' },
    ...CONDITIONS,
    { words: ['at', 'under', 'and'], kind: 'pressure', slot: 'with' },
  ],
  manners: {
    'on a rotary evaporator': 'rotary',
    'on the rotary evaporator': 'rotary',
    'by rotary evaporation': 'rotary',
    'using a rotary evaporator': 'rotary',
    'with a rotary evaporator': 'rotary',
    'under reduced pressure': 'rotary',
    'under vacuum': 'rotary',
    'in vacuo': 'rotary',
    'at reduced pressure': 'rotary',
    'in a stream of air': 'stream',
    'in a stream of nitrogen': 'stream',
    'with a stream of air': 'stream',
    'with a stream of nitrogen': 'stream',
    'under a stream of air': 'stream',
    'under a gentle stream of air': 'stream',
    'under a gentle stream of nitrogen': 'stream',
    'in a gentle stream of air': 'stream',
    'in a gentle stream of nitrogen': 'stream',
    'with a gentle stream of air': 'stream',
    'under a stream of nitrogen': 'stream',
    'in the hood': 'in the hood',
    'by distillation': 'distillation',
    'by simple distillation': 'distillation',
    'in volume': 'partly',
    'to dryness': 'to dryness',
    'to half its volume': 'to half',
    'to half': 'to half',
    'to about half its volume': 'to half',
    'to a third of its volume': 'to a third',
    'to a quarter of its volume': 'to a quarter',
    'to a small volume': 'to a quarter',
    'by half': 'to half',
    'to constant mass': 'to constant mass',
    'to constant weight': 'to constant mass',
    'on a steam bath': 'steam bath',
    'on a hot-water bath': 'water bath',
  },
  fits: (raw) => {
    const { on, detail, range } = raw.arguments;
    const words =
      detail?.kind === 'detail'
        ? detail.text
        : on?.kind === 'ref'
          ? (on.ref.named ?? on.ref.role ?? '')
          : '';
    if (
      /^(?:remove|take off|reduce|strip|boil off|distil off|distill off|drive off|strip off)$/.test(
        raw.head,
      )
    ) {
      if (raw.head === 'reduce')
        return raw.manner.includes('rotary') || raw.manner.includes('partly');
      if (
        !SOLVENT_WORDS.test(words) &&
        !(on?.kind === 'ref' && on.ref.named !== undefined) &&
        !raw.manner.some((m) => m === 'rotary' || m === 'stream' || m === 'distillation')
      )
        return false;
      return (
        raw.head !== 'remove' ||
        raw.manner.some(
          (m) => m === 'rotary' || m === 'stream' || m === 'distillation' || m === 'in the hood',
        ) ||
        range !== undefined ||
        /solvent|volatile|ether/i.test(words)
      );
    }
    return true;
  },
  resolve(raw, context) {
    const { arguments: args } = raw;
    const names =
      args.on?.kind === 'ref' &&
      (args.on.ref.named !== undefined || args.on.ref.role === 'solvent');
    const source =
      (args.range && args.range.kind !== 'amount' ? context.refOf(args.range) : undefined) ??
      ((names && args.on?.kind === 'ref' && args.on.ref.vesselPhrase === undefined) ||
      args.on === undefined
        ? context.focus === undefined
          ? undefined
          : whole(context.focus)
        : context.refOf(args.on));
    const held = whole(source?.vessel ?? context.vessel('the flask', 0));
    // "Evaporate the filtrate in a tared flask", "evaporate to dryness in a tared flask": it is put there first
    const other =
      args.into ??
      (args.range &&
      args.range.kind !== 'amount' &&
      !names &&
      (args.on !== undefined ||
        /\b(?:tared|weighed|clean)\b/i.test(
          args.range.kind === 'vessel'
            ? args.range.phrase
            : args.range.kind === 'ref'
              ? args.range.ref.text
              : '',
        ))
        ? args.range
        : undefined);
    const contents =
      other === undefined
        ? undefined
        : args.on === undefined
          ? context.focus
          : context.vesselOf(args.on);
    const into = contents === undefined ? undefined : context.vesselOf(other);
    const moves = into !== undefined && contents !== undefined && into !== contents;
    if (moves) context.moved(contents, into);
    const on = moves ? whole(into) : held;
    context.setFocus(on.vessel);
    context.solventGone();
    context.setRole('residue', on);
    context.setRole('product', on);
    context.setRole('solid', on);
    const leaves = figureOf(args.range);
    const stream = raw.manner.includes('stream') ? 'air' : 'recovered solvent';
    const detail =
      args.detail?.kind === 'detail'
        ? context.substance(args.detail.text.replace(/^(?:the|all the|most of the|excess)\s+/i, ''))
        : names && args.on?.kind === 'ref'
          ? args.on.ref.named === undefined
            ? undefined
            : context.substance(args.on.ref.named)
          : undefined;
    return {
      on: [moves ? whole(contents) : on],
      ...(moves && { into }),
      stream,
      ...(detail !== undefined && { detail }),
      ...(leaves && { leaves }),
      ...conditions(raw),
    };
  },
  print: (slots, w) =>
    `Evaporate ${slots.detail === undefined ? '' : `the ${slots.detail} from `}${w.ref(slots.on![0]!)}${slots.into === undefined ? '' : ` into ${w.vessel(slots.into)}`}${w.tail(slots)}${slots.leaves ? ` down to ${w.amount(slots.leaves)}` : ''}`,
  lower({ slots }) {
    const source = slots.on![0]!;
    const vessel = slots.into ?? source.vessel;
    const time_min = minutes(slots.time);
    const leavingShare = slots.manner.map((m) => SHARES[m]).find((share) => share !== undefined);
    const upTo_C = slots.manner.includes('rotary') ? undefined : degrees(slots);
    return [
      ...(slots.into === undefined ? [] : pour(source, slots.into)),
      {
        kind: 'wait',
        vessel,
        heating: 'warm',
        forReaction: false,
        ...(time_min !== undefined && { time_min }),
        ...(upTo_C !== undefined && { temperature_C: upTo_C }),
      },
      {
        kind: 'split',
        vessel,
        by: {
          rule: 'evaporate',
          toDryness: slots.leaves === undefined && leavingShare === undefined,
          ...(slots.leaves && { leaving_mL: slots.leaves.value }),
          ...(leavingShare !== undefined && { leavingShare }),
          ...(slots.detail !== undefined && { only: [slots.detail] }),
        },
      },
      {
        kind: 'move',
        from: 'vessel',
        vessel,
        take: { kind: 'phase', phase: 'vapour' },
        to: slots.stream === 'air' ? { kind: 'air' } : { kind: 'waste', stream: slots.stream! },
        label: 'solvent',
      },
    ];
  },
};
