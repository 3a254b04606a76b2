import { abscissaAt, type Axis } from '../read/axis.ts';
import { extentOf } from '../read/ordinate-check.ts';
import type { MeasuredTrace, TraceTechnique, XUnit, YUnit } from '../trace.ts';
import { decimalText, gridOf, type Grid } from './printed.ts';
import { difdupLines } from './squeezed.ts';

export interface JcampOptions {
  /** `difdup` where the values stand on a decimal grid; they are written plainly where they do not. */
  readonly form?: 'affn' | 'difdup';
  readonly origin?: string;
  readonly owner?: string;
}

const DATA_TYPES: Record<TraceTechnique, string> = {
  infrared: 'INFRARED SPECTRUM',
  raman: 'RAMAN SPECTRUM',
  nmr: 'NMR SPECTRUM',
  mass: 'MASS SPECTRUM',
  chromatogram: 'CHROMATOGRAM',
  ultraviolet: 'UV/VIS SPECTRUM',
  unknown: 'UNKNOWN',
};

const X_UNITS: Record<XUnit, string> = {
  '1/cm': '1/CM',
  um: 'MICROMETERS',
  nm: 'NANOMETERS',
  ppm: 'PPM',
  Hz: 'HZ',
  'm/z': 'M/Z',
  s: 'SECONDS',
  min: 'MINUTES',
  unknown: '',
};

const Y_UNITS: Record<YUnit, string> = {
  absorbance: 'ABSORBANCE',
  transmittance: 'TRANSMITTANCE',
  reflectance: 'REFLECTANCE',
  absorptionIndex: 'ABSORPTION INDEX',
  refractiveIndex: 'REFRACTIVE INDEX',
  arbitrary: 'ARBITRARY UNITS',
  unknown: '',
};

/** A header is one line of plain text; what would begin a comment or a label is taken apart. */
function headerText(value: string): string {
  return value
    .replaceAll(/[\r\n]+/g, ' ')
    .replaceAll('$$', '$ $')
    .replaceAll('##', '# #')
    .trim();
}

/** The direction in which first + i·(last − first)/(n − 1) gives every x again, if any does. */
function evenAxis(
  x: Float64Array,
): { readonly axis: Axis; readonly isReversed: boolean } | undefined {
  const n = x.length;
  if (n < 3) return undefined;
  const [least, greatest] = [x[0]!, x.at(-1)!];
  for (const isReversed of [false, true]) {
    const axis = isReversed ? { first: greatest, last: least } : { first: least, last: greatest };
    const fits = (value: number, i: number) =>
      abscissaAt(axis, n, isReversed ? n - 1 - i : i) === value;
    if (x.every(fits)) return { axis, isReversed };
  }
  return undefined;
}

/** Enough decimals that no line can be taken for that of another point. */
function abscissaPrinter(axis: Axis, n: number): (index: number) => string {
  const spacing = Math.abs(axis.last - axis.first) / (n - 1);
  const decimals = Math.min(15, Math.max(0, Math.ceil(-Math.log10(spacing)) + 2));
  return (index) => {
    const value = abscissaAt(axis, n, index);
    const short = value.toFixed(decimals);
    return Number(short) === value || Math.abs(value) < 1e6 ? shortened(short) : String(value);
  };
}

const shortened = (fixed: string): string =>
  fixed.includes('.') ? fixed.replace(/0+$/, '').replace(/\.$/, '') : fixed;

/** A line of a standard file has at most 80 characters. */
const WIDTH = 78;

/** Values on lines that begin with their abscissa. */
function plainLines(values: readonly string[], abscissaText: (index: number) => string): string[] {
  const lines: string[] = [];
  let line = '';
  values.forEach((value, i) => {
    if (line !== '' && line.length + 1 + value.length <= WIDTH) line += ` ${value}`;
    else {
      if (line !== '') lines.push(line);
      line = `${abscissaText(i)} ${value}`;
    }
  });
  return [...lines, line];
}

function pairLines({ x, y }: MeasuredTrace): string[] {
  return Array.from(x, (value, i) => `${decimalText(value)}, ${decimalText(y[i]!)}`);
}

type Header = readonly [label: string, value: string];

interface Table {
  readonly headers: readonly Header[];
  readonly lines: readonly string[];
}

