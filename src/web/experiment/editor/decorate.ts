import { Decoration, EditorView, ViewPlugin } from '@codemirror/view';
import type { DecorationSet, ViewUpdate } from '@codemirror/view';
import { RangeSetBuilder } from '@codemirror/state';
import type { Severity } from '../../../core/diagnostic.ts';
import { rangeOf } from '../place.ts';
import { stepAt } from '../step-at.ts';
import { enactedField, enactedIn, startsIn } from './field.ts';
import { marksIn } from './marks.ts';
import type { MarkKind } from './marks.ts';

const MARKS = Object.fromEntries(
  (['title', 'heading', 'part', 'number', 'bullet', 'remark', 'verb', 'amount'] as const).map(
    (kind) => [kind, Decoration.mark({ class: `text-${kind}` })],
  ),
) as Readonly<Record<MarkKind, Decoration>>;

/** Only what is in sight is marked, so that a long document costs no more than a short one. */
function marksInSight(view: EditorView): DecorationSet {
  const { text, experiment } = enactedIn(view.state);
  const builder = new RangeSetBuilder<Decoration>();
  for (const { from, to } of view.visibleRanges)
    for (const mark of marksIn({ text, steps: experiment.steps }, from, to))
      builder.add(mark.from, mark.to, MARKS[mark.kind]);
  return builder.finish();
}

export const textMarks = ViewPlugin.fromClass(
  class {
    decorations: DecorationSet;
    constructor(view: EditorView) {
      this.decorations = marksInSight(view);
    }
    update({ docChanged, viewportChanged, view }: ViewUpdate) {
      if (docChanged || viewportChanged) this.decorations = marksInSight(view);
    }
  },
  { decorations: (plugin) => plugin.decorations },
);

const WRONG: Readonly<Record<Severity, Decoration>> = {
  error: Decoration.mark({ class: 'wrong wrong-error' }),
  warning: Decoration.mark({ class: 'wrong wrong-warning' }),
  note: Decoration.mark({ class: 'wrong wrong-note' }),
};

/** A wavy line under what a finding means, where it means a stretch of the text. */
export const wrongMarks = EditorView.decorations.compute([enactedField], (state) => {
  const { findings } = enactedIn(state);
  const ranges = findings.flatMap(({ at, severity }) => {
    const range = rangeOf(at, startsIn(state), state.doc.length);
    if (range === undefined || range.from >= range.to) return [];
    return [WRONG[severity].range(range.from, range.to)];
  });
  return Decoration.set(ranges, true);
});

const CURRENT = Decoration.line({ class: 'current-step' });

/** The lines of the step that the cursor is in: the same step that is framed on the flow sheet. */
export const currentStep = EditorView.decorations.compute([enactedField, 'selection'], (state) => {
  const { text, experiment } = enactedIn(state);
  const step = stepAt({ text, steps: experiment.steps }, state.selection.main.head);
  if (step === undefined) return Decoration.none;
  const first = state.doc.lineAt(Math.min(step.span.start, state.doc.length));
  const last = state.doc.lineAt(Math.min(step.span.end, state.doc.length));
  const ranges = [];
  for (let n = first.number; n <= last.number; n++)
    ranges.push(CURRENT.range(state.doc.line(n).from));
  return Decoration.set(ranges);
});
