import { techniqueWords } from '../../core/report/evidence/verdict.ts';
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

/** What the measurements answer together, each answer with its rule and what it rests on. */
export function VerdictTable({
  rows,
  said,
}: {
  readonly rows: readonly VerdictRow[];
  readonly said: (text: string) => string;
}) {
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
          {rows.map((row) => (
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
      <ul className="evidence-rests">
        {row.statements.map(({ entry, statement }) => (
          <li key={`${entry} ${statement.id}`}>
            {techniqueWords(statement.technique)}, {statement.weight}: {said(statement.says)}
          </li>
        ))}
      </ul>
    </>
  );
}
