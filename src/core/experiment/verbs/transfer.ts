import type { Argument, Verb } from './verb.ts';
import { whole } from './verb.ts';
import {
  AT,
  BATH,
  OVER,
  PORTIONS,
  UNTIL,
  conditions,
  fromStock,
  hasRole,
  minutes,
  pour,
  react,
  waiting,
} from './common.ts';
import type { Role } from '../sentence/reference.ts';

const FOLLOW: readonly Role[] = [
  'solid',
  'dryingAgent',
  'upper',
  'lower',
  'product',
  'filtrate',
  'motherLiquor',
  'organic',
  'aqueous',
  'extracts',
  'distillate',
  'residue',
  'washings',
];

const POURS = /^(?:add|pour|pour in|run in|run|introduce|tip|drop in|pipette)$/;

/** A word that only context can settle: the mixture, the solution, it. */
function vague(argument: Argument | undefined): boolean {
  return (
    hasRole(argument, 'mixture', 'it') &&
    argument?.kind === 'ref' &&
    argument.ref.vesselPhrase === undefined
  );
}

function isPart(argument: Argument | undefined): boolean {
  return (
    argument?.kind === 'ref' &&
    (argument.ref.portion.kind !== 'all' || /^the (?:rest|remainder) of /i.test(argument.ref.text))
  );
}

const LAYERS: readonly Role[] = ['organic', 'aqueous', 'extracts', 'upper', 'lower'];

