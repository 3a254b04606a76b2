import { StateField } from '@codemirror/state';
import type { EditorState } from '@codemirror/state';
import type { Enacted } from '../enacted.ts';
import { enacted } from '../enacted.ts';
import { lineStarts } from '../place.ts';

interface Worked {
  readonly enacted: Enacted;
  readonly starts: readonly number[];
}

const worked = (text: string): Worked => ({ enacted: enacted(text), starts: lineStarts(text) });

/**
 * What follows from the text is part of the editor's state: the same transaction that changes the
 * text enacts it, so that marks, flow sheet and findings are never a keystroke behind.
 */
export const enactedField = StateField.define<Worked>({
  create: (state) => worked(state.doc.toString()),
  update: (value, transaction) =>
    transaction.docChanged ? worked(transaction.newDoc.toString()) : value,
});

export const enactedIn = (state: EditorState): Enacted => state.field(enactedField).enacted;
export const startsIn = (state: EditorState): readonly number[] => state.field(enactedField).starts;
