import type { Verb } from './verb.ts';
import { CONDITIONS, OVER, conditions, fromStock, gather, pour, react, waiting } from './common.ts';

/** Cleaning a metal's surface with acid; the metal and the acid that this consumes are counted. */
export const activate: Verb = {
  kind: 'activate',
  about:
    'Activate a metal with an acid (or iodine); what the acid dissolves is counted, the hydrogen too.',
  forms: [
    'Activate {contents} with {material} {amount} for {time}',
    'Activate {material} {amount} with {material} {amount} in {vessel}',
  ],
  examples: ['Activate the magnesium with 0.5 M hydrochloric acid 5 mL for 2 min'],
  heads: ['activate', 'etch', 'clean', 'pickle'],
  object: [
    { kind: 'ref', slot: 'on' },
    { kind: 'materials', slot: 'materials' },
  ],
  clauses: [
    {
      words: [
        'with',
        'using',
        'by adding',
        'by swirling with',
        'by stirring with',
        'by washing with',
        'by stirring in',
        'by swirling in',
        'in',
      ],
      kind: 'materials',
      slot: 'with',
    },
    { words: ['in', 'inside'], kind: 'vessel', slot: 'into' },
    ...CONDITIONS,
    OVER,
  ],
  fits: (raw) => raw.arguments.with !== undefined,
  resolve(raw, context) {
    const { uses, aside } = gather(context, raw);
    const target = raw.arguments.on === undefined ? undefined : context.refOf(raw.arguments.on);
    const into =
      context.vesselOf(raw.arguments.into) ??
      target?.vessel ??
      context.focus ??
      context.vessel('the flask', 0);
    context.setFocus(into);
    context.placed(uses, into);
    return {
      materials: uses,
      on: aside.length > 0 ? aside : [{ vessel: into, portion: { kind: 'all' } }],
      into,
      ...conditions(raw),
    };
  },
  print: (slots, w) =>
    `Activate ${w.vessel(slots.into!)} with ${w.materials(
      slots.materials ?? [],
      (slots.on ?? []).filter((ref) => ref.vessel !== slots.into),
    )}${w.tail(slots)}`,
  lower: ({ slots }) => [
    ...(slots.on ?? [])
      .filter((ref) => ref.vessel !== slots.into)
      .flatMap((ref) => pour(ref, slots.into!)),
    ...fromStock(slots.materials, slots.into!),
    react(slots.into!, 'activation'),
    waiting(slots.into!, slots, 'none', false),
  ],
};
