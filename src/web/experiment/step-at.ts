import type { Step } from '../../core/experiment/step.ts';

/**
 * The step that a place in the text belongs to: the sentence around it, or else the one before it in
 * the same line, or the first of the line (the cursor stands at the step's number).
 */
export function stepAt(
  { text, steps }: { readonly text: string; readonly steps: readonly Step[] },
  offset: number,
): Step | undefined {
  const lineStart = text.lastIndexOf('\n', offset - 1) + 1;
  const stop = text.indexOf('\n', offset);
  const lineEnd = stop < 0 ? text.length : stop;
  let found: Step | undefined;
  for (const step of steps) {
    const { start, end } = step.span;
    if (end < lineStart) continue;
    if (start > lineEnd) break;
    if (found === undefined || start <= offset) found = step;
  }
  return found;
}
