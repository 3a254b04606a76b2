import {
  acceptCompletion,
  completionStatus,
  selectedCompletionIndex,
  setSelectedCompletion,
} from '@codemirror/autocomplete';
import type { CompletionContext, CompletionResult } from '@codemirror/autocomplete';
import type { Command } from '@codemirror/view';
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

const wordKey = (text: string) => text.trim().toLowerCase();

/** Takes the first offer for the word that is being typed; where none is, the key goes its own way. */
export const takeFirst: Command = (view) => {
  if (completionStatus(view.state) !== 'active') return false;
  const { from } = completeAt(view.state.doc.toString(), view.state.selection.main.head);
  if (from >= view.state.selection.main.head) return false;
  if (selectedCompletionIndex(view.state) === null)
    view.dispatch({ effects: setSelectedCompletion(0) });
  return acceptCompletion(view);
};

/** What may come next, from the core; it has sorted and chosen already. */
export function completions({ state, pos, explicit }: CompletionContext): CompletionResult | null {
  const line = state.doc.lineAt(pos);
  // At the beginning of a bare line nothing is offered unless it is asked for.
  if (!explicit && line.text.slice(0, pos - line.from).trim() === '') return null;
  const { from, to, options } = completeAt(state.doc.toString(), pos);
  const typed = wordKey(state.sliceDoc(from, to));
  const whole = typed !== '' && options.some(({ text }) => wordKey(text) === typed);
  // A word that is there in full needs nothing; what goes on from it can be asked for.
  if (whole && !explicit) return null;
  const fresh = options.filter(({ text }) => wordKey(text) !== typed);
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
