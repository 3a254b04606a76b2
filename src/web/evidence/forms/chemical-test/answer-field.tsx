import { useId } from 'react';
import type { TestResult } from '../../../../core/evidence/chemical-test/schema.ts';
import type { ChemicalTest } from '../../../../core/evidence/chemical-test/table.ts';
import { useForm } from '../draft.ts';

const RESULTS: readonly (readonly [
  result: TestResult,
  word: string,
  looks: (test: ChemicalTest | undefined) => string | undefined,
])[] = [
  ['positive', 'positive', (test) => test?.positive],
  ['negative', 'negative', (test) => test?.negative],
  ['unclear', 'unclear', () => 'something else'],
];

/** How the test came out, each answer with what it looks like. None stands until it is chosen. */
export function AnswerField({ test }: { readonly test: ChemicalTest | undefined }) {
  const { draft, set, problems } = useForm();
  const id = useId();
  const problem = problems['result'];
  return (
    <div
      role="radiogroup"
      className="evidence-answers"
      aria-labelledby={id}
      aria-invalid={problem === undefined ? undefined : true}
      aria-describedby={problem === undefined ? undefined : `${id}-wrong`}
      tabIndex={-1}
    >
      <span id={id} className="label">
        What was seen
      </span>
      {RESULTS.map(([result, word, looks]) => {
        const seen = looks(test);
        return (
          <label key={result}>
            <input
              type="radio"
              name={id}
              checked={draft['result'] === result}
              onChange={() => set('result', result)}
            />
            <span>
              <strong>{word}</strong>
              {seen !== undefined && `: ${seen}`}
            </span>
          </label>
        );
      })}
      {problem !== undefined && (
        <span id={`${id}-wrong`} className="wrong">
          {problem}
        </span>
      )}
    </div>
  );
}
