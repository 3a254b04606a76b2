import { GutterMarker, gutter } from '@codemirror/view';
import type { EditorState } from '@codemirror/state';
import type { Severity } from '../../../core/diagnostic.ts';
import { enactedIn } from './field.ts';

/** A shape before a colour, the same as in the list of findings. */
class SeverityMarker extends GutterMarker {
  constructor(readonly severity: Severity) {
    super();
  }
  override eq(other: SeverityMarker): boolean {
    return other.severity === this.severity;
  }
  override toDOM(): Node {
    const shape = document.createElement('span');
    shape.className = `shape shape-${this.severity}`;
    return shape;
  }
}

const MARKERS: Readonly<Record<Severity, SeverityMarker>> = {
  error: new SeverityMarker('error'),
  warning: new SeverityMarker('warning'),
  note: new SeverityMarker('note'),
};

/** The gravest finding of a line: findings come with the gravest first. */
function severityOfLine(state: EditorState, line: number): Severity | undefined {
  return enactedIn(state).findings.find(({ at }) => at?.line === line)?.severity;
}

export const findingsGutter = gutter({
  class: 'findings-gutter',
  lineMarker(view, block) {
    const severity = severityOfLine(view.state, view.state.doc.lineAt(block.from).number);
    return severity === undefined ? null : MARKERS[severity];
  },
  lineMarkerChange: (update) => update.docChanged,
});
