import type { ExperimentSummary } from '../../wire/experiment.ts';
import { useSettings } from '../api/queries.ts';
import { Page } from '../ui/page.tsx';
import { unbroken, withDecimal } from '../words/decimal.ts';
import './answer/answer.css';
import './experiment.css';

/**
 * What the server knows of an experiment before its text is worked out here: the title, and what it
 * makes. It stands where the desk will have the same words, without what they can be asked.
 */
export function ExperimentOpening({
  experiment: { title, course },
  matter,
}: {
  readonly experiment: ExperimentSummary;
  /** What it makes, a sentence each; empty where that is not known yet. */
  readonly matter: readonly string[];
}) {
  const decimal = useSettings().data?.decimalSign ?? '.';
  const said = (sentence: string) => unbroken(withDecimal(sentence, decimal));
  const [first, ...rest] = matter;
  return (
    <Page title={title === '' ? 'Experiment' : title}>
      <div className="experiment">
        <div className="experiment-head">
          <header className="experiment-answer">
            {course !== null && <p className="experiment-course">{course}</p>}
            <h1>{title}</h1>
            {first !== undefined && <p className="experiment-first">{said(first)}</p>}
            {rest.length > 0 && <p className="experiment-more">{rest.map(said).join(' ')}</p>}
          </header>
        </div>
        <p role="status" className="quiet">
          Opening …
        </p>
      </div>
    </Page>
  );
}