function pairTable(trace: MeasuredTrace): Table {
  const label = trace.kind === 'peaks' ? 'PEAK TABLE' : 'XYPOINTS';
  const { x, y } = trace;
  const headers: Header[] = [
    ['XFACTOR', '1'],
    ['YFACTOR', '1'],
    ['FIRSTX', decimalText(x[0] ?? Number.NaN)],
    ['LASTX', decimalText(x.at(-1) ?? Number.NaN)],
    ['FIRSTY', decimalText(y[0] ?? Number.NaN)],
    ['NPOINTS', String(x.length)],
    [label, '(XY..XY)'],
  ];
  return { headers, lines: pairLines(trace) };
}

function integerTexts({ integers }: Grid): string[] {
  return Array.from(integers, decimalText);
}

function evenTable(y: Float64Array, axis: Axis, form: NonNullable<JcampOptions['form']>): Table {
  const n = y.length;
  const grid = gridOf(y);
  const abscissaText = abscissaPrinter(axis, n);
  const texts = grid === undefined ? Array.from(y, decimalText) : integerTexts(grid);
  const lines =
    grid !== undefined && form === 'difdup'
      ? difdupLines(grid.integers, abscissaText)
      : plainLines(texts, abscissaText);
  const headers: Header[] = [
    ['XFACTOR', '1'],
    ['YFACTOR', grid === undefined || grid.decimals === 0 ? '1' : `1E-${grid.decimals}`],
    ['FIRSTX', decimalText(axis.first)],
    ['LASTX', decimalText(axis.last)],
    ['DELTAX', decimalText((axis.last - axis.first) / (n - 1))],
    ['FIRSTY', decimalText(y[0]!)],
    ['NPOINTS', String(n)],
    ['XYDATA', '(X++(Y..Y))'],
  ];
  return { headers, lines };
}

function limits({ x, y }: MeasuredTrace): Header[] {
  const { min, max } = extentOf(y);
  const known: readonly (readonly [string, number])[] = [
    ['MAXX', x.at(-1) ?? Number.NaN],
    ['MINX', x[0] ?? Number.NaN],
    ['MAXY', max],
    ['MINY', min],
  ];
  return known.filter(([, value]) => Number.isFinite(value)).map(([l, v]) => [l, decimalText(v)]);
}

function describing(trace: MeasuredTrace, options: JcampOptions): Header[] {
  const { headers, technique, kind, state, resolution_percm, frequency_MHz } = trace;
  const isNew = technique === 'nmr' || technique === 'mass';
  const said = (label: string, value: string | undefined): Header[] =>
    value === undefined || value === '' ? [] : [[label, headerText(value)]];
  return [
    ['TITLE', headerText(trace.title)],
    ['JCAMP-DX', isNew ? '5.01' : '4.24'],
    ['DATA TYPE', DATA_TYPES[technique]],
    ...(isNew ? [['DATA CLASS', kind === 'peaks' ? 'PEAK TABLE' : 'XYDATA'] as const] : []),
    ['ORIGIN', headerText(options.origin ?? headers['ORIGIN'] ?? '')],
    ['OWNER', headerText(options.owner ?? headers['OWNER'] ?? '')],
    ...said('STATE', state),
    ...said('RESOLUTION', resolution_percm === undefined ? undefined : String(resolution_percm)),
    ...said('.OBSERVE FREQUENCY', frequency_MHz === undefined ? undefined : String(frequency_MHz)),
    ...said('.OBSERVE NUCLEUS', headers['.OBSERVENUCLEUS']),
    ['XUNITS', X_UNITS[trace.xUnit]],
    ['YUNITS', Y_UNITS[trace.yUnit]],
    // Whether 3 is a fraction of light or a percentage need not be guessed when it is read again.
    ['$ORDINATE SCALE', 'AS WRITTEN'],
  ];
}

/**
 * A trace as JCAMP-DX: 4.24, or 5.01 for NMR and mass spectra. Even traces are written as
 * (X++(Y..Y)), others as pairs. Reading it back gives the same x and y to the last bit: values stand
 * as integers with YFACTOR a power of ten where that is exact, else as their shortest decimals.
 * A value that is not finite is written as missing.
 */
export function writeJcamp(trace: MeasuredTrace, options: JcampOptions = {}): string {
  const even = trace.kind === 'curve' ? evenAxis(trace.x) : undefined;
  const { headers, lines } =
    even === undefined
      ? pairTable(trace)
      : evenTable(
          even.isReversed ? trace.y.toReversed() : trace.y,
          even.axis,
          options.form ?? 'affn',
        );
  const all = [...describing(trace, options), ...limits(trace), ...headers];
  return [...all.map(([label, value]) => `##${label}=${value}`), ...lines, '##END=', ''].join('\n');
}
