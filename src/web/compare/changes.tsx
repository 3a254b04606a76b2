import type { AmountChange } from '../../core/report/difference/amounts.ts';
import { signed } from '../../core/report/difference/amounts.ts';
import type { Difference } from '../../core/report/difference/difference.ts';
import type { OtherChange } from '../../core/report/difference/other.ts';
import type { StepChange } from '../../core/report/difference/steps.ts';
import { useWords } from '../words/use-words.ts';
import { Runs } from './runs.tsx';

/** What was changed: amounts, sentences of the procedure, everything else. */
export function Changes({ difference }: { readonly difference: Difference }) {
  const { amounts, steps, other } = difference;
  return (
    <>
      {amounts.length > 0 && <Amounts amounts={amounts} />}
      {steps.length > 0 && (
        <section aria-labelledby="steps">
          <h2 id="steps">Steps</h2>
          <ul className="compare-changes">
            {steps.map((step) => (
              <li key={`${step.kind} ${step.place}`}>
                <span className="compare-where">{stepTitle(step)}</span>
                <Sentence {...step} />
              </li>
            ))}
          </ul>
        </section>
      )}
      {other.length > 0 && (
        <section aria-labelledby="other">
          <h2 id="other">Besides the steps</h2>
          <ul className="compare-changes">
            {other.map((change) => (
              <li key={change.sentence}>
                <span className="compare-where">{placeTitle(change)}</span>
                <Sentence {...change} />
              </li>
            ))}
          </ul>
        </section>
      )}
    </>
  );
}

const STEP_TITLE: Readonly<Record<StepChange['kind'], (step: StepChange) => string>> = {
  added: ({ stepAfter }) => `New step ${stepAfter}`,
  removed: ({ stepBefore }) => `Step ${stepBefore} is gone`,
  moved: ({ stepBefore, stepAfter }) => `Step ${stepBefore}, now step ${stepAfter}`,
  changed: ({ stepBefore, stepAfter }) =>
    stepBefore === stepAfter ? `Step ${stepAfter}` : `Step ${stepAfter}, before ${stepBefore}`,
};

const stepTitle = (step: StepChange) => STEP_TITLE[step.kind](step);

function placeTitle({ where }: OtherChange): string {
  return where.charAt(0).toUpperCase() + where.slice(1);
}

/** Word by word where both are there; else struck out or written in whole. */
function Sentence({ before, after, words }: Pick<StepChange, 'before' | 'after' | 'words'>) {
  const runs =
    words.length > 0
      ? words
      : before === null
        ? [{ kind: 'added' as const, text: after ?? '' }]
        : after === null
          ? [{ kind: 'removed' as const, text: before }]
          : [{ kind: 'same' as const, text: after }];
  return (
    <span>
      <Runs runs={runs} />
    </span>
  );
}

function Amounts({ amounts }: { readonly amounts: readonly AmountChange[] }) {
  const { said, number } = useWords();
  const moles = (amount_mmol: number | null) =>
    amount_mmol === null ? '–' : number(amount_mmol, 3);
  return (
    <section>
      <h2 id="amounts">Amounts</h2>
      <div className="strip" role="region" aria-labelledby="amounts" tabIndex={0}>
        <table>
          <thead>
            <tr>
              <th scope="col">Material</th>
              <th scope="col">Step</th>
              <th scope="col" className="number">
                Before
              </th>
              <th scope="col" className="number">
                After
              </th>
              <th scope="col" className="number">
                Change
              </th>
              <th scope="col" className="number">
                mmol before
              </th>
              <th scope="col" className="number">
                mmol after
              </th>
            </tr>
          </thead>
          <tbody>
            {amounts.map((change) => (
              <tr key={change.sentence}>
                <th scope="row">{change.name}</th>
                <td>{change.stepAfter ?? change.stepBefore}</td>
                <td className="number">{said(change.before ?? 'not taken')}</td>
                <td className="number">{said(change.after ?? 'not taken')}</td>
                <td className="number">
                  {change.percent === null ? '–' : said(signed(change.percent))}
                </td>
                <td className="number">{moles(change.before_mmol)}</td>
                <td className="number">{moles(change.after_mmol)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}
