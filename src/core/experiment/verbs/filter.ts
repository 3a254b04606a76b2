import type { Step } from '../step.ts';
import type { Move } from '../move.ts';
import { shapeOf } from '../vessels.ts';
import type { RawSentence, Verb } from './verb.ts';
import { whole } from './verb.ts';
import { conditions, fromStock, hasRole, react } from './common.ts';

export const FILTER_MANNERS: Readonly<Record<string, string>> = {
  'under gentle vacuum': 'vacuum',
  'under gentle suction': 'vacuum',
  'with gentle suction': 'vacuum',
  'under vacuum': 'vacuum',
  'under suction': 'vacuum',
  'by suction': 'vacuum',
  'with suction': 'vacuum',
  'under reduced pressure': 'vacuum',
  'by vacuum': 'vacuum',
  'by vacuum filtration': 'vacuum',
  'by suction filtration': 'vacuum',
  'at the pump': 'vacuum',
  'using vacuum filtration': 'vacuum',
  'by gravity': 'gravity',
  'under gravity': 'gravity',
  'by gravity filtration': 'gravity',
  'by hot filtration': 'filtration',
  'by filtration': 'filtration',
  'by filtering': 'filtration',
  'while hot': 'hot',
  hot: 'hot',
  'through a fluted filter paper': 'gravity',
  'through fluted filter paper': 'gravity',
  'through a fluted paper': 'gravity',
  'through filter paper': 'gravity',
  'through a filter paper': 'gravity',
  'through cotton wool': 'gravity',
  'through a plug of cotton wool': 'gravity',
  'through a cotton plug': 'gravity',
  'through a small plug of cotton wool': 'gravity',
  'through glass wool': 'gravity',
  'through a plug of glass wool': 'gravity',
  'through a pad of silica': 'vacuum',
};

/** What is kept where nothing is said: both parts, the solid on the filter, the liquid below it. */
function lower({ slots }: Step): Move[] {
  const { vessel } = slots.on![0]!;
  return [
    ...(slots.otherInto === undefined ? [] : fromStock(slots.materials, slots.otherInto)),
    react(vessel, 'separation'),
    {
      kind: 'split',
      vessel,
      by: {
        rule: 'filter',
        keep: slots.keep === 'solid' || slots.keep === 'liquid' ? slots.keep : 'both',
      },
    },
    {
      kind: 'move',
      from: 'vessel',
      vessel,
      take: { kind: 'phase', phase: 'liquid' },
      to: { kind: 'vessel', vessel: slots.into! },
      label: 'filtrate',
    },
    ...(slots.otherInto === undefined || slots.otherInto === vessel
      ? []
      : [
          {
            kind: 'move',
            from: 'vessel',
            vessel,
            take: { kind: 'all' },
            to: { kind: 'vessel', vessel: slots.otherInto },
            label: 'solid',
          } as const,
        ]),
  ];
}

/** "collected on a Büchner funnel": on a filter; a distillate is collected in a vessel. */
function onFilter({ arguments: { on, otherInto } }: RawSentence): boolean {
  return (
    hasRole(on, 'solid', 'product') ||
    (on?.kind === 'ref' && on.ref.named !== undefined) ||
    (otherInto?.kind === 'vessel' && shapeOf(otherInto.phrase) === 'filter')
  );
}

/** What the sentence itself says of the part that is kept; `both` where it says nothing. */
function keptPart(raw: RawSentence, dried: boolean): 'solid' | 'liquid' | 'both' {
  const { on, keep, detail, into } = raw.arguments;
  if (keep?.kind === 'keep')
    return keep.what === 'solid' || keep.what === 'both' ? keep.what : 'liquid';
  const takesAway = raw.head === 'remove' || detail !== undefined;
  if (takesAway || dried || hasRole(on, 'dryingAgent')) return 'liquid';
  if (/^(?:collect|isolate|recover)$/.test(raw.head)) return 'solid';
  return into === undefined ? 'both' : 'liquid';
}

