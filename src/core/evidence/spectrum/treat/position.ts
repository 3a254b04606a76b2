import { isUneven } from './grid.ts';
import type { InfraredSpectrum } from '../infrared.ts';
import { medianOf, stepsOf } from './order.ts';
import type { MeasuredTrace } from '../trace.ts';

/** An interferometer that is looked after; its laser keeps the scale. Common practice. */
const CALIBRATION_PERCM = 0.5;
/** A curve traced from paper: width of the line and setting of the chart. Common practice. */
const DIGITISED_PERCM = 4;
/** The dial of a prism instrument, linear in wavelength. Common practice. */
const WAVELENGTH_U_UM = 0.01;
/** Where `positionU_percm` is of, when the record was linear in wavelength. */
const REFERENCE_PERCM = 2000;

const FROM_PAPER = /hard ?copy|digiti[sz]ed|from paper|traced by hand/i;
const DISPERSIVE = /\bprism\b|\bgrating\b/i;
const TELLING = [
  'DATAPROCESSING',
  'SPECTROMETERDATASYSTEM',
  'INSTRUMENTPARAMETERS',
  'ORIGIN',
  'SOURCEREFERENCE',
  'TITLE',
] as const;

type Position = Pick<InfraredSpectrum, 'positionU_percm' | 'wavelengthU_um'>;

/** How well positions are known: spacing, resolution, what the record was made on. */
export function positionOf(
  x: Float64Array,
  trace: MeasuredTrace,
  linearInWavelength: boolean,
): Position {
  const steps = stepsOf(x);
  const said = TELLING.map((label) => trace.headers[label] ?? '').join(' ');
  // The apex between points is found to a fifth of a step or so; a rectangular half-step is safe
  const ofSpacing = medianOf(steps) / Math.sqrt(12) / 2;
  const ofResolution = (trace.resolution_percm ?? 0) / 10;
  const fromPaper = FROM_PAPER.test(said) || DISPERSIVE.test(said) || isUneven(steps);
  const ofRecord = fromPaper ? DIGITISED_PERCM : CALIBRATION_PERCM;
  if (!linearInWavelength)
    return { positionU_percm: Math.hypot(ofSpacing, ofResolution, ofRecord) };
  // dν̃ = ν̃²·dλ, with λ in cm
  const wavelengthU_um = Math.hypot(WAVELENGTH_U_UM, wavelengthStep(x) / Math.sqrt(12));
  const byWavelength = (REFERENCE_PERCM ** 2 * wavelengthU_um) / 1e4;
  return { positionU_percm: Math.hypot(byWavelength, ofRecord), wavelengthU_um };
}

function wavelengthStep(x: Float64Array): number {
  return medianOf(stepsOf(Float64Array.from(x, (each) => 1e4 / each).reverse()));
}

/** Standard uncertainty of a position at one wavenumber, in cm⁻¹. */
export function positionUAt(spectrum: InfraredSpectrum, position_percm: number): number {
  const { positionU_percm, wavelengthU_um } = spectrum;
  if (wavelengthU_um === undefined) return positionU_percm;
  const reference = (REFERENCE_PERCM ** 2 * wavelengthU_um) / 1e4;
  const rest = Math.sqrt(Math.max(0, positionU_percm ** 2 - reference ** 2));
  return Math.hypot(rest, (position_percm ** 2 * wavelengthU_um) / 1e4);
}
