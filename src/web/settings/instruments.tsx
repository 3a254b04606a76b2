import { useRef, useState } from 'react';
import { Button } from '../ui/button.tsx';
import { newId } from '../ui/id.ts';
import { COLUMNS } from './form.ts';
import type { Row, Table } from './form.ts';
import { InstrumentRow } from './instrument-row.tsx';
import { rowOfUsual, usualOnes } from './usual.ts';

interface Words {
  readonly one: string;
  readonly idStart: string;
  readonly none: string;
  readonly after: string;
}

const WORDS: Readonly<Record<Table, Words>> = {
  balances: {
    one: 'balance',
    idStart: 'balance',
    none: 'None is set down yet. Until then a weighing counts as read on a usual balance that shows as many decimals.',
    after:
      'A bench record offers these balances; the uncertainty of a yield is worked out from their figures.',
  },
  glassware: {
    one: 'piece',
    idStart: 'glass',
    none: 'None is set down yet. Until then a volume counts with half a unit of its last digit, or with what the usual glass of its name has.',
    after: 'Volumetric glass only: beakers and flasks with a scale are no measure.',
  },
};

/** Instruments of one kind: what their figures mean, the ones there are, two ways to one more. */
export function Instruments({
  table,
  rows,
  decimalSign,
  onChange,
}: {
  readonly table: Table;
  readonly rows: readonly Row[];
  readonly decimalSign: '.' | ',';
  readonly onChange: (rows: readonly Row[]) => void;
}) {
  const list = useRef<HTMLUListElement>(null);
  const words = WORDS[table];
  const add = (row: Row) => {
    onChange([...rows, row]);
    // After the new row is painted, so that one can type its name.
    requestAnimationFrame(() =>
      list.current?.querySelector<HTMLInputElement>(':scope > :last-child input')?.focus(),
    );
  };
  return (
    <>
      {rows.length === 0 && <p>{words.none}</p>}
      <dl className="settings-aids">
        {COLUMNS[table].map(({ key, title, aid }) => (
          <div key={key}>
            <dt>{title}</dt>
            <dd>{aid}</dd>
          </div>
        ))}
      </dl>
      <ul ref={list} className="settings-rows" data-table={table}>
        {rows.map((row) => (
          <InstrumentRow
            key={row.id}
            row={row}
            table={table}
            decimalSign={decimalSign}
            onChange={(changed) =>
              onChange(rows.map((each) => (each.id === row.id ? changed : each)))
            }
          />
        ))}
      </ul>
      <div className="settings-add">
        <AddUsual table={table} rows={rows} decimalSign={decimalSign} add={add} />
        <Button
          onClick={() =>
            add({ id: `${words.idStart}-${newId().slice(0, 8)}`, name: '', figures: {} })
          }
        >
          Add another {words.one}
        </Button>
      </div>
      <p className="quiet">{words.after}</p>
    </>
  );
}

function AddUsual({
  table,
  rows,
  decimalSign,
  add,
}: {
  readonly table: Table;
  readonly rows: readonly Row[];
  readonly decimalSign: '.' | ',';
  readonly add: (row: Row) => void;
}) {
  const usual = usualOnes(table);
  const [chosen, setChosen] = useState(usual[0]!.id);
  const kinds = [...new Set(usual.map(({ kind }) => kind))];
  const id = `usual-${table}`;
  return (
    <div className="settings-usual">
      <label htmlFor={id}>A usual one, with its usual figures</label>
      <select id={id} value={chosen} onChange={({ target }) => setChosen(target.value)}>
        {kinds.map((kind) => (
          <optgroup key={kind} label={kind}>
            {usual
              .filter((each) => each.kind === kind)
              .map((each) => (
                <option key={each.id} value={each.id}>
                  {each.name}
                </option>
              ))}
          </optgroup>
        ))}
      </select>
      <Button
        onClick={() => {
          const instrument = usual.find((each) => each.id === chosen)!;
          add(rowOfUsual(instrument, table, rows, decimalSign));
        }}
      >
        Add it
      </Button>
    </div>
  );
}
