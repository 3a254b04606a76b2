import { useState } from 'react';
import { peaksOfTrace } from '../../../../core/evidence/chromatogram/integrate.ts';
import { MOST_PEAKS } from '../../../../core/evidence/chromatogram/limits.ts';
import type { ChromatogramEntered } from '../../../../core/evidence/chromatogram/schema.ts';
import { Button } from '../../../ui/button.tsx';
import { ChoiceOrOther } from '../choice-or-other.tsx';
import { useForm } from '../draft.ts';
import type { DraftReader, Open } from '../draft.ts';
import { NumberField, RowsField } from '../fields.tsx';
import type { FormWorld } from '../form.ts';
import { FileFindings, traceOf } from '../from-file.tsx';
import { Line, Seldom } from '../layout.tsx';
import { positive } from '../read.ts';
import { filledRows, typedRows } from '../rows.ts';
import { reportRows } from './report-table.ts';
import { readWhat, whatOf } from './what.ts';

export const LONGEST_min = 10_000;
const WIDEST_min = 1000;
const LARGEST = 1e15;

type Peaks = Open<ChromatogramEntered['peaks']>;

/** The table of peaks: pasted, out of a file, or typed line by line. */
export function PeakFields({ world }: { readonly world: FormWorld }) {
  const { draft } = useForm();
  const trace = traceOf(world, 'chromatogram');
  const integration = trace === undefined ? undefined : peaksOfTrace(trace);
  const { length } = integration?.peaks ?? [];
  return (
    <>
      <FileFindings
        world={world}
        trace={trace}
        further={integration?.diagnostics ?? []}
        filled={length === 1 ? 'one peak' : `${length} peaks`}
      />
      {world.file === undefined && (
        <Pasting world={world} isOpen={typedRows(draft['peaks']).length === 0} />
      )}
      <RowsField name="peaks" label="Peaks" each="Peak" addText="Add a peak">
        <Line>
          <NumberField name="retention_min" label="Retention time" unit="min" />
          <NumberField name="area" label="Area" />
          <ChoiceOrOther
            {...whatOf(world.subjects)}
            label="What it is"
            other="another substance"
            otherLabel="Its name"
          />
        </Line>
        <Seldom
          summary="Widths of the peak"
          fields={['halfWidth_min', 'baseWidth_min', 'footWidth_min', 'footFront_min']}
        >
          <Line>
            <NumberField name="halfWidth_min" label="Width at half height" unit="min" />
            <NumberField name="baseWidth_min" label="Width at the base" unit="min" />
            <NumberField name="footWidth_min" label="Width at 5 % of the height" unit="min" />
            <NumberField name="footFront_min" label="Of that, before the top" unit="min" />
          </Line>
        </Seldom>
      </RowsField>
    </>
  );
}

/** The table of the instrument's report, taken over into the rows below it. */
function Pasting({ world, isOpen }: { readonly world: FormWorld; readonly isOpen: boolean }) {
  const { draft, set, sign } = useForm();
  const [text, setText] = useState('');
  // Only at first: what opens and shuts while one types moves the fields away.
  const [isOpenAtFirst] = useState(isOpen);
  const [said, setSaid] = useState('');
  const take = () => {
    const read = reportRows(text, world.subjects, sign);
    if (read === undefined) {
      setSaid('No peaks are seen in this text: each line needs a time and an area.');
      return;
    }
    const before = typedRows(draft['peaks']);
    const rows = [...before, ...read.rows].slice(0, MOST_PEAKS);
    const count = rows.length - before.length;
    set('peaks', rows);
    setText('');
    setSaid(`${count === 1 ? 'One peak' : `${count} peaks`} filled in.${leftOut(read.unread)}`);
  };
  return (
    <>
      <details className="evidence-seldom" open={isOpenAtFirst}>
        <summary>Paste the table of the report</summary>
        <label className="field evidence-paste">
          <span className="label">The table, with its headings if it has them</span>
          <textarea
            rows={5}
            value={text}
            spellCheck={false}
            onChange={({ target }) => setText(target.value)}
          />
        </label>
        <Button onClick={take} disabled={text.trim() === ''}>
          Fill in the peaks
        </Button>
      </details>
      <p role="status">{said}</p>
    </>
  );
}

function leftOut(unread: readonly number[]): string {
  if (unread.length === 0) return '';
  const lines = unread.slice(0, 8).join(', ');
  return unread.length === 1
    ? ` Line ${lines} was not understood.`
    : ` Lines ${lines}${unread.length > 8 ? ' and more' : ''} were not understood.`;
}

function readFoot(row: DraftReader) {
  const width_min = positive(row, 'footWidth_min', WIDEST_min);
  const front_min = positive(row, 'footFront_min', WIDEST_min);
  if (width_min === undefined && front_min === undefined) return undefined;
  if (width_min === undefined) row.say('footWidth_min', 'Both are needed, or neither.');
  if (front_min === undefined) row.say('footFront_min', 'Both are needed, or neither.');
  return { width_min: width_min ?? 0, front_min: front_min ?? 0 };
}

export function readPeaks(reader: DraftReader, { subjects }: FormWorld): Peaks {
  const rows = filledRows(reader, 'peaks', ['retention_min', 'area', 'what', 'whatOther']);
  if (rows.length === 0) reader.say('peaks', 'At least one peak is needed.');
  if (rows.length > MOST_PEAKS) reader.say('peaks', `At most ${MOST_PEAKS} peaks.`);
  return rows.map((row) => {
    const { name, role } = readWhat(row, subjects);
    return {
      retention_min: row.need('retention_min', 0, LONGEST_min),
      area: row.need('area', -LARGEST, LARGEST),
      name,
      role,
      halfWidth_min: positive(row, 'halfWidth_min', WIDEST_min),
      baseWidth_min: positive(row, 'baseWidth_min', WIDEST_min),
      foot: readFoot(row),
    };
  });
}
