import type { Experiment, Step } from '../../../core/experiment/step.ts';
import type { AnyAmount } from '../../../core/quantity/amount.ts';

export type MarkKind =
  'title' | 'heading' | 'part' | 'number' | 'bullet' | 'remark' | 'verb' | 'amount';

export interface Mark {
  readonly from: number;
  readonly to: number;
  readonly kind: MarkKind;
}

/** What stands at the beginning of a line. */
const LINES: readonly (readonly [RegExp, MarkKind, 'line' | 'lead'])[] = [
  [/^#\s/, 'title', 'line'],
  [/^##\s/, 'heading', 'line'],
  [/^#{3,6}\s/, 'part', 'line'],
  [/^\s*\d+[.)](?=\s)/, 'number', 'lead'],
  [/^\s*[-*+](?=\s)/, 'bullet', 'lead'],
  [/^\s*>/, 'remark', 'line'],
];

/** The marks of one line: its heading, its number. */
export function lineMarks(line: string, start: number): Mark[] {
  for (const [pattern, kind, reach] of LINES) {
    const found = pattern.exec(line);
    if (found === null) continue;
    const length = reach === 'line' ? line.length : found[0].length;
    return [{ from: start, to: start + length, kind }];
  }
  return [];
}

/** The marks of a step, from what was read in it: its verb, and every amount where it is written. */
export function stepMarks(step: Step, text: string): Mark[] {
  const { start, end } = step.span;
  const verb = /^[\p{L}-]+/u.exec(text.slice(start, end));
  const marks: Mark[] = [];
  if (verb !== null) marks.push({ from: start, to: start + verb[0].length, kind: 'verb' });
  const taken: Mark[] = [];
  const seek = (amount: AnyAmount | undefined, from: number, to: number) => {
    const written = amount?.text ?? '';
    if (written === '' || !/\d/.test(written)) return;
    for (let at = text.indexOf(written, from); at >= 0; at = text.indexOf(written, at + 1)) {
      const stop = at + written.length;
      if (stop > to) return;
      if (taken.some((mark) => at < mark.to && stop > mark.from)) continue;
      taken.push({ from: at, to: stop, kind: 'amount' });
      return;
    }
  };
  const { materials = [], time, over, temperature, leaves } = step.slots;
  for (const { amounts, span } of materials)
    for (const amount of amounts) seek(amount, span.start, end);
  for (const amount of [time, over, temperature, leaves]) seek(amount, start, end);
  return [...marks, ...taken].sort((a, b) => a.from - b.from);
}

/** All marks of a stretch of the text, in its order, none within another. */
export function marksIn(
  { text, steps }: { readonly text: string; readonly steps: Experiment['steps'] },
  from: number,
  to: number,
): Mark[] {
  const marks: Mark[] = [];
  let start = text.lastIndexOf('\n', from - 1) + 1;
  while (start <= to) {
    const stop = text.indexOf('\n', start);
    const end = stop < 0 ? text.length : stop;
    marks.push(...lineMarks(text.slice(start, end), start));
    if (stop < 0) break;
    start = stop + 1;
  }
  for (const step of steps)
    if (step.span.end >= from && step.span.start <= to) marks.push(...stepMarks(step, text));
  marks.sort((a, b) => a.from - b.from || a.to - b.to);
  return marks.filter((mark, i) => i === 0 || mark.from >= marks[i - 1]!.to);
}
