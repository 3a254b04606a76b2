import { EditorState } from '@codemirror/state';
import type { TransactionSpec } from '@codemirror/state';
import { EditorView } from '@codemirror/view';
import type { Enacted } from './enacted.ts';
import { editorExtensions } from './editor/extensions.ts';
import { enactedIn } from './editor/field.ts';
import { stepAt } from './step-at.ts';

/** What the page shows at one moment. */
export interface Scene {
  readonly enacted: Enacted;
  readonly cursor: number;
  /** The step that is looked at: the cursor's, or the last one that it was in. */
  readonly step: string | undefined;
}

/** The one text that everything on the page is a view of. */
export interface Desk {
  readonly now: () => Scene;
  readonly state: () => EditorState;
  /** Called within the keystroke, after the text changed or the cursor moved. */
  readonly subscribe: (heard: (scene: Scene, before: Scene) => void) => () => void;
  /** Every edit, from whatever part of the page, is a transaction that can be undone. */
  readonly edit: (change: TransactionSpec) => void;
  /**
   * Puts the cursor at a place. With `focus` the person goes there; without, the text only scrolls
   * within its own pane, and the page stays where it is.
   */
  readonly goTo: (offset: number, options?: { readonly focus?: boolean }) => void;
  readonly mount: (host: HTMLElement) => () => void;
}

const TOLD = {
  name: 'Text of the experiment',
  about:
    'Alt and Enter mends what is marked in the line. Control and Space offers words; arrows and Enter, or Tab, take one. Escape and Tab leave the text.',
};

function sceneOf(state: EditorState, before: Scene | undefined): Scene {
  const enacted = enactedIn(state);
  const cursor = state.selection.main.head;
  const { steps } = enacted.experiment;
  const here = stepAt({ text: enacted.text, steps }, cursor)?.id;
  const last = before?.step;
  const step = here ?? (steps.some(({ id }) => id === last) ? last : undefined);
  return { enacted, cursor, step };
}

export function makeDesk(text: string, cursor: number): Desk {
  const listeners = new Set<(scene: Scene, before: Scene) => void>();
  let view: EditorView | undefined;
  const listen = EditorView.updateListener.of((update) => {
    if (update.docChanged || update.selectionSet) moved(update.state);
  });
  let state = EditorState.create({
    doc: text,
    selection: { anchor: Math.min(cursor, text.length) },
    extensions: [editorExtensions(TOLD), listen],
  });
  let scene = sceneOf(state, undefined);

  function moved(next: EditorState): void {
    state = next;
    const before = scene;
    scene = sceneOf(next, before);
    for (const heard of listeners) heard(scene, before);
  }

  function edit(change: TransactionSpec): void {
    if (view !== undefined) view.dispatch(change);
    else moved(state.update(change).state);
  }

  return {
    now: () => scene,
    state: () => view?.state ?? state,
    subscribe(heard) {
      listeners.add(heard);
      return () => listeners.delete(heard);
    },
    edit,
    goTo(offset, { focus = false } = {}) {
      const anchor = Math.min(offset, scene.enacted.text.length);
      edit({
        selection: { anchor },
        ...(focus && { effects: EditorView.scrollIntoView(anchor, { y: 'center' }) }),
      });
      if (focus) view?.focus();
      else if (view !== undefined) centre(view, anchor);
    },
    mount(host) {
      // A tree of its own: the editor brings its styles as sheets, never as text in the page.
      const root = host.shadowRoot ?? host.attachShadow({ mode: 'open' });
      view = new EditorView({ state, parent: root, root });
      return () => {
        state = view?.state ?? state;
        view?.destroy();
        view = undefined;
      };
    },
  };
}

function centre(view: EditorView, at: number): void {
  const { top, bottom } = view.lineBlockAt(at);
  const { scrollTop, clientHeight } = view.scrollDOM;
  if (top < scrollTop || bottom > scrollTop + clientHeight)
    view.scrollDOM.scrollTop = (top + bottom) / 2 - clientHeight / 2;
}
