import type { Verb } from './verb.ts';
import { whole } from './verb.ts';
import { conditions, hasRole, parting, selector } from './common.ts';

export const discard: Verb = {
  kind: 'discard',
  about: 'Send what is left to a waste stream.',
  forms: ['Discard {contents} to the {stream} waste', 'Pour {contents} into the {stream} waste'],
  examples: [
    'Discard the aqueous layer to the aqueous waste',
    'Put the drying agent in the solid waste',
  ],
  heads: [
    'discard',
    'dispose of',
    'throw away',
    'pour',
    'put',
    'place',
    'empty',
    'transfer',
    'add',
    'move',
    'reject',
    'drain',
    'pour away',
    'waste',
    'return',
    'collect',
    'discard all',
    'flush',
  ],
  participles: { thrown: 'throw away', disposed: 'dispose of' },
  object: [
    { kind: 'ref', slot: 'on' },
    { kind: 'refs', slot: 'on' },
    { kind: 'vessel', slot: 'on' },
  ],
  clauses: [
    { words: ['to', 'into', 'in', 'as', 'with', 'down', 'for'], kind: 'stream', slot: 'stream' },
    { words: ['and', 'from', 'of'], kind: 'ref', slot: 'range' },
  ],
  fits: (raw) =>
    (raw.arguments.on !== undefined || /^(?:discard|reject|throw away)$/.test(raw.head)) &&
    (raw.arguments.stream !== undefined ||
      /^(?:discard|dispose of|throw away|pour away|reject|discard all)$/.test(raw.head)),
  resolve(raw, context) {
    const { arguments: args } = raw;
    const first = context.refOf(args.on) ?? whole(context.vessel('the flask', 0));
    const on =
      args.on?.kind === 'refs'
        ? args.on.refs.map((ref) => context.ref(ref, args.on!.kind === 'refs' ? args.on.start : 0))
        : [first];
    const extra = args.range?.kind === 'ref' ? context.refOf(args.range) : undefined;
    const from =
      extra && args.range?.kind === 'ref' && args.range.ref.vesselPhrase !== undefined
        ? extra
        : undefined;
    const refs =
      from && on.length === 1
        ? [{ vessel: from.vessel, portion: first.portion }]
        : extra
          ? [...on, extra]
          : on;
    // "Run off the lower layer and discard it": the work goes on with what is left
    const gone =
      refs.some((ref) => ref.portion.kind === 'all' && ref.vessel === context.focus) &&
      context.focus !== undefined
        ? context.before(context.focus)
        : undefined;
    if (gone !== undefined) context.setFocus(gone);
    const stream =
      args.stream?.kind === 'stream'
        ? args.stream.stream
        : hasRole(args.on, 'aqueous', 'washings', 'lower', 'upper') ||
            (args.on === undefined && context.role('aqueous')?.vessel === first.vessel)
          ? 'aqueous'
          : hasRole(args.on, 'solid', 'dryingAgent')
            ? 'solid'
            : hasRole(args.on, 'organic', 'extracts')
              ? 'organic'
              : 'general';
    return { on: refs, stream, ...conditions(raw) };
  },
  print: (slots, w) =>
    `Discard ${(slots.on ?? []).map((ref) => w.ref(ref)).join(' and ')} to the ${slots.stream} waste${w.tail(slots)}`,
  lower: ({ slots }) =>
    (slots.on ?? []).flatMap((ref) => [
      ...parting(ref),
      {
        kind: 'move',
        from: 'vessel',
        vessel: ref.vessel,
        take: selector(ref.portion),
        to: { kind: 'waste', stream: slots.stream! },
      } as const,
    ]),
};
