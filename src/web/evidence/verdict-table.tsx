import { techniqueWords } from '../../core/evidence/technique-words.ts';
import type { Agreement, Question } from '../../core/evidence/statement.ts';
import type { Outcome, VerdictRow } from '../../core/report/evidence/verdict.ts';
import { Why } from '../ui/why.tsx';

/** A word and a sign, so that no colour is needed. */
const OUTCOME: Readonly<Record<Outcome, readonly [sign: string, word: string]>> = {
  yes: ['✓', 'yes'],
  no: ['✕', 'no'],
  mixed: ['≠', 'contradicted'],
  open: ['?', 'open'],
  notMeasured: ['–', 'not measured'],
};

const NOT_MEASURED: Readonly<Record<Question, string>> = {
  identity: 'whether it is the product',
  change: 'whether the reaction changed what it should',
  startingMaterial: 'what is left of the starting material',
  purity: 'how pure it is',
  contaminant: 'solvent, water and the like',
  instrument: 'whether the instruments were right',
};

export const isAnswered = ({ outcome }: VerdictRow): boolean => outcome !== 'notMeasured';

/** What the measurements answer together, each answer with its rule and what it rests on. */
export function VerdictTable({
  rows,
  said,
}: {
  readonly rows: readonly VerdictRow[];
  readonly said: (text: string) => string;
}) {
  const unasked = rows.filter((row) => !isAnswered(row));
  return (
    <section aria-labelledby="evidence-verdict">
      <h2 id="evidence-verdict">What the measurements answer</h2>
      <table className="evidence-verdict">
        <thead>
          <tr>
            <th scope="col">Question</th>
            <th scope="col">Answer</th>
            <th scope="col">In words</th>
          </tr>
        </thead>
        <tbody>
          {rows.filter(isAnswered).map((row) => (
            <tr key={row.question} data-outcome={row.outcome}>
              <th scope="row">{row.asks}</th>
              <td>
                <Why figure={<Answered outcome={row.outcome} />} title={row.asks}>
                  <Rests row={row} said={said} />
                </Why>
              </td>
              <td>{said(row.says)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {unasked.length > 0 && (
        <p>Not measured: {unasked.map(({ question }) => NOT_MEASURED[question]).join('; ')}.</p>
      )}
      <p className="quiet">
        No figure adds these up: each answer follows from the rule that it opens to. Whoever is
        responsible decides.
      </p>
    </section>
  );
}

function Answered({ outcome }: { readonly outcome: Outcome }) {
  const [sign, word] = OUTCOME[outcome];
  return (
    <>
      <span aria-hidden="true">{sign} </span>
      {word}
    </>
  );
}

const SIDES: readonly (readonly [Agreement, string])[] = [
  ['disagrees', 'Against it'],
  ['agrees', 'For it'],
  ['cannotTell', 'Does not decide'],
];

function Rests({
  row,
  said,
}: {
  readonly row: VerdictRow;
  readonly said: (text: string) => string;
}) {
  return (
    <>
      <p>{row.rule}</p>
      {SIDES.map(([agreement, title]) => {
        const side = row.statements.filter(({ statement }) => statement.agreement === agreement);
        if (side.length === 0) return null;
        return (
          <div key={agreement}>
            <p className="evidence-side">{title}</p>
            <ul className="evidence-rests">
              {side.map(({ entry, statement }) => (
                <li key={`${entry} ${statement.id}`}>
                  <a href={`#entry-${entry}`}>{techniqueWords(statement.technique)}</a>
                  {statement.weight === 'weak' && ' (too weak to count alone)'}:{' '}
                  {said(statement.says)}
                </li>
              ))}
            </ul>
          </div>
        );
      })}
    </>
  );
}
