import type { Move } from '../move.ts';
import type { Verb } from './verb.ts';
import { whole } from './verb.ts';
import { UNTIL, conditions, hasRole, oneTurn, react } from './common.ts';
import { FILTER_MANNERS } from './filter.ts';
import { LAYER } from './wash-layer.ts';

export const washSolid: Verb = {
  kind: 'washSolid',
  about: 'Wash a solid on the filter, or by decanting, with portions of a liquid.',
  forms: ['Wash the solid with {material} {amount}', 'Wash the crystals with {material} 2 × 5 mL'],
  examples: ['Wash the solid with cold water 2 × 5 mL'],
  heads: ['wash', 'rinse', 'wash down', 'triturate'],
  object: [
    { kind: 'ref', slot: 'on' },
    { kind: 'vessel', slot: 'on' },
  ],
  clauses: [
    {
      words: ['with', 'using', 'in', 'by decantation with', 'under'],
      kind: 'materials',
      slot: 'materials',
    },
    {
      words: ['then with', 'and then with', 'followed by', 'then', 'and with', 'and finally with'],
      kind: 'materials',
      slot: 'with',
    },
    UNTIL,
    {
      words: [
        'into',
        'adding the washings to',
        'combining the washings with',
        'collecting the washings in',
      ],
      kind: 'vessel',
      slot: 'into',
    },
  ],
  manners: {
    ...FILTER_MANNERS,
    'on the filter': 'on the filter',
    'on the funnel': 'on the filter',
    'by decantation': 'decanting',
    'by decanting': 'decanting',
  },
  fits: (raw) =>
    raw.arguments.materials !== undefined &&
    ((raw.arguments.on === undefined && raw.manner.includes('on the filter')) ||
      hasRole(raw.arguments.on, 'solid', 'product', 'residue', 'dryingAgent') ||
      (raw.arguments.on?.kind === 'ref' &&
        raw.arguments.on.ref.named !== undefined &&
        raw.arguments.on.ref.vesselPhrase === undefined &&
        !LAYER.test(raw.arguments.on.ref.named)) ||
      (raw.arguments.on?.kind === 'vessel' &&
        /b(ü|u|ue)chner|hirsch|filter|sinter/i.test(raw.arguments.on.phrase)) ||
      raw.head === 'triturate'),
  meant: (raw, context) => {
    const on = context.refOf(raw.arguments.on);
    return on && context.shape(on.vessel) === 'separatory funnel' ? 'washLayer' : undefined;
  },
  resolve(raw, context) {
    const materials = [
      ...context.materials(raw.arguments.materials),
      ...context.materials(raw.arguments.with),
    ];
    const on = context.refOf(raw.arguments.on) ?? whole(context.vessel('the filter', 0));
    // On the filter, and after decanting, washings join the liquid that was parted from this solid
    const parted =
      context.shape(on.vessel) === 'filter' || context.role('solid')?.vessel === on.vessel;
    const liquor = parted ? context.role('filtrate')?.vessel : undefined;
    const into =
      context.vesselOf(raw.arguments.into) ??
      liquor ??
      context.implied('washings', 'beaker', false);
    // Where the liquid is what is wanted (a drying agent is rinsed), the work goes on with it
    context.setFocus(context.focus === into ? into : on.vessel);
    context.setRole('washings', whole(into));
    return { materials, on: [whole(on.vessel)], into, ...conditions(raw) };
  },
  print: (slots, w) =>
    `Wash the solid in ${w.vessel(slots.on![0]!.vessel)} with ${w.materials(slots.materials ?? [])} into ${w.vessel(slots.into!)}${w.tail(slots)}`,
  lower({ slots }) {
    const { vessel } = slots.on![0]!;
    const moves: Move[] = [];
    for (const use of slots.materials ?? [])
      for (let turn = 0; turn < use.repeat; turn++)
        moves.push(
          oneTurn(use, turn, vessel),
          react(vessel, 'wait'),
          { kind: 'split', vessel, by: { rule: 'filter', keep: 'solid' } },
          {
            kind: 'move',
            from: 'vessel',
            vessel,
            take: { kind: 'phase', phase: 'liquid' },
            to: { kind: 'vessel', vessel: slots.into! },
            label: 'washings',
          },
        );
    return moves;
  },
};
