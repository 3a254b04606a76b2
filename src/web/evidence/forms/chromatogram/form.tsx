import { peaksOfTrace } from '../../../../core/evidence/chromatogram/integrate.ts';
import type {
  ChromatogramEntered,
  Detector,
} from '../../../../core/evidence/chromatogram/schema.ts';
import { built, useForm } from '../draft.ts';
import type { DraftReader, Open } from '../draft.ts';
import { ChoiceField, NumberField } from '../fields.tsx';
import type { Option } from '../fields.tsx';
import type { EvidenceForm, FormWorld } from '../form.ts';
import { traceOf } from '../from-file.tsx';
import { Line } from '../layout.tsx';
import { readChoice } from '../read.ts';
import { FurtherFields, readFurther } from './further.tsx';
import { PeakFields, readPeaks } from './peaks.tsx';
import { peakDraft } from './report-table.ts';

const METHODS = ['gc', 'hplc'] as const;

const DETECTORS: Readonly<Record<Detector, string>> = {
  fid: 'flame ionisation (FID)',
  tcd: 'thermal conductivity (TCD)',
  uv: 'UV absorption',
  refractiveIndex: 'refractive index',
  ms: 'mass spectrometer',
  other: 'another',
};

/** The usual one first: it stands until another is chosen. */
const USUAL: Readonly<Record<(typeof METHODS)[number], readonly [Detector, ...Detector[]]>> = {
  gc: ['fid', 'tcd', 'ms', 'other'],
  hplc: ['uv', 'refractiveIndex', 'ms', 'other'],
};

function Fields({ world }: { readonly world: FormWorld }) {
  const { draft } = useForm();
  const method = draft['method'] === 'hplc' ? 'hplc' : 'gc';
  const detectors = USUAL[method];
  const detector = detectors.find((one) => one === draft['detector']) ?? detectors[0];
  return (
    <>
      <Line>
        <ChoiceField
          name="method"
          label="Method"
          options={[
            ['gc', 'gas chromatography (GC)'],
            ['hplc', 'liquid chromatography (HPLC)'],
          ]}
        />
        <ChoiceField
          key={method}
          name="detector"
          label="Detector"
          options={detectors.map((one): Option => [one, DETECTORS[one]])}
        />
        {detector === 'uv' && <NumberField name="wavelength_nm" label="Wavelength" unit="nm" />}
      </Line>
      <PeakFields world={world} />
      <FurtherFields world={world} />
    </>
  );
}

function build(reader: DraftReader, world: FormWorld) {
  const method = readChoice(reader, 'method', METHODS);
  const detector = readChoice(reader, 'detector', USUAL[method]);
  const peaks = readPeaks(reader, world);
  const entered: Open<ChromatogramEntered> = {
    technique: 'chromatogram',
    method,
    detector,
    wavelength_nm: detector === 'uv' ? reader.number('wavelength_nm', 180, 1100) : undefined,
    peaks,
    ...readFurther(reader, world, peaks),
  };
  return built(reader, entered);
}

/** A gas or liquid chromatogram: its table of peaks, and what they are. */
export const chromatogramForm: EvidenceForm = {
  technique: 'chromatogram',
  begin: (world, sign = '.') => {
    const trace = traceOf(world, 'chromatogram');
    const peaks = trace === undefined ? [] : peaksOfTrace(trace).peaks;
    // A top is found no better than to a thousandth of a minute.
    const rows = peaks.map((peak) => {
      const retention_min = Number(peak.retention_min.toFixed(3));
      return peakDraft({ ...peak, retention_min }, world.subjects, sign);
    });
    return { peaks: rows.length > 0 ? rows : [{}] };
  },
  fields: (world) => <Fields world={world} />,
  build,
};
