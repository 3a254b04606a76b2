import type { Diagnostic } from '../../../diagnostic.ts';
import type { MeasuredTrace, TraceTechnique, XUnit, YUnit } from '../trace.ts';
import { chemicalShifts, frequencyOf } from './chemical-shift.ts';
import { note, warning } from './finding.ts';
import { headerNumber } from './number-scan.ts';
import { scaleOrdinates } from './ordinate-scale.ts';
import { inOrder } from './trace-order.ts';

/** Numbers as a file has them, with what its words say of them. */
export interface RawTrace {
  readonly title: string;
  readonly technique: TraceTechnique;
  readonly kind: 'curve' | 'peaks';
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly xUnit: XUnit;
  readonly yUnit: YUnit;
  /** What the file says of percent; undefined: nothing. */
  readonly saysPercent: boolean | undefined;
  /** The scale of the ordinates is marked beyond doubt. */
  readonly isDeclared: boolean;
  readonly headers: Readonly<Record<string, string>>;
  readonly warnings: readonly Diagnostic[];
}

type Findings = { readonly warnings: readonly Diagnostic[] };

function missingNote(y: Float64Array): Diagnostic[] {
  let missing = 0;
  for (const value of y) if (!Number.isFinite(value)) missing++;
  if (missing === 0) return [];
  const message = `${missing} of ${y.length} points ${missing === 1 ? 'has' : 'have'} no value.`;
  return [note('values-missing', { message })];
}

/** What a file calls the state of the sample, under any of the labels that say it. */
function stateOf(headers: Readonly<Record<string, string>>): string | undefined {
  for (const label of ['STATE', 'SAMPLINGPROCEDURE', '$STATE']) {
    const value = headers[label]?.trim();
    if (value !== undefined && value !== '') return value;
  }
  return undefined;
}

function onShiftScale(raw: RawTrace): { x: Float64Array; xUnit: XUnit } & Findings {
  const { xUnit, x, headers } = raw;
  if (raw.technique !== 'nmr' || xUnit !== 'Hz') return { x, xUnit, warnings: [] };
  const shifts = chemicalShifts(headers, x);
  if (shifts?.x.every(Number.isFinite))
    return { x: shifts.x, xUnit: 'ppm', warnings: shifts.warnings };
  const message = 'The file does not say its frequency, so that Hz could not be turned into ppm.';
  return { x, xUnit, warnings: [warning('shift-reference', { message })] };
}

/** Free induction decays are read as they are, so that somebody can see what came. */
function timeWarning({ technique, xUnit }: RawTrace): Diagnostic[] {
  if (technique !== 'nmr' || (xUnit !== 's' && xUnit !== 'min')) return [];
  const message = 'This is the signal in time (a free induction decay), not yet a spectrum.';
  const hint = 'Export the spectrum after the Fourier transform.';
  return [warning('time-signal', { message, hint })];
}

/** From what the file has to what the program works with: x rising, transmittance 0 to 1, shifts in ppm. */
export function finishTrace(raw: RawTrace): MeasuredTrace {
  const shifted = onShiftScale(raw);
  const { x, y, warnings: order } = inOrder(shifted.x, raw.y, raw.kind === 'curve');
  const scaled = scaleOrdinates(y, raw.yUnit, raw.saysPercent, raw.isDeclared);
  const state = stateOf(raw.headers);
  const resolution = headerNumber(raw.headers['RESOLUTION'])?.value;
  const isOptical = raw.technique === 'infrared' || raw.technique === 'raman';
  const frequency_MHz = raw.technique === 'nmr' ? frequencyOf(raw.headers) : undefined;
  return {
    title: raw.title,
    technique: raw.technique,
    kind: raw.kind,
    x,
    // A number beyond all numbers is no value.
    y: scaled.y.map((value) => (Number.isFinite(value) ? value : Number.NaN)),
    xUnit: shifted.xUnit,
    yUnit: scaled.yUnit,
    ...(state === undefined ? {} : { state }),
    ...(resolution !== undefined && resolution > 0 && isOptical
      ? { resolution_percm: resolution }
      : {}),
    ...(frequency_MHz === undefined ? {} : { frequency_MHz }),
    headers: raw.headers,
    warnings: [
      ...raw.warnings,
      ...shifted.warnings,
      ...timeWarning(raw),
      ...order,
      ...scaled.warnings,
      ...missingNote(y),
    ],
  };
}