export const filter: Verb = {
  kind: 'filter',
  about: 'Part a solid from a liquid; say which is kept.',
  forms: [
    'Filter {vessel} under vacuum; keep the solid',
    'Filter {vessel} by gravity into {vessel}',
    'Filter off the solid',
    'Collect the solid by vacuum filtration',
  ],
  examples: [
    'Filter the beaker under vacuum; keep the solid',
    'Filter the mixture by gravity into the receiver',
  ],
  heads: [
    'filter',
    'filter off',
    'suction filter',
    'vacuum filter',
    'suction-filter',
    'vacuum-filter',
    'gravity filter',
    'gravity-filter',
    'collect',
    'isolate',
    'hot filter',
    'hot-filter',
    'remove',
    'strain',
    'recover',
    'filter out',
    'pass',
  ],
  object: [
    { kind: 'ref', slot: 'on' },
    { kind: 'vessel', slot: 'on' },
  ],
  clauses: [
    {
      words: ['through', 'on', 'onto', 'using', 'on to', 'with', 'in'],
      kind: 'vessel',
      slot: 'otherInto',
    },
    {
      words: [
        'through a pad of',
        'through a short pad of',
        'through a plug of',
        'through a short plug of',
        'through a small plug of',
        'through a short column of',
        'through a layer of',
        'through a bed of',
        'through',
      ],
      kind: 'materials',
      slot: 'materials',
    },
    {
      words: [
        'into',
        'to',
        'collecting the filtrate in',
        'and collect the filtrate in',
        'collect the filtrate in',
        'catching the filtrate in',
        'running the filtrate into',
      ],
      kind: 'vessel',
      slot: 'into',
    },
    {
      words: [
        'keep',
        'keeping',
        'and keep',
        'collect',
        'collecting',
        'and collect',
        'saving',
        'save',
        'retain',
        'retaining',
        'and retain',
        'to collect',
        'to isolate',
        'to obtain',
        'to recover',
      ],
      kind: 'keep',
      slot: 'keep',
    },
    { words: ['from'], kind: 'ref', slot: 'range' },
    {
      words: ['to remove', 'to get rid of', 'to take out', 'with the aid of', 'aided by'],
      kind: 'detail',
      slot: 'detail',
    },
  ],
  manners: FILTER_MANNERS,
  fits: (raw) =>
    !(raw.head === 'remove' && hasRole(raw.arguments.on, 'solvent')) &&
    (!/^(?:collect|isolate|remove|recover)$/.test(raw.head) ||
      raw.manner.some((m) => /vacuum|gravity|filtration/.test(m)) ||
      (raw.arguments.otherInto !== undefined && (raw.head === 'remove' || onFilter(raw))) ||
      (raw.head === 'collect' && hasRole(raw.arguments.on, 'solid'))) &&
    (!/^pass$/.test(raw.head) ||
      raw.manner.some((m) => /gravity|vacuum/.test(m)) ||
      raw.arguments.otherInto !== undefined ||
      raw.arguments.materials !== undefined),
  resolve(raw, context) {
    const { arguments: args } = raw;
    const solidNamed =
      hasRole(args.on, 'solid', 'product', 'residue') ||
      (args.on?.kind === 'ref' &&
        args.on.ref.named !== undefined &&
        args.on.ref.vesselPhrase === undefined);
    const from = args.range ? context.refOf(args.range) : undefined;
    // "filter off the crystals" is about the vessel that they stand in
    const source =
      from ??
      (solidNamed
        ? context.focus === undefined
          ? undefined
          : whole(context.focus)
        : context.refOf(args.on));
    const on = whole(source?.vessel ?? context.vessel('the flask', 0));
    const keepArgument = args.keep?.kind === 'keep' ? args.keep : undefined;
    const keep = keptPart(raw, context.holdsDryingAgent(on.vessel));
    const keptIn =
      keepArgument?.vesselPhrase === undefined
        ? undefined
        : context.vessel(keepArgument.vesselPhrase, keepArgument.start);
    // Recrystallised, and then "filter off the crystals": they are on that filter already, the liquor below it
    const below =
      context.shape(on.vessel) === 'filter' && args.otherInto === undefined
        ? context.role('motherLiquor')?.vessel
        : undefined;
    const into =
      context.vesselOf(args.into) ??
      below ??
      (keep === 'liquid' && keptIn !== undefined
        ? keptIn
        : context.implied('filtrate', 'filter flask'));
    const otherInto =
      (keep === 'solid' ? keptIn : undefined) ??
      context.vesselOf(args.otherInto) ??
      (below === undefined ? undefined : on.vessel) ??
      context.implied('filter', 'filter');
    context.setRole('solid', whole(otherInto));
    if (context.role('dryingAgent')?.vessel === on.vessel)
      context.setRole('dryingAgent', whole(otherInto));
    if (keep !== 'liquid') context.setRole('product', whole(otherInto));
    context.moved(on.vessel, into, otherInto);
    context.setRole('filtrate', whole(into));
    context.setRole('motherLiquor', whole(into));
    if (keep === 'liquid') context.setRole('organic', whole(into));
    context.setFocus(keep === 'liquid' ? into : otherInto);
    const materials = context.materials(args.materials);
    return {
      ...(materials.length > 0 && { materials }),
      on: [on],
      into,
      otherInto,
      keep,
      ...conditions(raw),
    };
  },
  print: (slots, w) =>
    `Filter ${w.ref(slots.on![0]!)}${slots.materials ? ` through a pad of ${w.materials(slots.materials)}` : ''} through ${w.vessel(slots.otherInto!)} into ${w.vessel(slots.into!)}${w.tail(slots)}; keep ${slots.keep === 'liquid' ? 'the filtrate' : slots.keep === 'solid' ? 'the solid' : 'both'}`,
  lower,
};
