import type { Diagnostic } from '../diagnostic.ts';
import { sentenceStart } from '../quantity/sentence.ts';
import type { ContextTools } from './context.ts';
import { ProcedureContext } from './context.ts';
import type { Section } from './outline.ts';
import { nearestForm } from './nearest.ts';
import type { Vocabulary } from './sentence/argument.ts';
import { cleanText, spanOf } from './sentence/clean.ts';
import type { CleanText } from './sentence/clean.ts';
import { isObservation } from './sentence/observation.ts';
import { grammarOf } from './sentence/order.ts';
import type { Grammar } from './sentence/order.ts';
import { readCompound } from './sentence/compound.ts';
import { readSentence } from './sentence/read-sentence.ts';
import type { SentenceReading } from './sentence/read-sentence.ts';
import { splitSentences } from './sentence/split.ts';
import type { Uncounted } from './sentence/uncounted.ts';
import { uncountedAmounts } from './sentence/uncounted.ts';
import type { Note, Span, Step } from './step.ts';
import type { LineMap, Piece } from './text.ts';
import { slicePiece } from './text.ts';
import { VERBS, VERB_OF } from './verbs/index.ts';

let grammar: Grammar | undefined;
const ready = (): Grammar => (grammar ??= grammarOf(VERBS));

/** Reads a sentence of a document's vocabulary, remembering what it read before. */
export type SentenceReader = (text: string) => SentenceReading | undefined;

const REMEMBERED = 4000;

export function sentenceReader(vocabulary: Vocabulary): SentenceReader {
  const memory = new Map<string, SentenceReading | undefined>();
  return (text) => {
    if (memory.has(text)) return memory.get(text);
    const reading =
      direct(text) ??
      readSentence(text, { text, start: 0 }, ready(), {
        ...vocabulary,
        begins: (word) => ready().heads.has(word),
      });
    if (memory.size >= REMEMBERED) memory.clear();
    memory.set(text, reading);
    return reading;
  };
}

function direct(text: string): SentenceReading | undefined {
  for (const verb of VERBS) {
    const sentence = verb.direct?.(text);
    if (sentence) return { sentence, trouble: [], cost: 0 };
  }
  return undefined;
}

interface Item {
  readonly clean: CleanText;
  readonly part?: string;
}

/** The list items and paragraphs of the procedure, each with the sub-heading that it stands under. */
function itemsOf(section: Section, lines: LineMap, notes: Note[]): Item[] {
  const items: Item[] = [];
  let part: string | undefined;
  let open: { start: number; end: number } | undefined;
  const close = () => {
    if (open)
      items.push({
        clean: cleanText(lines.text, open.start, open.end),
        ...(part !== undefined && { part }),
      });
    open = undefined;
  };
  // A marker that is only just being typed is no part of the item before it
  const last = section.lines.at(-1);
  for (const line of section.lines) {
    const end = line.start + line.text.length;
    const marker = /^\s*(?:\d+[.)]|[-*+])\s+/.exec(line.text);
    const heading = /^#{3,6}\s+(.*?)\s*#*$/.exec(line.text);
    if (heading) {
      close();
      part = heading[1]!;
    } else if (
      /^\s*(?:>|\||!\[|<!--)/.test(line.text) ||
      /^\s*(?:\d+[.)]|[-*+])\s+>/.test(line.text)
    ) {
      close();
      notes.push({
        text: line.text.trim(),
        span: lines.span(line.start, end),
        section: section.title,
      });
    } else if (
      line.text.trim() === '' ||
      /^\s*(?:\d+[.)]|[-*+])\s*$/.test(line.text) ||
      (line === last && /^\s*\d+$/.test(line.text))
    )
      close();
    else if (marker) {
      close();
      open = { start: line.start + marker[0].length, end };
    } else if (open) open = { ...open, end };
    else open = { start: line.start + (line.text.length - line.text.trimStart().length), end };
  }
  close();
  return items;
}

