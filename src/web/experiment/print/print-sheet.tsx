import { useSettings } from '../../api/queries.ts';
import type { Enacted } from '../enacted.ts';
import type { Kept } from '../keep/keeping.ts';
import { Handout } from './handout.tsx';
import { footOf } from '../../print/page-rules.ts';
import { PrintedSheet } from './printed-sheet.tsx';
import { usePrinting } from '../../print/use-printing.ts';
import './print.css';

/** What stands on paper in place of the editor: the handout and the flow sheet. */
export function PrintSheet({ enacted, kept }: { readonly enacted: Enacted; readonly kept: Kept }) {
  const { data } = useSettings();
  const foot = footOf({
    title: enacted.experiment.title,
    ...kept.base,
    kept: kept.keeping.kind === 'kept',
  });
  const printing = usePrinting({ size: data?.paper ?? 'a4', foot });
  if (!printing) return null;
  return (
    <div className="experiment-print">
      <Handout text={enacted.text} />
      <PrintedSheet enacted={enacted} />
    </div>
  );
}
