import { kindOf } from '../../experiment/outline.ts';
import type { Experiment, Note, Step } from '../../experiment/step.ts';
import { itemOf } from '../../record/place.ts';

const QUOTED = /^(?:(?:\d+[.)]|[-*+])\s+)?>\s*/;

/**
 * Remarks by step. A quoted one stands behind the item that it is about, and so with each of that
 * item's sentences; a remark within an item stands with the sentence before it, or with the one
 * after it where it opens the item. Lines of one quotation are one remark.
 */
export function cautionsByStep({
  steps,
  notes,
}: Experiment): ReadonlyMap<string, readonly string[]> {
  const cautions = new Map<string, string[]>();
  const own = notes.filter(
    ({ section, text, after }) =>
      kindOf(section) === 'procedure' && (after !== undefined || isTold(text)),
  );
  for (const remark of joined(own))
    for (const step of meant(remark, steps))
      cautions.set(step, [...(cautions.get(step) ?? []), remark.text]);
  return cautions;
}

/** Tables, pictures and comments of a procedure are no remarks. */
function isTold(text: string): boolean {
  return QUOTED.test(text) || /^\p{L}/u.test(text);
}

interface Remark {
  readonly text: string;
  readonly start: number;
  readonly line: number;
  readonly lastLine: number;
  readonly quoted: boolean;
}

function joined(notes: readonly Note[]): Remark[] {
  const remarks: Remark[] = [];
  for (const { text, span } of notes) {
    const { start, line } = span;
    const quoted = QUOTED.test(text);
    const plain = text.replace(QUOTED, '').trim();
    const last = remarks.at(-1);
    if (quoted && last?.quoted === true && last.lastLine === line - 1)
      remarks[remarks.length - 1] = {
        ...last,
        text: `${last.text} ${plain}`.trim(),
        lastLine: line,
      };
    else if (plain !== '') remarks.push({ text: plain, start, line, lastLine: line, quoted });
  }
  return remarks;
}

function meant({ start, line, quoted }: Remark, steps: readonly Step[]): string[] {
  const next = steps.findIndex((step) => step.span.start > start);
  const before = steps[next < 0 ? steps.length - 1 : next - 1];
  const after = next < 0 ? undefined : steps[next];
  if (before === undefined) return after === undefined ? [] : [after.id];
  if (quoted) {
    const item = itemOf(before.id);
    return steps.filter((step) => itemOf(step.id) === item).map((step) => step.id);
  }
  const opens = after?.span.line === line && before.span.line !== line;
  return [opens ? after.id : before.id];
}
