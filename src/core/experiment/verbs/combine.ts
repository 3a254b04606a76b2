import type { Ref } from '../step.ts';
import type { Verb } from './verb.ts';
import { whole } from './verb.ts';
import { conditions, pour } from './common.ts';

export const combine: Verb = {
  kind: 'combine',
  about: 'Bring several things together in one vessel.',
  forms: [
    'Combine {contents} and {contents} in {vessel}',
    'Combine the organic layers in {vessel}',
  ],
  examples: ['Combine the organic layers in the conical flask'],
  heads: ['combine', 'pool', 'unite', 'bring together'],
  object: [
    { kind: 'ref', slot: 'on' },
    { kind: 'refs', slot: 'on' },
  ],
  clauses: [
    { words: ['in', 'into'], kind: 'vessel', slot: 'into' },
    { words: ['with', 'and'], kind: 'ref', slot: 'range' },
  ],
  resolve(raw, context) {
    const { on, into: intoArgument, range } = raw.arguments;
    const refs: Ref[] = [];
    const add = (ref: Ref | undefined) => {
      if (ref && !refs.some((other) => other.vessel === ref.vessel)) refs.push(ref);
    };
    if (on?.kind === 'refs') on.refs.forEach((ref) => add(context.ref(ref, on.start)));
    if (on?.kind === 'ref') {
      add(context.ref(on.ref, on.start));
      // "the organic layers": all that go by that name
      const layers =
        on.ref.plural && (on.ref.role === 'organic' || on.ref.role === 'extracts')
          ? context.organicLayers()
          : [];
      layers.forEach((vessel) => add(whole(vessel)));
    }
    if (on === undefined || (on.kind === 'ref' && on.ref.role === 'it')) {
      add(context.focus === undefined ? undefined : whole(context.focus));
      context.organicLayers().forEach((vessel) => add(whole(vessel)));
    }
    if (range) add(context.refOf(range));
    const into =
      context.vesselOf(intoArgument) ?? refs[0]?.vessel ?? context.vessel('the flask', 0);
    refs.forEach((ref) => context.moved(ref.vessel, into));
    context.setFocus(into);
    if (on?.kind === 'ref' && on.ref.role === 'aqueous') context.setRole('aqueous', whole(into));
    else {
      context.setRole('organic', whole(into));
      context.setRole('extracts', whole(into));
    }
    return { on: refs, into, ...conditions(raw) };
  },
  print: (slots, w) =>
    `Combine ${(slots.on ?? []).map((ref) => w.ref(ref)).join(' and ')} in ${w.vessel(slots.into!)}${w.tail(slots)}`,
  lower: ({ slots }) =>
    (slots.on ?? [])
      .filter((ref) => ref.vessel !== slots.into)
      .flatMap((ref) => pour(ref, slots.into!)),
};
