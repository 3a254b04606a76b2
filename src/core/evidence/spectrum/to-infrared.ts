import type { Diagnostic } from '../../diagnostic.ts';
import { toAbsorbance } from './treat/absorbance.ts';
import { toWavenumbers } from './treat/abscissa.ts';
import { MIN_POINTS, gapsOf, tidy } from './treat/grid.ts';
import type { InfraredSpectrum, SampleState } from './infrared.ts';
import { positionOf } from './treat/position.ts';
import { stateOf } from './treat/sample-state.ts';
import { medianOf, stepsOf } from './treat/order.ts';
import type { MeasuredTrace, TraceTechnique } from './trace.ts';

export type ToInfrared =
  | {
      readonly ok: true;
      readonly spectrum: InfraredSpectrum;
      readonly diagnostics: readonly Diagnostic[];
    }
  | { readonly ok: false; readonly problem: Diagnostic };

/** The fundamentals of molecules that are drawn in a teaching laboratory. */
const RANGE = { low_percm: 400, high_percm: 4000 };
/** A little beyond is kept: instruments start at 4200 or 370; the near and far infrared is not. */
const KEPT = { low_percm: 300, high_percm: 5000 };
/** Sparser than this, neighbouring bands merge. */
const COARSE_PERCM = 16;

const OTHER: Record<Exclude<TraceTechnique, 'infrared' | 'unknown'>, string> = {
  nmr: 'an NMR spectrum',
  mass: 'a mass spectrum',
  chromatogram: 'a chromatogram',
  ultraviolet: 'an ultraviolet or visible spectrum',
  raman: 'a Raman spectrum; its bands have other intensities, and many infrared bands are missing',
};

/**
 * A trace made ready for judging: wavenumbers that rise, absorbance, places without values left
 * out. Wavelengths are turned into wavenumbers, transmittance into absorbance (A = −log₁₀ T), an
 * absorption index into the absorbance of a film of 5 µm. Refused, with the reason, where the
 * trace is no infrared absorption spectrum. `asked.state` is what the person said of the sample
 * and comes before what the file says.
 */
export function infraredOf(
  trace: MeasuredTrace,
  asked: { readonly state?: SampleState } = {},
): ToInfrared {
  const refused = wrongKind(trace);
  if (refused !== undefined) return { ok: false, problem: refused };
  const abscissa = toWavenumbers(trace);
  if ('problem' in abscissa) return { ok: false, problem: abscissa.problem };
  const points = tidy(abscissa.wavenumber_percm, trace.y, KEPT);
  const short = tooLittle(points.x);
  if (short !== undefined) return { ok: false, problem: short };
  const ordinate = toAbsorbance(points.x, points.y, trace);
  if ('problem' in ordinate) return { ok: false, problem: ordinate.problem };
  const gaps = gapsOf(points.x);
  const state = asked.state ?? stateOf(trace);
  const position = positionOf(points.x, trace, abscissa.linearInWavelength);
  const spectrum: InfraredSpectrum = {
    title: trace.title,
    wavenumber_percm: points.x,
    absorbance: ordinate.absorbance,
    recordedAs: ordinate.recordedAs,
    ...(state === undefined ? {} : { state }),
    ...(trace.resolution_percm === undefined ? {} : { resolution_percm: trace.resolution_percm }),
    ...position,
    gaps,
  };
  const diagnostics = [
    ...abscissa.diagnostics,
    ...ordinate.diagnostics,
    ...told(points, gaps),
    ...(medianOf(stepsOf(points.x)) > COARSE_PERCM ? [coarse(points.x)] : []),
  ];
  return { ok: true, spectrum, diagnostics };
}

function wrongKind({ technique, kind, x }: MeasuredTrace): Diagnostic | undefined {
  if (technique !== 'infrared' && technique !== 'unknown')
    return {
      code: 'spectrum-not-infrared',
      severity: 'error',
      message: `This is ${OTHER[technique]}.`,
      hint: 'Drop an infrared spectrum here.',
    };
  if (kind === 'peaks')
    return {
      code: 'spectrum-peaks-only',
      severity: 'error',
      message: `This is a list of ${x.length} peaks, not a curve: what is absent cannot be seen in it.`,
      hint: 'Export the curve from the instrument, as JCAMP-DX or as a table.',
    };
  return undefined;
}

function tooLittle(x: Float64Array): Diagnostic | undefined {
  const low = Math.max(RANGE.low_percm, x[0] ?? Infinity);
  const high = Math.min(RANGE.high_percm, x.at(-1) ?? -Infinity);
  if (!(high > low))
    return {
      code: 'spectrum-out-of-range',
      severity: 'error',
      message: 'Nothing of this spectrum lies between 4000 and 400 cm⁻¹.',
      hint: 'Check the unit of the horizontal axis: cm⁻¹ or µm.',
    };
  if (x.length >= MIN_POINTS) return undefined;
  return {
    code: 'spectrum-too-few-points',
    severity: 'error',
    message: `The spectrum has ${x.length} usable points; ${MIN_POINTS} are needed at least.`,
    hint: 'Export the whole curve from the instrument.',
  };
}

function told(
  { merged, missing }: { readonly merged: number; readonly missing: number },
  gaps: InfraredSpectrum['gaps'],
): Diagnostic[] {
  const notes: Diagnostic[] = [];
  if (merged > 0)
    notes.push({
      code: 'spectrum-points-merged',
      severity: 'note',
      message: `${merged} points had the wavenumber of another; their mean was taken.`,
    });
  if (missing > 0)
    notes.push({
      code: 'spectrum-points-missing',
      severity: 'note',
      message: `${missing} points have no value and were left out.`,
    });
  if (gaps.length > 0) {
    const places = gaps.map(([from, to]) => `${Math.round(to)}–${Math.round(from)}`).join(', ');
    notes.push({
      code: 'spectrum-gap',
      severity: 'warning',
      message: `The spectrum has no data at ${places} cm⁻¹; nothing is said of bands there.`,
    });
  }
  return notes;
}

function coarse(x: Float64Array): Diagnostic {
  const spacing = Math.round(medianOf(stepsOf(x)));
  return {
    code: 'spectrum-coarse',
    severity: 'warning',
    message: `The points lie ${spacing} cm⁻¹ apart: narrow bands may be missing or merged.`,
    hint: 'Measure with a resolution of 4 cm⁻¹ if you can.',
  };
}
