import type { ContextTools } from './context.ts';
import { ProcedureContext } from './context.ts';
import type { Section } from './outline.ts';
import { itemsOf } from './procedure/items.ts';
import type { Item } from './procedure/items.ts';
import { notCounted, readingSaid, unreadSaid } from './procedure/remarks.ts';
import type { SentenceReader } from './procedure/sentence-reader.ts';
import { readItem } from './procedure/sentences.ts';
import type { ItemSentence } from './procedure/sentences.ts';
import { spanOf } from './sentence/clean.ts';
import type { SentenceReading } from './sentence/read-sentence.ts';
import { uncountedAmounts } from './sentence/uncounted.ts';
import type { Note, Step } from './step.ts';
import type { LineMap } from './text.ts';
import { VERBS, VERB_OF } from './verbs/index.ts';

export interface ProcedureReading {
  readonly steps: readonly Step[];
  readonly notes: readonly Note[];
}

const STEP_LIMIT = 5000;

/** What a procedure is read with, and into. */
interface Reading {
  readonly section: Section;
  readonly lines: LineMap;
  readonly tools: ContextTools;
  readonly context: ProcedureContext;
  readonly steps: Step[];
  readonly notes: Note[];
}

/** Reads the procedure's sentences in turn; a sentence that no verb explains is kept as a note. */
export function readProcedure(
  section: Section,
  lines: LineMap,
  read: SentenceReader,
  tools: ContextTools,
): ProcedureReading {
  const notes: Note[] = [];
  const steps: Step[] = [];
  const reading: Reading = {
    section,
    lines,
    tools,
    context: new ProcedureContext(tools),
    steps,
    notes,
  };
  itemsOf(section, lines, notes)
    .slice(0, STEP_LIMIT)
    .forEach((item, index) => {
      const id = idsOf(index + 1);
      for (const sentence of readItem(item.clean, read)) takeSentence(reading, item, sentence, id);
    });
  return {
    steps: steps.map((step, i) =>
      step.verb === 'filter' && step.slots.keep === 'both'
        ? decided(step, steps.slice(i + 1))
        : step,
    ),
    notes,
  };
}

/** The ids of an item's sentences: 7, 7b, 7c ... */
function idsOf(item: number): () => string {
  let letter = 0;
  return () => {
    const n = letter++;
    return `${item}${n === 0 ? '' : n < 26 ? String.fromCharCode(97 + n) : `x${n}`}`;
  };
}

function takeSentence(
  to: Reading,
  item: Item,
  { piece, reading }: ItemSentence,
  nextId: () => string,
): void {
  const { context, tools, steps, notes, lines } = to;
  const span = spanOf(item.clean, lines, piece.start, piece.start + piece.text.length);
  const knows = (name: string) =>
    tools.lookUp({ name, start: 0, end: 0, amounts: [], repeat: 1, definite: false }).ok;
  if (!reading) {
    const after = steps.length > 0 ? { after: steps.at(-1)!.id } : {};
    notes.push({ text: piece.text, span, section: to.section.title, ...after });
    tools.diagnostics.push(...unreadSaid(piece.text, span, knows));
    return;
  }
  const locate = (start: number, end: number) =>
    spanOf(item.clean, lines, piece.start + start, piece.start + end);
  const part = item.part === undefined ? {} : { part: item.part };
  const push = (id: string, verb: Step['verb'], slots: Step['slots']) =>
    steps.push({ id, verb, slots, text: piece.text, span, ...part });
  const { sentence } = reading;
  let id = nextId();
  context.begin(id, span, locate);
  tools.diagnostics.push(...readingSaid(reading, id, locate));
  for (const lost of uncountedAmounts(piece.text, sentence, knows))
    tools.diagnostics.push(notCounted(lost, locate(lost.start, lost.end), id));
  // "The combined extracts were washed": they are combined first
  if (sentence.verb !== 'combine' && isCombined(sentence) && context.organicLayers().length > 1) {
    push(id, 'combine', VERB_OF.combine.resolve(combining(sentence), context));
    id = nextId();
    context.begin(id, span, locate);
  }
  const known = verbOf(sentence.verb, sentence.head);
  const kind = known.meant?.(sentence, context) ?? sentence.verb;
  const verb = kind === sentence.verb ? known : VERB_OF[kind];
  push(id, kind, verb.resolve(sentence, context));
}

function combining(sentence: SentenceReading['sentence']): SentenceReading['sentence'] {
  return {
    verb: 'combine',
    head: 'combine',
    arguments: { on: sentence.arguments.on! },
    manner: [],
    unexplained: [],
  };
}

/** Where a filtration does not say what is kept, the sentences after it do: what they go on with. */
function decided(step: Step, later: readonly Step[]): Step {
  const uses = (vessel: string | undefined) =>
    later.some(
      (next) =>
        next.verb !== 'discard' && (next.slots.on ?? []).some((ref) => ref.vessel === vessel),
    );
  const solid = uses(step.slots.otherInto);
  const liquid = uses(step.slots.into);
  if (solid === liquid) return step;
  return { ...step, slots: { ...step.slots, keep: solid ? 'solid' : 'liquid' } };
}

/** Several verbs may share a kind (add, treat, dissolve); the one that knows the head resolves. */
function verbOf(kind: Step['verb'], head: string) {
  return BY_HEAD.get(`${kind} ${head}`) ?? VERB_OF[kind];
}

/** Of two verbs with one kind and head the first, as they are listed. */
const BY_HEAD = new Map(
  VERBS.toReversed().flatMap((verb) =>
    verb.heads.map((head) => [`${verb.kind} ${head}`, verb] as const),
  ),
);

function isCombined({ arguments: { on } }: SentenceReading['sentence']): boolean {
  return (
    on?.kind === 'ref' &&
    on.ref.plural &&
    (on.ref.role === 'organic' || on.ref.role === 'extracts') &&
    on.ref.vesselPhrase === undefined &&
    /\bcombined\b/i.test(on.ref.text)
  );
}
