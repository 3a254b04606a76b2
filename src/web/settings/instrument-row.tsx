import { useId, useState } from 'react';
import { standardUncertaintyOfReading } from '../../core/quantity/instrument.ts';
import { laboratoryInstruments } from '../../core/quantity/laboratory.ts';
import { formatNumber, formatQuantity } from '../../core/quantity/print.ts';
import type { Balance, Glassware } from '../../wire/settings.ts';
import { Button } from '../ui/button.tsx';
import type { Column } from './column.ts';
import { COLUMNS, LONGEST_NAME, missingIn, ownInstrument, wrongFigure } from './form.ts';
import type { Row, Table } from './form.ts';

/** One instrument: a field for each figure, and what one reading of it is worth. */
export function InstrumentRow({
  row,
  table,
  decimalSign,
  onChange,
}: {
  readonly row: Row;
  readonly table: Table;
  readonly decimalSign: '.' | ',';
  readonly onChange: (row: Row) => void;
}) {
  const name = row.name.trim() === '' ? 'without a name' : row.name;
  if (row.removed === true) {
    const { removed: _, ...back } = row;
    return (
      <li className="settings-row settings-removed">
        <span role="status">“{name}” is taken out.</span>
        <Button autoFocus rank="plain" onClick={() => onChange(back)}>
          Undo <span className="spoken">and keep {name}</span>
        </Button>
      </li>
    );
  }
  return (
    <li className="settings-row" aria-label={name}>
      <Field
        label="Name"
        text={row.name}
        maxLength={LONGEST_NAME}
        onChange={(text) => onChange({ ...row, name: text })}
      />
      {COLUMNS[table].map((column: Column) => (
        <Field
          key={column.key}
          label={column.title}
          unit={column.unit}
          text={row.figures[column.key] ?? ''}
          wrong={wrongFigure(row.figures[column.key] ?? '', column)}
          onChange={(text) => onChange({ ...row, figures: { ...row.figures, [column.key]: text } })}
        />
      ))}
      <Button
        rank="plain"
        className="settings-remove"
        onClick={() => onChange({ ...row, removed: true })}
      >
        Take out <span className="spoken">{name}</span>
      </Button>
      <p className="settings-worth">{worthOf(row, table, decimalSign)}</p>
    </li>
  );
}

function Field({
  label,
  unit,
  text,
  wrong,
  maxLength,
  onChange,
}: {
  readonly label: string;
  readonly unit?: 'g' | 'mL';
  readonly text: string;
  readonly wrong?: string | undefined;
  readonly maxLength?: number;
  readonly onChange: (text: string) => void;
}) {
  const id = useId();
  // Nobody is told off in the middle of a number.
  const [left, setLeft] = useState(text !== '');
  const shown = left ? wrong : undefined;
  return (
    <div className="settings-cell" data-figure={unit !== undefined}>
      <label htmlFor={id}>
        {label}
        {unit !== undefined && `, ${unit}`}
      </label>
      <input
        id={id}
        type="text"
        autoComplete="off"
        inputMode={unit === undefined ? 'text' : 'decimal'}
        maxLength={maxLength ?? 30}
        value={text}
        aria-invalid={shown !== undefined}
        aria-describedby={shown === undefined ? undefined : `${id}-wrong`}
        onChange={({ target }) => onChange(target.value)}
        onFocus={() => setLeft(false)}
        onBlur={() => setLeft(true)}
      />
      {shown !== undefined && (
        <span id={`${id}-wrong`} className="wrong">
          {shown}
        </span>
      )}
    </div>
  );
}

/** What one reading is worth, or what is still to be filled in. */
function worthOf(row: Row, table: Table, decimalSign: '.' | ','): string {
  const missing = missingIn(row, table);
  if (missing.length > 0)
    return `Still to fill in: ${missing.map((each) => each.replace(' ±', '').toLowerCase()).join(', ')}. Kept on this device until then.`;
  const own = ownInstrument(row, table);
  if (own === undefined) return 'Kept on this device until every figure can be read.';
  const [instrument] = laboratoryInstruments(
    table === 'balances'
      ? { balances: [own as Balance], glassware: [] }
      : { balances: [], glassware: [own as Glassware] },
  );
  const { u } = standardUncertaintyOfReading(instrument!, 0);
  // A mass in g or mg as it falls; glass is read in mL, however fine.
  const text =
    table === 'balances' ? formatQuantity(u, 'mass', 2) : `${formatNumber(u, 2)}\u202fmL`;
  const written = text.replace('.', decimalSign);
  return `One reading has a standard uncertainty of ${written}.`;
}
