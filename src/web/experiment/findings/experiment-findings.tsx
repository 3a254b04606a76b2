import type { Diagnostic } from '../../../core/diagnostic.ts';
import { Button } from '../../ui/button.tsx';
import { Findings } from '../../ui/findings.tsx';
import type { Desk, Scene } from '../desk.ts';
import { startsIn } from '../editor/field.ts';
import { fixOf } from '../editor/fixes.ts';
import { rangeOf } from '../place.ts';
import { useWords } from '../../words/use-words.ts';
import { summaryOf } from './summary.ts';
import { unknownName } from './unknown-name.ts';
import './findings.css';

/** Every finding in the order of its weight, each with the way to its place and what mends it. */
export function ExperimentFindings({
  desk,
  scene,
  onUnknown,
}: {
  readonly desk: Desk;
  readonly scene: Scene;
  /** A name that the table does not know: the person may add it. */
  readonly onUnknown: (name: string) => void;
}) {
  const { said } = useWords();
  const { findings, experiment } = scene.enacted;
  const placeOf = ({ at }: Diagnostic) =>
    rangeOf(at, startsIn(desk.state()), desk.state().doc.length);
  const actions = (finding: Diagnostic) => {
    const range = placeOf(finding);
    const mending = fixOf(desk.state(), finding);
    const unknown = unknownName(experiment, finding);
    return (
      <>
        {range !== undefined && (
          <Button rank="plain" onClick={() => desk.goTo(range.from, { focus: true })}>
            Go to line {finding.at!.line}
          </Button>
        )}
        {mending !== undefined && (
          <Button onClick={() => desk.edit(mending)}>Write “{finding.fix}”</Button>
        )}
        {unknown !== undefined && (
          <Button onClick={() => onUnknown(unknown)}>Add this substance</Button>
        )}
      </>
    );
  };
  const told = findings.map((finding) => ({
    ...finding,
    message: said(finding.message),
    ...(finding.hint !== undefined && { hint: said(finding.hint) }),
  }));
  return (
    <section className="experiment-findings screen-only" id="findings" tabIndex={-1}>
      <h2>{summaryOf(findings)}</h2>
      <Findings findings={told} actions={actions} />
    </section>
  );
}
