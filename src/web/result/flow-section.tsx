import { lazy, Suspense, useState } from 'react';
import type { DecimalSign } from './figures.ts';
import type { Result } from './result-of.ts';

const FlowSheetView = lazy(async () => ({
  default: (await import('./flow-sheet-view.tsx')).FlowSheetView,
}));

/** On a phone it is long: there it opens when it is asked for. */
const startsOpen = () => window.matchMedia('(width >= 48rem)').matches;

/** The run as a flow sheet, what was measured inked in. */
export function FlowSection({
  result,
  sentence,
  version,
  decimal,
}: {
  readonly result: Result;
  readonly sentence: string;
  readonly version: string;
  readonly decimal: DecimalSign;
}) {
  const [open, setOpen] = useState(startsOpen);
  return (
    <section className="result-flow" aria-labelledby="result-flow">
      <details open={open} onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
        <summary>
          <h2 id="result-flow">Flow sheet of this bench</h2>
        </summary>
        {open && (
          <Suspense fallback={<p className="quiet">Drawing …</p>}>
            <FlowSheetView {...{ result, sentence, version, decimal }} />
          </Suspense>
        )}
      </details>
    </section>
  );
}
