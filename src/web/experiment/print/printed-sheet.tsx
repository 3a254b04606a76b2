import { flowSheet } from '../../../core/report/flow/flow.ts';
import { flowSheetParts } from '../../../picture/flow-sheet/flow-sheet.ts';
import { flowWords } from '../../../picture/flow-sheet/words.ts';
import type { Enacted } from '../enacted.ts';
import { drawnWithDecimal } from '../../words/decimal-parts.ts';
import { useWords } from '../../words/use-words.ts';
import { slicesOf } from './slices.ts';

/** Across an A4 or a Letter page, in px. */
const WIDTH = 1000;

/** The flow sheet for paper: pages end between rows, never within one. */
export function PrintedSheet({ enacted: { experiment, plan } }: { readonly enacted: Enacted }) {
  const { decimal } = useWords();
  const picture = flowSheetParts(
    { ...flowSheet(experiment, plan), title: 'Flow sheet' },
    { width: WIDTH, form: 'wide', words: flowWords(plan, experiment), idPrefix: 'printed-sheet' },
  );
  return (
    <div className="experiment-printed-sheet">
      {slicesOf(picture).map(({ key, viewBox, svg }) => (
        <svg
          key={key}
          className="flow-sheet"
          viewBox={viewBox}
          aria-hidden="true"
          dangerouslySetInnerHTML={{ __html: drawnWithDecimal(svg, decimal) }}
        />
      ))}
    </div>
  );
}
