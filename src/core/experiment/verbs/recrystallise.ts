import type { Move } from '../move.ts';
import type { Verb } from './verb.ts';
import { whole } from './verb.ts';
import { AT, BATH, UNTIL, conditions, fromStock } from './common.ts';
import { FILTER_MANNERS } from './filter.ts';

export const recrystallise: Verb = {
  kind: 'recrystallise',
  about: 'Dissolve hot, cool, and filter the crystals off; the mother liquor is kept apart.',
  forms: ['Recrystallise {contents} from {material} {amount}'],
  examples: ['Recrystallise the solid from 95 % ethanol 20 mL'],
  heads: ['recrystallise', 'recrystallize', 'crystallise', 'crystallize', 'purify'],
  object: [
    { kind: 'ref', slot: 'on' },
    { kind: 'vessel', slot: 'on' },
  ],
  clauses: [
    {
      words: [
        'from',
        'in',
        'using',
        'by recrystallisation from',
        'by recrystallization from',
        'with',
      ],
      kind: 'materials',
      slot: 'materials',
    },
    { words: ['in', 'into'], kind: 'vessel', slot: 'into' },
    {
      words: [
        'leaving the mother liquor in',
        'keeping the mother liquor in',
        'collecting the mother liquor in',
      ],
      kind: 'vessel',
      slot: 'otherInto',
    },
    {
      words: ['keep', 'keeping', 'collect', 'collecting', 'and collect'],
      kind: 'keep',
      slot: 'keep',
    },
    { ...AT, words: ['at'] },
    BATH,
    UNTIL,
  ],
  manners: FILTER_MANNERS,
  fits: (raw) => raw.arguments.materials !== undefined,
  resolve(raw, context) {
    const { arguments: args } = raw;
    const materials = context.materials(args.materials);
    const target = context.refOf(args.on) ?? whole(context.vessel('the flask', 0));
    const into =
      context.vesselOf(args.otherInto) ?? context.implied('mother liquor', 'filter flask');
    const kept =
      args.keep?.kind === 'keep' && args.keep.vesselPhrase !== undefined
        ? context.vessel(args.keep.vesselPhrase, args.keep.start)
        : undefined;
    const otherInto = kept ?? context.vesselOf(args.into) ?? context.implied('filter', 'filter');
    context.setRole('product', whole(otherInto));
    context.setRole('solid', whole(otherInto));
    context.setRole('motherLiquor', whole(into));
    context.setRole('filtrate', whole(into));
    context.setFocus(otherInto);
    return { materials, on: [whole(target.vessel)], into, otherInto, ...conditions(raw) };
  },
  print: (slots, w) =>
    `Recrystallise ${w.ref(slots.on![0]!)} from ${w.materials(slots.materials ?? [])}${w.tail(slots)}, leaving the mother liquor in ${w.vessel(slots.into!)}; keep the crystals in ${w.vessel(slots.otherInto!)}`,
  lower({ slots }) {
    const { vessel } = slots.on![0]!;
    const moves: Move[] = [
      ...fromStock(slots.materials, vessel),
      { kind: 'wait', vessel, heating: 'warm', forReaction: false },
      { kind: 'wait', vessel, heating: 'none', forReaction: false },
      { kind: 'split', vessel, by: { rule: 'crystallise' } },
      { kind: 'split', vessel, by: { rule: 'filter', keep: 'solid' } },
      {
        kind: 'move',
        from: 'vessel',
        vessel,
        take: { kind: 'phase', phase: 'liquid' },
        to: { kind: 'vessel', vessel: slots.into! },
        label: 'mother liquor',
      },
    ];
    if (slots.otherInto !== vessel)
      moves.push({
        kind: 'move',
        from: 'vessel',
        vessel,
        take: { kind: 'all' },
        to: { kind: 'vessel', vessel: slots.otherInto! },
        label: 'crystals',
      });
    return moves;
  },
};
