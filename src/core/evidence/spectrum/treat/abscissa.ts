import type { Diagnostic } from '../../../diagnostic.ts';
import { medianOf, stepsOf } from './order.ts';
import type { MeasuredTrace, XUnit } from '../trace.ts';

export type Abscissa =
  | {
      readonly wavenumber_percm: Float64Array;
      readonly linearInWavelength: boolean;
      readonly diagnostics: readonly Diagnostic[];
    }
  | { readonly problem: Diagnostic };

/** Micrometres and nanometres to the centimetre, for ν̃ = 1/λ. */
const PER_CM = { um: 1e4, nm: 1e7 } as const;

type Conversion = (x: Float64Array) => Float64Array;
const reciprocal =
  (perCm: number): Conversion =>
  (x) =>
    Float64Array.from(x, (each) => perCm / each);

const CONVERSIONS: Partial<Record<XUnit, Conversion>> = {
  '1/cm': (x) => x,
  um: reciprocal(PER_CM.um),
  nm: reciprocal(PER_CM.nm),
};

/** The wavenumber of every point, in the order of the file. */
export function toWavenumbers(trace: MeasuredTrace): Abscissa {
  const { x } = trace;
  const guessed = trace.xUnit === 'unknown' ? unitByRange(x) : trace.xUnit;
  const convert = CONVERSIONS[guessed];
  if (convert === undefined)
    return {
      problem: {
        code: 'spectrum-axis-unknown',
        severity: 'error',
        message:
          guessed === 'unknown'
            ? 'The file does not say the unit of the horizontal axis, and its values fit neither cm⁻¹ nor µm.'
            : `The horizontal axis is in ${guessed}, not in cm⁻¹ or µm.`,
        hint: 'Export the infrared spectrum against wavenumber.',
      },
    };
  const wavenumber_percm = convert(x);
  const diagnostics: Diagnostic[] = [];
  if (trace.xUnit === 'unknown')
    diagnostics.push({
      code: 'spectrum-units-guessed',
      severity: 'warning',
      message: `The file does not say the unit of the horizontal axis. By its values it was taken as ${guessed === 'um' ? 'µm' : 'cm⁻¹'}.`,
      hint: 'Check that a band you know lies where it should.',
    });
  return {
    wavenumber_percm,
    linearInWavelength: guessed !== '1/cm' || isEvenInWavelength(x),
    diagnostics,
  };
}

function unitByRange(x: Float64Array): XUnit {
  let [low, high] = [Infinity, -Infinity];
  for (const each of x) {
    if (each < low) low = each;
    if (each > high) high = each;
  }
  if (low >= 150 && high > 1000 && high <= 15_000) return '1/cm';
  if (low >= 1 && high >= 5 && high <= 60) return 'um';
  return 'unknown';
}

/** Wavenumbers that were worked out from evenly spaced wavelengths. */
function isEvenInWavelength(x: Float64Array): boolean {
  if (x.length < 50 || !(x[0]! > 0)) return false;
  const inWavenumber = unevenness(x);
  if (inWavenumber < 0.1) return false;
  return unevenness(Float64Array.from(x, (each) => -1e4 / each)) < 0.05;
}

/** Median distance of the steps from their median, as a share of it. */
function unevenness(x: Float64Array): number {
  const steps = stepsOf(x);
  const middle = medianOf(steps);
  return medianOf(steps.map((step) => Math.abs(step - middle))) / Math.abs(middle);
}
