import type { MeasuredTrace, XUnit, YUnit } from '../trace.ts';

export interface TableOptions {
  readonly separator?: ',' | ';' | '\t';
  readonly decimal?: '.' | ',';
}

const X_NAMES: Record<XUnit, string> = {
  '1/cm': 'wavenumber (1/cm)',
  um: 'wavelength (um)',
  nm: 'wavelength (nm)',
  ppm: 'chemical shift (ppm)',
  Hz: 'frequency (Hz)',
  'm/z': 'm/z',
  s: 'time (s)',
  min: 'time (min)',
  unknown: 'x (unit not known)',
};

const Y_NAMES: Record<YUnit, string> = {
  absorbance: 'absorbance',
  transmittance: 'transmittance as a fraction',
  reflectance: 'reflectance',
  absorptionIndex: 'absorption index',
  refractiveIndex: 'refractive index',
  arbitrary: 'signal',
  unknown: 'y (unit not known)',
};

/** The shortest decimal that is read back as the same number. */
function cell(value: number, decimal: '.' | ','): string {
  if (!Number.isFinite(value)) return 'NaN';
  return decimal === ',' ? String(value).replace('.', ',') : String(value);
}

/**
 * A trace as a table of two columns under their names. Reading it back gives the same x and y to the
 * last bit. A decimal comma with a comma between the cells would mean two things: the semicolon
 * stands between them then.
 */
export function writeTable(trace: MeasuredTrace, options: TableOptions = {}): string {
  const decimal = options.decimal ?? '.';
  const wanted = options.separator ?? (decimal === ',' ? ';' : ',');
  const separator = wanted === ',' && decimal === ',' ? ';' : wanted;
  const xName = trace.technique === 'raman' ? 'Raman shift (1/cm)' : X_NAMES[trace.xUnit];
  const lines = [`${xName}${separator}${yName(trace)}`];
  for (let i = 0; i < trace.x.length; i++)
    lines.push(`${cell(trace.x[i]!, decimal)}${separator}${cell(trace.y[i]!, decimal)}`);
  lines.push('');
  return lines.join('\n');
}

const yName = ({ yUnit }: MeasuredTrace): string => Y_NAMES[yUnit];
