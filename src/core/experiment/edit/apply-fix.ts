import type { Diagnostic } from '../../diagnostic.ts';
import { refuse, replace } from './change.ts';
import type { Edit } from './change.ts';

/** Puts the replacement that a diagnostic offers where it points. */
export function applyFix(text: string, { at, fix }: Diagnostic): Edit {
  if (at?.length === undefined || fix === undefined)
    return refuse('No replacement is known here.', 'Change the sentence as the hint says.');
  let start = text.startsWith('\uFEFF') ? 1 : 0;
  for (let line = 1; line < at.line; line++) {
    const end = text.indexOf('\n', start);
    if (end < 0) return refuse('The text has changed since.', 'Look at the remark again.');
    start = end + 1;
  }
  const from = start + at.column - 1;
  const to = from + at.length;
  if (to > text.length) return refuse('The text has changed since.', 'Look at the remark again.');
  return replace(text, from, to, fix);
}
