import type { Diagnostic } from '../../../diagnostic.ts';
import type { InfraredSpectrum } from '../infrared.ts';
import { looksOf } from './looks.ts';
import type { Looks } from './looks.ts';
import type { MeasuredTrace, YUnit } from '../trace.ts';

type RecordedAs = InfraredSpectrum['recordedAs'];

export type Ordinate =
  | {
      readonly absorbance: Float64Array;
      readonly recordedAs: RecordedAs;
      readonly diagnostics: readonly Diagnostic[];
    }
  | { readonly problem: Diagnostic };

/** No instrument tells less light than this from none: A = 3. */
export const LEAST_TRANSMITTANCE = 1e-3;
/** Of the film whose absorbance stands for an absorption index. */
export const FILM_UM = 5;

/** A = −log₁₀ T (IUPAC, decadic absorbance); T from 0 to 1, held above `LEAST_TRANSMITTANCE`. */
export function absorbanceOf(transmittance: number): number {
  return -Math.log10(Math.max(LEAST_TRANSMITTANCE, transmittance));
}

/** A = 4π·k·ν̃·L / ln 10 of a film of thickness L, reflection at its faces left out. */
export function filmAbsorbance(index: number, wavenumber_percm: number, film_um: number): number {
  return (4 * Math.PI * index * wavenumber_percm * film_um * 1e-4) / Math.LN10;
}

type Reading = (x: Float64Array, y: Float64Array, looks: Looks) => Ordinate;

const refused =
  (what: string, hint: string): Reading =>
  () => ({
    problem: {
      code: 'spectrum-quantity-refused',
      severity: 'error',
      message: `The vertical axis is ${what}, which is not judged like an absorption spectrum.`,
      hint,
    },
  });

const READINGS: Record<YUnit, Reading> = {
  absorbance: (_x, y, looks) =>
    looks.seems === 'transmittance'
      ? fromTransmittance(y, looks, [upsideDown('absorbance', 'transmittance')])
      : fromAbsorbance(y, looks.bandsPoint === 'down' ? [pointsWrongWay()] : []),
  transmittance: (_x, y, looks) =>
    looks.seems === 'absorbance'
      ? fromAbsorbance(y, [upsideDown('transmittance', 'absorbance')])
      : fromTransmittance(y, looks, []),
  absorptionIndex: (x, y) => ({
    absorbance: y.map((k, i) => filmAbsorbance(k, x[i]!, FILM_UM)),
    recordedAs: 'absorptionIndex',
    diagnostics: [
      {
        code: 'spectrum-film-assumed',
        severity: 'note',
        message: `The file holds an absorption index. It is shown as the absorbance of a film of ${FILM_UM} µm.`,
      },
    ],
  }),
  reflectance: refused(
    'reflectance',
    'Measure in transmission or by ATR. Diffuse or specular reflectance needs another treatment first.',
  ),
  refractiveIndex: refused(
    'a refractive index',
    'Take the absorption index or the absorbance, if the file has one.',
  ),
  arbitrary: (_x, y, looks) => guessed(y, looks),
  unknown: (_x, y, looks) => guessed(y, looks),
};

/** The decadic absorbance of every point, or why there is none. x in cm⁻¹ rises. */
export function toAbsorbance(x: Float64Array, y: Float64Array, trace: MeasuredTrace): Ordinate {
  return READINGS[trace.yUnit](x, y, looksOf(x, y));
}

function fromAbsorbance(y: Float64Array, diagnostics: readonly Diagnostic[]): Ordinate {
  return { absorbance: Float64Array.from(y), recordedAs: 'absorbance', diagnostics };
}

function fromTransmittance(
  y: Float64Array,
  { percent }: Looks,
  diagnostics: readonly Diagnostic[],
): Ordinate {
  const scale = percent ? 0.01 : 1;
  return {
    absorbance: y.map((each) => absorbanceOf(scale * each)),
    recordedAs: 'transmittance',
    diagnostics,
  };
}

function guessed(y: Float64Array, looks: Looks): Ordinate {
  if (looks.seems === undefined)
    return refused(
      'without a unit, and its values look like neither absorbance nor transmittance',
      'Export it again as absorbance or as %T. A single-beam record needs its background first.',
    )(y, y, looks);
  const note: Diagnostic = {
    code: 'spectrum-units-guessed',
    severity: 'warning',
    message: `The file does not say the unit of the vertical axis. By its values it was taken as ${looks.seems}.`,
    hint: 'Check that bands point the right way in the picture.',
  };
  return looks.seems === 'absorbance'
    ? fromAbsorbance(y, [note])
    : fromTransmittance(y, looks, [note]);
}

function upsideDown(said: string, seems: string): Diagnostic {
  return {
    code: 'spectrum-upside-down',
    severity: 'warning',
    message: `The file says ${said}, but its values look like ${seems}. It was read as ${seems}.`,
    hint: `If it is ${said} after all, export it again from the instrument.`,
  };
}

function pointsWrongWay(): Diagnostic {
  return {
    code: 'spectrum-bands-inverted',
    severity: 'warning',
    message: 'Most bands of this absorbance spectrum point down.',
    hint: 'Was the sample measured as the background? Measure again with the sample in the beam.',
  };
}
