import type { StateCommand } from '@codemirror/state';
import type { Diagnostic } from '../../../core/diagnostic.ts';
import { findingsAt, rangeOf } from '../place.ts';
import type { EditorState } from '@codemirror/state';
import { enactedIn, startsIn } from './field.ts';

/** What is to be said of the line that the cursor stands in, the nearest first. */
export function findingsHere(state: EditorState): Diagnostic[] {
  const { findings } = enactedIn(state);
  return findingsAt(findings, startsIn(state), state.doc.length, state.selection.main.head);
}

/** Puts a finding's fix in the place of the words that it means; an edit like any other. */
export function fixOf(state: EditorState, finding: Diagnostic) {
  const range = rangeOf(finding.at, startsIn(state), state.doc.length);
  if (finding.fix === undefined || range === undefined) return undefined;
  return {
    changes: { ...range, insert: finding.fix },
    selection: { anchor: range.from + finding.fix.length },
    userEvent: 'input.fix',
    scrollIntoView: true,
  };
}

/** The one key: mends the first thing of this line that can be mended. */
export const mendHere: StateCommand = ({ state, dispatch }) => {
  const finding = findingsHere(state).find(({ fix }) => fix !== undefined);
  const mending = finding === undefined ? undefined : fixOf(state, finding);
  if (mending === undefined) return false;
  dispatch(state.update(mending));
  return true;
};
