import { Figure } from '../ui/figure.tsx';
import { dayAndHour, isDated } from './clock.ts';
import { derivedRow } from './derived.ts';
import { rowAddress } from './entered.ts';
import type { EnteredRow } from './entered.ts';
import type { Figures } from './figures.ts';
import type { Result } from './result-of.ts';
import { WhyNumber } from '../ui/why-number.tsx';
import './entered-section.css';

/** Everything that was weighed and measured out, beside what was planned. */
export function EnteredSection({
  rows,
  result,
  figures,
}: {
  readonly rows: readonly EnteredRow[];
  readonly result: Result;
  readonly figures: Figures;
}) {
  if (rows.length === 0) return null;
  const signed = rows.some(({ entry }) => entry !== undefined && enteredText(entry) !== '');
  return (
    <section aria-labelledby="result-entered">
      <h2 id="result-entered">What was weighed and measured out</h2>
      <div className="strip" tabIndex={0} role="region" aria-label="Table of what was weighed">
        <table className="result-entered" role="table" data-unsigned={!signed || undefined}>
          <thead role="rowgroup">
            <tr role="row">
              <th scope="col" role="columnheader">
                Step
              </th>
              <th scope="col" role="columnheader">
                What
              </th>
              <th scope="col" role="columnheader" className="number">
                Planned
              </th>
              <th scope="col" role="columnheader" className="number">
                Measured
              </th>
              <th scope="col" role="columnheader" className="number">
                Against plan
              </th>
              <th scope="col" role="columnheader" className="instrument">
                Instrument
              </th>
              <th scope="col" role="columnheader" className="wide-only">
                Entered
              </th>
            </tr>
          </thead>
          <tbody role="rowgroup">
            {rows.map((row, i) => (
              <Row
                key={row.key}
                row={row}
                result={result}
                figures={figures}
                again={row.step === rows[i - 1]?.step}
              />
            ))}
          </tbody>
        </table>
      </div>
      <AsWritten result={result} />
    </section>
  );
}

function Row({
  row,
  result,
  figures,
  again,
}: {
  readonly row: EnteredRow;
  readonly result: Result;
  readonly figures: Figures;
  /** The step stands in the line above already. */
  readonly again: boolean;
}) {
  const { entry, struck, planned } = row;
  return (
    <tr
      role="row"
      id={entry ? `entry-${entry.id}` : rowAddress(row.key)}
      data-sum={row.sum || undefined}
      data-struck={struck !== undefined || undefined}
      tabIndex={-1}
    >
      <td role="cell" className="step">
        {again ? <span className="spoken">{row.step}</span> : row.step}
      </td>
      <th scope="row" role="rowheader">
        {row.what}
        {struck !== undefined && <span className="reason">Struck: {struck}</span>}
      </th>
      <td role="cell" className="number planned" data-empty={planned === undefined || undefined}>
        {planned && <Figure basis={planned.basis}>{planned.text}</Figure>}
      </td>
      <td role="cell" className="number measured">
        <Measured row={row} result={result} figures={figures} />
      </td>
      <td role="cell" className="number difference">
        {row.difference}
      </td>
      <td
        role="cell"
        className={row.instrument === 'not named' ? 'instrument quiet' : 'instrument'}
      >
        {row.instrument}
      </td>
      <td role="cell" className="wide-only quiet">
        {entry && enteredText(entry)}
      </td>
    </tr>
  );
}

function enteredText({ at, by }: { readonly at: string; readonly by: string }): string {
  return [by, isDated(at) ? dayAndHour(at).hour : ''].filter((each) => each !== '').join(' ');
}

function Measured({
  row,
  result,
  figures,
}: {
  readonly row: EnteredRow;
  readonly result: Result;
  readonly figures: Figures;
}) {
  const { struck, measured } = row;
  if (struck !== undefined)
    return (
      <del>
        <span className="spoken">struck: </span>
        {measured.text}
      </del>
    );
  return (
    <WhyNumber
      text={measured.text}
      basis={measured.basis}
      title={row.what}
      ask={() => derivedRow(row, result)}
      words={figures}
    />
  );
}

/** Reactants that nobody measured: their amounts count as they are written. */
function AsWritten({ result: { run, enactment, report } }: { readonly result: Result }) {
  if (run.entries.length === 0) return null;
  const ids = new Set(report.products.flatMap(({ budget }) => budget.map(({ id }) => id)));
  const names = enactment.charges
    .filter(({ use }) => ids.has(`planned ${use}`))
    .map(({ name, step }) => `${name} (step ${step})`);
  if (names.length === 0) return null;
  return <p>Not measured, and counted as written: {names.join(', ')}.</p>;
}
