import { peaksOfTrace } from '../../../../core/evidence/mass/from-trace.ts';
import type { Ionisation, MassEntered, MassPeak } from '../../../../core/evidence/mass/schema.ts';
import { numberText } from '../../../bench/typed/typed-number.ts';
import type { DecimalSign } from '../../../bench/typed/typed-number.ts';
import { built } from '../draft.ts';
import type { DraftReader, Open } from '../draft.ts';
import { ChoiceField, NumberField, TextAreaField } from '../fields.tsx';
import type { Option } from '../fields.tsx';
import type { EvidenceForm, FormWorld } from '../form.ts';
import { FileFindings, fileNameOf, traceOf, typed } from '../from-file.tsx';
import { Seldom } from '../layout.tsx';
import { numberColumns, pastedTable } from '../pasted-table.ts';
import { positive, readChoice } from '../read.ts';
import './mass.css';

const IONISATIONS: readonly [Ionisation, ...Ionisation[]] = ['EI', 'CI', 'ESI+', 'ESI−'];

const WORDS: Readonly<Record<Ionisation, string>> = {
  EI: 'electron ionisation (EI)',
  CI: 'chemical ionisation (CI)',
  'ESI+': 'electrospray, positive ions (ESI+)',
  'ESI−': 'electrospray, negative ions (ESI−)',
};

const MOST_PEAKS = 5000;
const HIGHEST_mz = 100_000;
const LONGEST = 200_000;

function Fields({ world }: { readonly world: FormWorld }) {
  const trace = traceOf(world, 'mass');
  const count = trace === undefined ? 0 : peaksOfTrace(trace).length;
  return (
    <div className="mass-form">
      <FileFindings
        world={world}
        trace={trace}
        filled={count === 1 ? 'one peak' : `${count} peaks`}
      />
      <ChoiceField
        name="ionisation"
        label="Ions made by"
        options={IONISATIONS.map((one): Option => [one, WORDS[one]])}
      />
      <TextAreaField
        name="peaks"
        label="Peaks"
        aid="One on a line, m/z and then intensity to any scale. A copied table will do."
        lines={8}
      />
      <Seldom summary="How well masses are known" fields={['massU_ppm', 'intensityU_percent']}>
        <NumberField
          name="massU_ppm"
          label="Standard uncertainty of an accurate mass"
          unit="ppm"
          aid="Empty: whole mass numbers are compared."
        />
        <NumberField
          name="intensityU_percent"
          label="Relative standard uncertainty of an intensity"
          unit="%"
          aid="Empty: 10 %."
        />
      </Seldom>
    </div>
  );
}

function linesWords(lines: readonly number[]): string {
  const some = lines.slice(0, 5).join(', ');
  return lines.length === 1
    ? `Line ${some} is not m/z and an intensity.`
    : `Lines ${some}${lines.length > 5 ? ' and more' : ''} are not m/z and an intensity.`;
}

/** The two columns of the text: m/z, intensity. */
export function readMassPeaks(reader: DraftReader): readonly MassPeak[] {
  const text = reader.text('peaks', LONGEST) ?? '';
  const table = pastedTable(text);
  const say = (problem: string) => {
    reader.say('peaks', problem);
    return [];
  };
  if (table === undefined)
    return say(text === '' ? 'At least one peak is needed.' : 'Write m/z and intensity on a line.');
  if (table.unread.length > 0) return say(linesWords(table.unread));
  const [mzColumn, intensityColumn] = numberColumns(table);
  const peaks = table.rows.map(({ line, cells }) => {
    const [mz, intensity] = [cells[mzColumn ?? -1], cells[intensityColumn ?? -1]];
    const isSound = typeof mz === 'number' && typeof intensity === 'number';
    const isPossible = isSound && mz > 0 && mz <= HIGHEST_mz && intensity >= 0 && intensity <= 1e15;
    return { line, peak: isPossible ? { mz, intensity } : undefined };
  });
  const odd = peaks.filter(({ peak }) => peak === undefined).map(({ line }) => line);
  if (odd.length > 0) return say(linesWords(odd));
  if (peaks.length > MOST_PEAKS) return say(`At most ${MOST_PEAKS} peaks.`);
  return peaks.map(({ peak }) => peak!);
}

function build(reader: DraftReader, world: FormWorld) {
  const entered: Open<MassEntered> = {
    technique: 'mass',
    ionisation: readChoice(reader, 'ionisation', IONISATIONS),
    peaks: readMassPeaks(reader),
    massU_ppm: positive(reader, 'massU_ppm', 1000),
    intensityU_percent: positive(reader, 'intensityU_percent', 100),
    file: fileNameOf(world, traceOf(world, 'mass')),
  };
  return built(reader, entered);
}

/** m/z keeps what an accurate mass has; four figures are enough of an intensity. */
function peakLine({ mz, intensity }: MassPeak, sign: DecimalSign): string {
  return `${numberText({ value: Number(mz.toFixed(5)) }, sign)}\t${typed(intensity, 4, sign)}`;
}

/** A mass spectrum: how the ions were made, and a list of peaks. */
export const massForm: EvidenceForm = {
  technique: 'mass',
  begin: (world, sign = '.') => {
    const trace = traceOf(world, 'mass');
    const peaks = trace === undefined ? [] : peaksOfTrace(trace);
    return { peaks: peaks.map((peak) => peakLine(peak, sign)).join('\n') };
  },
  fields: (world) => <Fields world={world} />,
  build,
};