/** What is done only if something is seen cannot be counted: it is kept as a remark, and said. */
const CONDITIONAL = /^(?:if|should) \b(?!necessary|needed)/i;
/** A sentence does not go on for ever. */
const JOINED_LIMIT = 1000;
const KEEPING = /^(?:and )?(?:keep|save|retain|collect|combine|discard and keep)\b/i;
/** Remarks to the reader that no verb is looked for in. */
const REMARK =
  /^(?:caution|note|warning|care|take care|wear|do not|don't|never|beware|avoid|remember|this |it |there |you |your |the (?:mixture|solution|colou?r|reaction|product|temperature|solid|crystals|gas|hydrogen|layers?) (?:should|will|may|must|turns?|becomes?|is now|can)|hydrogen |carbon dioxide |hold point|stop here|safety|tip|if |expect|a (?:white|yellow|colou?r|precipitate|gas)|calculate |work out |compare |discuss |explain |comment |ask |hand in |submit |make sure |ensure |test (?:for|a|the|with) |check (?:that|the|for|with) |note (?:that|how|the) |the yield )/i;
/** "A deep red dye separates at once": told, not asked for. */
const TOLD =
  /^(?:an?|the|some|all|no)\b(?!.*\b(?:is|are|was|were|be)\s+(?:\w+ly\s+)?\w+(?:ed|t|n)\b)/i;
const HOLDS_AMOUNT = /\d\s*(?:k?g|mg|[mµμ]?[lL]|m?mol)\b/;

export interface ProcedureReading {
  readonly steps: readonly Step[];
  readonly notes: readonly Note[];
}

const STEP_LIMIT = 5000;

/** Reads the procedure's sentences in turn; a sentence that no verb explains is kept as a note. */
export function readProcedure(
  section: Section,
  lines: LineMap,
  read: SentenceReader,
  tools: Omit<ContextTools, 'locate'>,
): ProcedureReading {
  const steps: Step[] = [];
  const notes: Note[] = [];
  const context = new ProcedureContext(tools);
  const items = itemsOf(section, lines, notes);
  items.slice(0, STEP_LIMIT).forEach((item, index) => {
    let letter = 0;
    for (const { piece, reading } of readItem(item.clean, read)) {
      const span = spanOf(item.clean, lines, piece.start, piece.start + piece.text.length);
      let id = `${index + 1}${letter === 0 ? '' : letterOf(letter)}`;
      if (!reading) {
        notes.push({
          text: piece.text,
          span,
          section: section.title,
          ...(steps.length > 0 && { after: steps.at(-1)!.id }),
        });
        if (CONDITIONAL.test(piece.text) && HOLDS_AMOUNT.test(piece.text))
          tools.diagnostics.push(conditional(span));
        else if (
          !REMARK.test(piece.text) &&
          !isObservation(piece.text) &&
          (!TOLD.test(piece.text) || HOLDS_AMOUNT.test(piece.text))
        )
          tools.diagnostics.push(notUnderstood(piece.text, span));
        continue;
      }
      letter++;
      const locate = (start: number, end: number) =>
        spanOf(item.clean, lines, piece.start + start, piece.start + end);
      context.begin(id, span, locate);
      report(reading, id, locate, tools.diagnostics);
      for (const lost of uncountedAmounts(
        piece.text,
        reading.sentence,
        (name) =>
          tools.lookUp({ name, start: 0, end: 0, amounts: [], repeat: 1, definite: false }).ok,
      ))
        tools.diagnostics.push(notCounted(lost, locate(lost.start, lost.end), id));
      const { sentence } = reading;
      const read = verbOf(sentence.verb, sentence.head);
      // "The combined extracts were washed": they are combined first
      if (
        sentence.verb !== 'combine' &&
        isCombined(sentence) &&
        context.organicLayers().length > 1
      ) {
        const combined = {
          verb: 'combine',
          head: 'combine',
          arguments: { on: sentence.arguments.on! },
          manner: [],
          unexplained: [],
        } as const;
        steps.push({
          id,
          verb: 'combine',
          slots: VERB_OF.combine.resolve(combined, context),
          text: piece.text,
          span,
          ...(item.part !== undefined && { part: item.part }),
        });
        id = `${index + 1}${letterOf(letter++)}`;
        context.begin(id, span, locate);
      }
      const kind = read.meant?.(sentence, context) ?? sentence.verb;
      const verb = kind === sentence.verb ? read : VERB_OF[kind];
      steps.push({
        id,
        verb: kind,
        slots: verb.resolve(sentence, context),
        text: piece.text,
        span,
        ...(item.part !== undefined && { part: item.part }),
      });
    }
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
  return VERBS.find((verb) => verb.kind === kind && verb.heads.includes(head)) ?? VERB_OF[kind];
}

function isCombined({ arguments: { on } }: SentenceReading['sentence']): boolean {
  return (
    on?.kind === 'ref' &&
    on.ref.plural &&
    (on.ref.role === 'organic' || on.ref.role === 'extracts') &&
    on.ref.vesselPhrase === undefined &&
    /\bcombined\b/i.test(on.ref.text)
  );
}

const letterOf = (n: number): string => (n < 26 ? String.fromCharCode(97 + n) : `x${n}`);

/** Sentences of an item; "keep the solid" goes with the sentence before it. */
function readItem(
  clean: CleanText,
  read: SentenceReader,
): { piece: Piece; reading: SentenceReading | undefined }[] {
  const found: { piece: Piece; reading: SentenceReading | undefined }[] = [];
  for (const piece of splitSentences({ text: clean.text, start: 0 })) {
    const before = found.at(-1);
    if (before?.reading && KEEPING.test(piece.text) && before.piece.text.length < JOINED_LIMIT) {
      const joined = join(clean, before.piece, piece);
      const reading = read(joined.text);
      if (reading && reading.cost <= before.reading.cost + 1.5) {
        found[found.length - 1] = { piece: joined, reading };
        continue;
      }
    }
    if (CONDITIONAL.test(piece.text)) {
      found.push({ piece, reading: undefined });
      continue;
    }
    for (const part of timedLead(piece))
      for (const { start, end, reading } of readCompound(part.text, ready(), read))
        found.push({
          piece: { text: part.text.slice(start, end), start: part.start + start },
          reading,
        });
  }
  return found;
}

/** "After 10 min, filter ..." waits first. */
function timedLead(piece: Piece): Piece[] {
  const lead =
    /^after (?:a further |another |about )?(?:(?:\d[\d.,–-]*|two|three|four|five|ten|fifteen|twenty|thirty|forty|forty-five)\s*(?:min|minutes|h|hours?|s|seconds)\b|an hour|half an hour),?\s+/i.exec(
      piece.text,
    );
  if (!lead) return [piece];
  const wait = `wait for ${lead[0].replace(/^after\s+/i, '').replace(/[,\s]+$/, '')}`;
  return [{ text: wait, start: piece.start }, slicePiece(piece, lead[0].length)];
}

function join(clean: CleanText, first: Piece, second: Piece): Piece {
  const between = clean.text
    .slice(first.start + first.text.length, second.start)
    .replace(/[.!?]/, ';');
  return { text: `${first.text}${between}${second.text}`, start: first.start };
}

function report(
  reading: SentenceReading,
  step: string,
  locate: (start: number, end: number) => Span,
  diagnostics: Diagnostic[],
): void {
  for (const trouble of reading.trouble) {
    const span = locate(trouble.start, trouble.end);
    diagnostics.push({
      code: 'amount-unreadable',
      severity: 'error',
      message: `${sentenceStart(trouble.message)}.`,
      hint: `${sentenceStart(trouble.hint)}.`,
      at: { line: span.line, column: span.column, length: trouble.end - trouble.start, step },
    });
  }
  const { unexplained } = reading.sentence;
  if (unexplained.length === 0) return;
  const first = unexplained[0]!;
  const last = unexplained.at(-1)!;
  const span = locate(first.start, last.end);
  diagnostics.push({
    code: 'words-not-understood',
    severity: 'warning',
    message: `Not understood here: “${unexplained.map((word) => word.text).join(' ')}”. The rest of the sentence is read without it.`,
    hint: `The sentence is taken as: ${VERB_OF[reading.sentence.verb].forms[0]}. Put a remark in brackets, or in a sentence of its own.`,
    at: { line: span.line, column: span.column, length: last.end - first.start, step },
  });
}

function notCounted(lost: Uncounted, span: Span, step: string): Diagnostic {
  return {
    code: 'amount-not-counted',
    severity: 'warning',
    message: `“${lost.text}” is not counted: the words around it are read as a remark.`,
    hint: 'Write it as a sentence of its own that begins with a verb, for example “Add water 5 mL to the flask.”',
    at: { line: span.line, column: span.column, length: lost.end - lost.start, step },
  };
}

function conditional(span: Span): Diagnostic {
  return {
    code: 'condition-not-counted',
    severity: 'note',
    message:
      'This sentence depends on what is seen; it is kept as a remark, and its amounts are not counted.',
    hint: 'Where it is always done, say so without the condition.',
    at: { line: span.line, column: span.column, length: span.end - span.start },
  };
}

function notUnderstood(text: string, span: Span): Diagnostic {
  const near = nearestForm(text);
  return {
    code: 'sentence-not-understood',
    severity: 'warning',
    message: `This sentence is kept as a note; no verb explains it.`,
    hint: `Nearest: “${near.form}”.`,
    at: { line: span.line, column: span.column, length: span.end - span.start },
    ...(near.fix !== undefined && { fix: near.fix }),
  };
}
