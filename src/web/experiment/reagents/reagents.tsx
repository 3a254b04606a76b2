import { memo, useMemo } from 'react';
import { changeAmount } from '../../../core/experiment/edit/change-amount.ts';
import { Button } from '../../ui/button.tsx';
import type { Desk } from '../desk.ts';
import type { Enacted } from '../enacted.ts';
import { useWords } from '../../words/use-words.ts';
import { COLUMNS, ColumnHeads } from './column-heads.tsx';
import { ProductRows } from './product-rows.tsx';
import { ReagentRowCells } from './reagent-row.tsx';
import { rowsOf } from './rows.ts';
import './reagents.css';

/** Everything that the procedure takes, open to be changed where an amount is written. */
export const Reagents = memo(function Reagents({
  desk,
  enacted,
  onAdd,
}: {
  readonly desk: Desk;
  readonly enacted: Enacted;
  readonly onAdd: () => void;
}) {
  const { experiment, plan } = enacted;
  const { groups, table } = useMemo(() => rowsOf({ experiment, plan }), [experiment, plan]);
  const words = useWords();
  const write = (use: string, amount: string) => {
    const { text, experiment: now } = desk.now().enacted;
    const edit = changeAmount(text, now, use, amount);
    if (edit.ok) desk.edit({ changes: edit.change, userEvent: 'input.table' });
    return edit;
  };
  return (
    <section className="experiment-reagents" aria-labelledby="reagents">
      <h2 id="reagents">Reagents</h2>
      <div className="row-of-buttons screen-only experiment-reagents-about">
        <span className="quiet">
          A changed amount is written into its sentence; undo in the text takes it back.
        </span>
        <Button rank="plain" onClick={onAdd}>
          Add a substance
        </Button>
      </div>
      <div className="strip" tabIndex={0} role="group" aria-labelledby="reagents">
        <table>
          <ColumnHeads />
          {groups.map(({ title, rows }) => (
            <tbody key={title}>
              <tr>
                <th scope="rowgroup" colSpan={COLUMNS} className="experiment-group">
                  {title}
                </th>
              </tr>
              {rows.map((row) => (
                <ReagentRowCells
                  key={row.row.uses.join(' ')}
                  row={row}
                  words={words}
                  enacted={enacted}
                  write={write}
                />
              ))}
            </tbody>
          ))}
          <ProductRows table={table} words={words} enacted={enacted} />
        </table>
      </div>
    </section>
  );
});
