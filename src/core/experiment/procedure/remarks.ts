import type { Diagnostic } from '../../diagnostic.ts';
import { sentenceStart } from '../../quantity/sentence.ts';
import { nearestForm } from '../nearest.ts';
import { isObservation } from '../sentence/observation.ts';
import type { SentenceReading } from '../sentence/read-sentence.ts';
import type { Uncounted } from '../sentence/uncounted.ts';
import { amountsIn } from '../sentence/uncounted.ts';
import type { Span } from '../step.ts';
import { VERB_OF } from '../verbs/index.ts';

/** What is done only if something is seen cannot be counted: it is kept as a remark, and said. */
const CONDITIONAL = /^(?:if|should) \b(?!necessary|needed)/i;

export const isConditional = (text: string): boolean => CONDITIONAL.test(text);

/** Remarks to the reader that no verb is looked for in. */
const REMARK =
  /^(?:caution|note|warning|care|take care|wear|do not|don't|never|beware|avoid|remember|this |it |there |you |your |the (?:mixture|solution|colou?r|reaction|product|temperature|solid|crystals|gas|hydrogen|layers?) (?:should|will|may|must|turns?|becomes?|is now|can)|hydrogen |carbon dioxide |hold point|stop here|safety|tip|if |expect|a (?:white|yellow|colou?r|precipitate|gas)|calculate |work out |compare |discuss |explain |comment |ask |hand in |submit |make sure |ensure |test (?:for|a|the|with) |check (?:that|the|for|with) |note (?:that|how|the) |the yield )/i;
/** "A deep red dye separates at once": told, not asked for. */
const TOLD =
  /^(?:an?|the|some|all|no)\b(?!.*\b(?:is|are|was|were|be)\s+(?:\w+ly\s+)?\w+(?:ed|t|n)\b)/i;
const HOLDS_AMOUNT = /\d\s*(?:k?g|mg|[mµμ]?[lL]|m?mol)\b/;

/** What is said of a sentence that no verb explains; nothing of a plain remark. */
export function unreadSaid(
  text: string,
  span: Span,
  knows: (name: string) => boolean,
): Diagnostic[] {
  if (isConditional(text)) return HOLDS_AMOUNT.test(text) ? [conditional(span)] : [];
  if (REMARK.test(text) || isObservation(text)) return [];
  const lost = amountsIn(text, knows).map((amount) => `“${amount.text}”`);
  if (lost.length > 0) return [amountsLost(text, lost, span)];
  return TOLD.test(text) && !HOLDS_AMOUNT.test(text) ? [] : [notUnderstood(text, span)];
}

/** What is said of the words and figures of a sentence that is read. */
export function readingSaid(
  reading: SentenceReading,
  step: string,
  locate: (start: number, end: number) => Span,
): Diagnostic[] {
  const diagnostics: Diagnostic[] = [];
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
  if (unexplained.length === 0) return diagnostics;
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
  return diagnostics;
}

export function notCounted(lost: Uncounted, span: Span, step: string): Diagnostic {
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

/** Matter is missing from everything that is worked out: more than a remark that is passed over. */
function amountsLost(text: string, lost: readonly string[], span: Span): Diagnostic {
  const near = nearestForm(text);
  const many = lost.length > 1;
  const listed = many ? `${lost.slice(0, -1).join(', ')} and ${lost.at(-1)}` : lost[0];
  return {
    code: 'sentence-not-understood',
    severity: 'error',
    message: `No verb explains this sentence, so ${listed} ${many ? 'are' : 'is'} not counted.`,
    hint:
      near.fix === undefined
        ? `Say what is put in first, as in “${VERB_OF.charge.forms[0]}” or “${VERB_OF.add.forms[0]}”, and what is done with it in a sentence of its own.`
        : `Nearest: “${near.form}”.`,
    at: { line: span.line, column: span.column, length: span.end - span.start },
    ...(near.fix !== undefined && { fix: near.fix }),
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
