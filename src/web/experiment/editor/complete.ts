import type { CompletionContext, CompletionResult } from '@codemirror/autocomplete';
import type { CompletionOption } from '../../../core/experiment/complete.ts';
import { completeAt } from '../../../core/experiment/complete.ts';

/** Each kind in the word that someone at the bench would use. */
const WORD: Readonly<Record<CompletionOption['kind'], string>> = {
  verb: '',
  material: 'substance',
  vessel: 'vessel',
  section: 'heading',
  clause: '',
  unit: 'unit',
};

/** What may come next, from the core; it has sorted and chosen already. */
export function completions({ state, pos, explicit }: CompletionContext): CompletionResult | null {
  const line = state.doc.lineAt(pos);
  // At the beginning of a bare line nothing is offered unless it is asked for.
  if (!explicit && line.text.slice(0, pos - line.from).trim() === '') return null;
  const { from, to, options } = completeAt(state.doc.toString(), pos);
  const typed = state.sliceDoc(from, to);
  const fresh = options.filter(({ text }) => text.trim() !== typed.trim());
  if (fresh.length === 0) return null;
  return {
    from,
    to,
    filter: false,
    options: fresh.map(({ text, label, kind }) => ({
      label,
      apply: text,
      ...(WORD[kind] !== '' && { detail: WORD[kind] }),
    })),
  };
}
