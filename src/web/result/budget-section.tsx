import { useCallback, useMemo } from 'react';
import type { BudgetEntry, ProductYield } from '../../core/report/yield/result.ts';
import { budgetPicture } from '../../picture/budget/budget.ts';
import { measurementsOf } from '../../core/record/actuals.ts';
import { formatNumber } from '../../core/quantity/print.ts';
import { shareText } from './figures.ts';
import type { Figures } from './figures.ts';
import { Picture } from './picture.tsx';
import type { Result } from './result-of.ts';
import { derivedUncertainty } from './derived.ts';
import { whatHelps } from './what-helps.ts';
import { WhyNumber } from '../ui/why-number.tsx';

const SHOWN = 6;
const LEAST_SHARE = 0.005;

/** Which reading makes the uncertainty, and what would make it smaller. */
export function BudgetSection({
  product,
  result,
  figures,
}: {
  readonly product: ProductYield;
  readonly result: Result;
  readonly figures: Figures;
}) {
  const dots = useMemo(
    () =>
      product.budget
        .filter(({ share }) => share >= LEAST_SHARE)
        .slice(0, SHOWN)
        .map(({ what, share, basis }) => ({
          what: basis === 'planned' ? (what.split(':')[0] ?? what) : what,
          share,
          text: shareText(share, figures),
          measured: basis === 'measured',
        })),
    [product, figures],
  );
  const label = `Shares of the variance: ${dots.map(({ what, text }) => `${what} ${text}`).join('; ')}.`;
  const draw = useCallback((width: number) => budgetPicture(dots, { width, label }), [dots, label]);
  if (product.yield === null || dots.length === 0) return null;
  const help = whatHelps(product, result, figures);
  return (
    <section className="result-budget" aria-labelledby="result-budget">
      <h2 id="result-budget">
        What makes the uncertainty{result.balances.length > 1 && ` of ${product.name}`}
      </h2>
      <p>
        <WhyNumber
          text={figures.percent(product.yield)}
          basis="measured"
          title="Uncertainty of the yield"
          ask={() => derivedUncertainty(product, result)}
          words={figures}
        />{' '}
        is given with k = {result.report.k}: about 95 of 100 such intervals hold the true value.{' '}
        {help}
      </p>
      <figure>
        <Picture draw={draw} />
        <figcaption className="quiet">
          Share of the variance.{dots.every(({ measured }) => measured) ? '' : RING}
        </figcaption>
      </figure>
      <details className="screen-only">
        <summary>As a table</summary>
        <BudgetTable product={product} result={result} figures={figures} />
      </details>
    </section>
  );
}

const RING =
  ' A ring in place of a dot: taken as written, from a table, or read on an instrument that nobody named.';

const BASIS: Readonly<Record<BudgetEntry['basis'], string>> = {
  measured: 'measured',
  planned: 'taken as written',
  assumed: 'measured, instrument not named',
  table: 'from a table',
};

function BudgetTable({
  product,
  result,
  figures,
}: {
  readonly product: ProductYield;
  readonly result: Result;
  readonly figures: Figures;
}) {
  const measured = new Map(
    measurementsOf(result.run, result.instruments).map((each) => [each.id, each]),
  );
  return (
    <div className="strip" tabIndex={0} role="region" aria-label="Table of the uncertainty">
      <table>
        <thead>
          <tr>
            <th scope="col">What</th>
            <th scope="col" className="number">
              Share
            </th>
            <th scope="col" className="number">
              u
            </th>
            <th scope="col">How it is known</th>
          </tr>
        </thead>
        <tbody>
          {product.budget.map(({ id, what, share, basis }) => {
            const reading = measured.get(id);
            return (
              <tr key={id}>
                <th scope="row">{what}</th>
                <td className="number">{shareText(share, figures)}</td>
                <td className="number">
                  {reading &&
                    `${formatNumber(reading.u, 2, { decimal: figures.decimal })} ${reading.unit}`}
                </td>
                <td>
                  {BASIS[basis]}
                  {reading?.basis === 'measured' && `, ${figures.said(reading.instrument)}`}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}