export const transfer: Verb = {
  kind: 'transfer',
  about: 'Move what a vessel holds, a part of it or one layer, to another vessel.',
  forms: [
    'Transfer {contents} to {vessel}',
    'Pour {contents} onto {material} {amount} in {vessel}',
    'Drain the lower layer into {vessel}',
  ],
  examples: [
    'Transfer the flask to the funnel',
    'Transfer half of the filtrate to the beaker',
    'Drain the lower layer into the beaker',
  ],
  heads: [
    'transfer',
    'pour',
    'move',
    'add',
    'put',
    'place',
    'return',
    'draw off',
    'drain',
    'drain off',
    'run off',
    'run',
    'siphon',
    'tip',
    'scrape',
    'empty',
    'pipette',
    'remove',
    'take',
    'collect',
    'pour off',
    'introduce',
    'withdraw',
    'keep',
    'save',
    'transfer back',
    'charge',
    'dissolve',
    'suspend',
    'mix',
    'drop',
    'run in',
    'pour in',
    'take out',
  ],
  participles: { drawn: 'draw off', run: 'run', put: 'put', taken: 'take' },
  object: [
    { kind: 'ref', slot: 'on' },
    { kind: 'vessel', slot: 'on' },
  ],
  clauses: [
    {
      words: [
        'to',
        'into',
        'onto',
        'in',
        'on',
        'back to',
        'back into',
        'over',
        'contained in',
        'held in',
      ],
      kind: 'vessel',
      slot: 'into',
    },
    { words: ['to', 'into', 'in', 'onto'], kind: 'ref', slot: 'into' },
    { words: ['onto', 'into', 'over', 'on to', 'to', 'on'], kind: 'materials', slot: 'materials' },
    {
      words: ['with', 'together with', 'containing', 'with the aid of', 'with the help of'],
      kind: 'materials',
      slot: 'materials',
    },
    { words: ['from', 'out of'], kind: 'ref', slot: 'range' },
    { words: ['through'], kind: 'detail', slot: 'detail' },
    OVER,
    { ...AT, words: AT.words.filter((word) => word !== 'to') },
    BATH,
    UNTIL,
    PORTIONS,
  ],
  fits: (raw) =>
    (raw.arguments.on !== undefined ||
      (/^(?:transfer|pour|return|run|tip)$/.test(raw.head) &&
        (raw.arguments.into?.kind === 'vessel' || raw.arguments.materials !== undefined))) &&
    (raw.arguments.into !== undefined ||
      (raw.arguments.materials !== undefined &&
        !/^(?:mix|dissolve|suspend|charge|place|put)$/.test(raw.head)) ||
      (POURS.test(raw.head) && (hasRole(raw.arguments.on, 'rest') || isPart(raw.arguments.on)))),
  resolve(raw, context) {
    const { arguments: args } = raw;
    const materials = context.materials(args.materials);
    const named = context.refOf(args.on) ?? whole(context.vessel('the flask', 0));
    const from = args.range === undefined ? undefined : context.refOf(args.range);
    let on = from === undefined ? named : { vessel: from.vessel, portion: named.portion };
    const meantInto =
      context.vesselOf(args.into) ??
      (POURS.test(raw.head) && materials.length === 0
        ? context.focus === on.vessel
          ? context.before(on.vessel)
          : context.focus
        : undefined) ??
      context.implied('beaker', 'beaker');
    // "Add this solution to the stirred suspension": of two that a word may mean, the other one
    const same = meantInto === on.vessel;
    const sure = (argument: Argument | undefined) =>
      argument?.kind === 'ref' &&
      argument.ref.noun !== undefined &&
      context.called(argument.ref.noun) !== undefined;
    const moveFrom =
      same && vague(args.on) && !sure(args.on) && (sure(args.into) || !vague(args.into));
    const into =
      same && !moveFrom && vague(args.into) ? (context.before(on.vessel) ?? meantInto) : meantInto;
    if (moveFrom) on = { ...on, vessel: context.before(into) ?? into };
    if (on.vessel === into) {
      context.remark(
        'transfer-to-itself',
        `What is meant already stands in ${into}; nothing moves.`,
        'Name the vessel that it comes from, for example “Transfer the flask to the funnel”.',
      );
    }
    const all = on.portion.kind === 'all';
    // A new mixture in a funnel: "the organic layer" is then one of its own, not one kept before
    const isLayer = LAYERS.some((role) => context.role(role)?.vessel === on.vessel);
    if (all && !isLayer && context.shape(into) === 'separatory funnel')
      LAYERS.forEach((role) => context.forget(role));
    for (const role of FOLLOW) {
      const ref = context.role(role);
      if (all && ref?.vessel === on.vessel)
        context.setRole(role, { vessel: into, portion: ref.portion });
    }
    const meant = args.on?.kind === 'ref' ? args.on.ref.role : undefined;
    if (meant && meant !== 'mixture' && !all) {
      const layer = meant === 'upper' || meant === 'lower' ? context.layerIs(meant) : meant;
      if (layer === 'organic') context.setLayers(whole(into), whole(on.vessel));
      else if (layer === 'aqueous') context.setLayers(whole(on.vessel), whole(into));
      else context.setRole(layer, whole(into));
    }
    if (all) context.moved(on.vessel, into);
    if (on.portion.kind === 'fraction' || on.portion.kind === 'amount')
      context.setRole('rest', whole(on.vessel));
    context.setFocus(into);
    return { ...(materials.length > 0 && { materials }), on: [on], into, ...conditions(raw) };
  },
  print: (slots, w) =>
    `Transfer ${w.ref(slots.on![0]!)} to ${w.vessel(slots.into!)}${(slots.materials ?? []).length > 0 ? ` onto ${w.materials(slots.materials!)}` : ''}${w.tail(slots)}`,
  lower({ slots }) {
    const into = slots.into!;
    if (slots.on![0]!.vessel === into) return fromStock(slots.materials, into);
    const timed =
      minutes(slots.over) !== undefined ||
      slots.manner.some((m) => /dropwise|slowly|in portions/.test(m));
    return [
      ...fromStock(slots.materials, into),
      ...pour(slots.on![0]!, into),
      ...((slots.materials ?? []).length > 0 ? [react(into, 'quench')] : [react(into, 'contact')]),
      ...(timed ? [waiting(into, slots, 'none', true), react(into, 'wait')] : []),
    ];
  },
};
