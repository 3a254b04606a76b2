import type { Move } from '../move.ts';
import type { Verb } from './verb.ts';
import { whole } from './verb.ts';
import { UNTIL, conditions, hasRole, oneTurn, parting, react } from './common.ts';

/** Solvents that stand as a layer of their own. */
export const LAYER =
  /^(?:diethyl ether|ether|dichloromethane|dcm|chloroform|ethyl acetate|toluene|hexanes?|pentane|heptane|cyclohexane|mtbe|petroleum ether|petrol)$/;

export const washLayer: Verb = {
  kind: 'washLayer',
  about: 'Wash an organic layer with portions of water or a solution; the washings are drawn off.',
  forms: [
    'Wash the organic layer with {material} {amount}',
    'Wash the extracts with {material} {amount}, {material} {amount} and {material} {amount}',
  ],
  examples: [
    'Wash the organic layer with saturated sodium hydrogencarbonate 2 × 10 mL',
    'Wash the extracts with water 10 mL and brine 10 mL',
  ],
  heads: ['wash', 'shake', 'wash successively', 'wash again'],
  object: [
    { kind: 'ref', slot: 'on' },
    { kind: 'vessel', slot: 'on' },
    { kind: 'materials', slot: 'materials' },
  ],
  clauses: [
    {
      words: [
        'with',
        'using',
        'successively with',
        'sequentially with',
        'in turn with',
        'first with',
        'once with',
      ],
      kind: 'materials',
      slot: 'materials',
    },
    {
      words: [
        'then with',
        'and then with',
        'followed by',
        'then',
        'and with',
        'and finally with',
        'finally with',
        'and once with',
        'and',
      ],
      kind: 'materials',
      slot: 'with',
    },
    UNTIL,
    {
      words: [
        'into',
        'in',
        'collecting the washings in',
        'running the washings into',
        'combining the washings in',
        'adding the washings to',
        'draining the washings into',
      ],
      kind: 'vessel',
      slot: 'into',
    },
    {
      words: ['keep', 'keeping', 'and keep', 'retain', 'retaining', 'collecting'],
      kind: 'keep',
      slot: 'keep',
    },
    { words: ['in'], kind: 'vessel', slot: 'range' },
  ],
  fits: (raw) => {
    const on = raw.arguments.on;
    if (raw.arguments.materials === undefined) return false;
    if (
      on?.kind === 'ref' &&
      (['solid', 'product', 'residue'].includes(on.ref.role ?? '') ||
        (on.ref.named !== undefined &&
          on.ref.vesselPhrase === undefined &&
          !LAYER.test(on.ref.named)))
    )
      return false;
    return !(on?.kind === 'vessel' && /b(ü|u|ue)chner|hirsch|filter/i.test(on.phrase));
  },
  meant: (raw, context) =>
    (hasRole(raw.arguments.on, 'it') || raw.arguments.on === undefined) &&
    context.focus !== undefined &&
    context.shape(context.focus) === 'filter'
      ? 'washSolid'
      : undefined,
  resolve(raw, context) {
    const materials = [
      ...context.materials(raw.arguments.materials),
      ...context.materials(raw.arguments.with),
    ];
    const target = context.refOf(raw.arguments.on) ?? whole(context.vessel('the funnel', 0));
    context.disturb();
    const into =
      context.vesselOf(raw.arguments.into) ?? context.implied('washings', 'beaker', false);
    context.setFocus(target.vessel);
    context.setRole('washings', whole(into));
    context.setLayers(whole(target.vessel), whole(into));
    return { materials, on: [target], into, ...conditions(raw) };
  },
  print: (slots, w) =>
    `Wash ${w.ref(slots.on![0]!)} with ${w.materials(slots.materials ?? [])} into ${w.vessel(slots.into!)}${w.tail(slots)}`,
  lower({ slots }) {
    const target = slots.on![0]!;
    const { vessel } = target;
    const moves: Move[] = [];
    const draw = (): Move[] => [
      { kind: 'split', vessel, by: { rule: 'layers' } },
      {
        kind: 'move',
        from: 'vessel',
        vessel,
        take: { kind: 'phase', phase: 'aqueous' },
        to: { kind: 'vessel', vessel: slots.into! },
        label: 'washings',
      },
    ];
    if (target.portion.kind === 'phase')
      moves.push(...parting(target), {
        kind: 'move',
        from: 'vessel',
        vessel,
        take: { kind: 'phase', phase: 'aqueous', ifThere: true },
        to: { kind: 'vessel', vessel: slots.into! },
        label: 'aqueous layer',
      });
    for (const use of slots.materials ?? [])
      for (let turn = 0; turn < use.repeat; turn++)
        moves.push(oneTurn(use, turn, vessel), react(vessel, 'wait'), ...draw());
    return moves;
  },
};
