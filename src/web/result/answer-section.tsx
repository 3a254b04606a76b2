import { lazy, Suspense } from 'react';
import { Link } from 'react-router';
import type { RunOpened } from '../../wire/run.ts';
import { nextStep } from './answer-parts.ts';
import { ProductSentence } from './answer.tsx';
import type { Figures } from './figures.ts';
import type { Result } from './result-of.ts';
import { RunLine } from './run-line.tsx';

// Brings every judge of evidence with it: fetched only where something was measured.
const PurityLine = lazy(async () => ({
  default: (await import('./purity-line.tsx')).PurityLine,
}));

/** The answer before anything else, then what it is an answer about. */
export function Answer({
  run,
  result,
  figures,
}: {
  readonly run: RunOpened;
  readonly result: Result;
  readonly figures: Figures;
}) {
  const { report } = result;
  const [first, ...others] = report.products;
  const next = nextStep(report, result.run.entries.length);
  return (
    <header className="result-answer">
      <h1>
        {first === undefined ? (
          'No product is named, so there is no yield.'
        ) : (
          <ProductSentence product={first} result={result} figures={figures} />
        )}
      </h1>
      {next !== undefined && (
        <p className="next">
          {next}{' '}
          {first === undefined || (first.net_g !== null && first.yield === null) ? (
            <Link to={`/experiments/${run.experiment}`}>To the experiment</Link>
          ) : null}
        </p>
      )}
      {result.run.evidence.length > 0 && (
        <Suspense>
          <PurityLine run={run.id} result={result} figures={figures} />
        </Suspense>
      )}
      {others
        .filter(({ role, entries }) => role === 'product' || entries.length > 0)
        .map((product) => (
          <p key={product.substance} className="further">
            <ProductSentence product={product} result={result} figures={figures} />
          </p>
        ))}
      {report.overall !== null && (
        <p className="further">
          Over all steps ({report.overall.stages.map(({ name }) => name).join(' → ')}):{' '}
          {figures.percent(report.overall)}. {report.overall.said.map(figures.said).join(' ')}
        </p>
      )}
      <RunLine run={run} result={result} />
    </header>
  );
}
