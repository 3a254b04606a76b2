import { autocompletion, completionKeymap, startCompletion } from '@codemirror/autocomplete';
import { defaultKeymap, history, historyKeymap } from '@codemirror/commands';
import { EditorState } from '@codemirror/state';
import type { Extension, StateCommand } from '@codemirror/state';
import { EditorView, keymap } from '@codemirror/view';
import { keyPressed } from '../keystroke.ts';
import { completions, takeFirst } from './complete.ts';
import { continueList, doubledNumber } from './continue-list.ts';
import { currentStep, textMarks, wrongMarks } from './decorate.ts';
import { enactedField } from './field.ts';
import { mendHere } from './fixes.ts';
import { findingsGutter } from './gutter.ts';
import { editorTheme } from './theme.ts';

const nextItem: StateCommand = ({ state, dispatch }) => {
  const { main } = state.selection;
  const changes = main.empty ? continueList(state.doc.toString(), main.head) : undefined;
  if (changes === undefined) return false;
  const [first] = changes;
  const anchor = first!.insert === '' ? first!.from : main.head + first!.insert.length;
  dispatch(
    state.update({ changes, selection: { anchor }, userEvent: 'input', scrollIntoView: true }),
  );
  return true;
};

/** Enter has numbered the item already; whoever types the number again means the same. */
const swallowDoubledNumber = EditorView.inputHandler.of((view, from, to, text) => {
  if (text !== ' ' || from !== to) return false;
  const line = view.state.doc.lineAt(from);
  const doubled = doubledNumber(line.text.slice(0, from - line.from));
  if (doubled === 0) return false;
  view.dispatch({ changes: { from: from - doubled, to: from }, userEvent: 'input' });
  return true;
});

/**
 * What the editor can do. Tab takes an offered word while one is being typed; else it leaves the
 * editor, as everywhere else on the page. `told` are the words of its name and description for a screen reader.
 */
export function editorExtensions(told: {
  readonly name: string;
  readonly about: string;
}): Extension {
  return [
    enactedField,
    swallowDoubledNumber,
    // The cursor and the selection are the browser's own: drawn ones cost a third of each key's time.
    history(),
    EditorView.lineWrapping,
    EditorState.tabSize.of(2),
    autocompletion({
      override: [completions],
      icons: false,
      // Enter is a new line unless someone has gone to an offer: what was typed is never replaced.
      selectOnOpen: false,
      // The next word is asked for as soon as one is taken.
      activateOnCompletion: () => true,
      activateOnTypingDelay: 60,
    }),
    keymap.of([
      { key: 'Alt-Enter', mac: 'Alt-Enter', run: mendHere },
      { key: 'Mod-.', run: mendHere },
      { key: 'Mod-Space', run: startCompletion },
      ...completionKeymap,
      { key: 'Tab', run: takeFirst },
      { key: 'Enter', run: nextItem },
      ...historyKeymap,
      ...defaultKeymap.filter(({ key }) => key !== 'Alt-Enter'),
    ]),
    findingsGutter,
    textMarks,
    wrongMarks,
    currentStep,
    editorTheme,
    // The line at hand is never hidden behind what is said of it.
    EditorView.scrollMargins.of(() => ({ top: 60, bottom: 150 })),
    EditorView.domEventObservers({ keydown: keyPressed }),
    EditorView.contentAttributes.of({
      'aria-label': told.name,
      'aria-description': told.about,
      tabindex: '0',
      spellcheck: 'false',
      autocapitalize: 'off',
    }),
  ];
}
