import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { abscissaAt } from '../read/axis.ts';
import { bytesOf } from '../read/testing.ts';
import { readInstrumentFile } from '../read/read-file.ts';
import type { MeasuredTrace } from '../trace.ts';
import { writeJcamp } from './jcamp.ts';
import { writeTable } from './table.ts';

/** Each run writes and reads a file: twenty thousand are enough for a night. */
const RUNS = Math.min(20_000, Number(process.env['FUZZ_RUNS'] ?? 300));

/** No −0, and nothing below what a double holds with all its digits: no instrument writes such. */
const noZeroBelow = (value: number) => (Math.abs(value) < 1e-300 ? 0 : value);
const anyValue = fc.double({ noNaN: true, noDefaultInfinity: true }).map(noZeroBelow);
const decimals = fc
  .tuple(fc.integer({ min: -200_000, max: 200_000 }), fc.constantFrom(1, 10, 1000, 1e5))
  .map(([a, b]) => noZeroBelow(a / b));
const missing = fc.constant(Number.NaN);
const ordinate = fc.oneof(
  { weight: 6, arbitrary: decimals },
  { weight: 3, arbitrary: anyValue },
  { weight: 1, arbitrary: missing },
);

const evenAxis = fc
  .tuple(
    fc.constantFrom(400, 399.36138, 0.5, -2),
    fc.constantFrom(1, 4, 0.964, 1.928571, 0.1),
    fc.integer({ min: 3, max: 60 }),
  )
  .map(([first, step, n]) => {
    const axis = { first, last: first + (n - 1) * step };
    return Float64Array.from({ length: n }, (_, i) => abscissaAt(axis, n, i));
  });
const unevenAxis = fc
  .uniqueArray(fc.double({ min: -1e6, max: 1e6, noNaN: true }).map(noZeroBelow), {
    minLength: 2,
    maxLength: 60,
  })
  .map((x) => Float64Array.from(x).sort());

/** Traces of every unit: a plateau now and then, so that repeats are written as such. */
const traces: fc.Arbitrary<MeasuredTrace> = fc
  .record({
    x: fc.oneof(evenAxis, unevenAxis),
    pool: fc.array(ordinate, { minLength: 60, maxLength: 60 }),
    plateau: fc.boolean(),
    yUnit: fc.constantFrom(
      'absorbance',
      'transmittance',
      'reflectance',
      'absorptionIndex',
      'arbitrary',
      'unknown',
    ),
    xUnit: fc.constantFrom('1/cm', 'um', 'nm', 'ppm', 'min', 's', 'unknown'),
    kind: fc.constantFrom('curve', 'peaks'),
  })
  .map(({ x, pool, plateau, yUnit, xUnit, kind }) => ({
    title: 'a $$ b\n## c',
    technique: xUnit === 'ppm' ? 'nmr' : xUnit === '1/cm' ? 'infrared' : 'unknown',
    kind,
    x,
    y: Float64Array.from(x, (_, i) => pool[plateau ? Math.floor(i / 7) : i]!),
    xUnit,
    yUnit,
    headers: {},
    warnings: [],
  }));

function readBack(text: string): MeasuredTrace {
  const reading = readInstrumentFile(bytesOf(text));
  if (!reading.ok) throw new Error(`${reading.problem.code}: ${reading.problem.message}\n${text}`);
  return reading.traces[0]!;
}

const same = (a: Float64Array, b: Float64Array) =>
  a.length === b.length && a.every((value, i) => Object.is(value, b[i]));

function keeps(trace: MeasuredTrace, text: string): boolean {
  const back = readBack(text);
  return same(back.x, trace.x) && same(back.y, trace.y) && back.xUnit === trace.xUnit;
}

describe('reading back what was written gives the same numbers to the last bit', () => {
  it.each([['affn'], ['difdup']] as const)('JCAMP-DX, %s', (form) => {
    fc.assert(
      fc.property(traces, (trace) => keeps(trace, writeJcamp(trace, { form }))),
      { numRuns: RUNS },
    );
  });

  it.each([
    [',', '.'],
    [';', ','],
    ['\t', '.'],
    ['\t', ','],
    [',', ','],
  ] as const)('table, %j and %j', (separator, decimal) => {
    // A table in which no two rows following each other have numbers has no beginning to be found.
    const usable = traces.filter(({ y }) => y.filter(Number.isFinite).length > y.length / 2);
    fc.assert(
      fc.property(usable, (trace) => keeps(trace, writeTable(trace, { separator, decimal }))),
      { numRuns: RUNS },
    );
  });
});

describe('what is written', () => {
  const trace: MeasuredTrace = {
    title: 'ethanol',
    technique: 'infrared',
    kind: 'curve',
    x: Float64Array.of(400, 404, 408, 412, 416),
    y: Float64Array.of(0.1, 0.2, 0.2, 0.2, 0.15),
    xUnit: '1/cm',
    yUnit: 'absorbance',
    state: 'film',
    headers: {},
    warnings: [],
  };

  it('is a standard file', () => {
    expect(writeJcamp(trace, { form: 'difdup', owner: 'nobody' })).toBe(
      [
        '##TITLE=ethanol',
        '##JCAMP-DX=4.24',
        '##DATA TYPE=INFRARED SPECTRUM',
        '##ORIGIN=',
        '##OWNER=nobody',
        '##STATE=film',
        '##XUNITS=1/CM',
        '##YUNITS=ABSORBANCE',
        '##$ORDINATE SCALE=AS WRITTEN',
        '##MAXX=416',
        '##MINX=400',
        '##MAXY=0.2',
        '##MINY=0.1',
        '##XFACTOR=1',
        '##YFACTOR=1E-2',
        '##FIRSTX=400',
        '##LASTX=416',
        '##DELTAX=4',
        '##FIRSTY=0.1',
        '##NPOINTS=5',
        '##XYDATA=(X++(Y..Y))',
        '400A0J0%Tn',
        '416A5',
        '##END=',
        '',
      ].join('\n'),
    );
  });

  it('lines have at most 80 characters', () => {
    const y = Float64Array.from(
      { length: 500 },
      (_, i) => Math.round(1e5 * Math.sin(i / 9) ** 2) / 1e5,
    );
    const x = Float64Array.from(y, (_, i) => 400 + 4 * i);
    for (const form of ['affn', 'difdup'] as const) {
      const lines = writeJcamp({ ...trace, x, y }, { form }).split('\n');
      expect(Math.max(...lines.map(({ length }) => length))).toBeLessThanOrEqual(80);
    }
  });

  it('a table names its columns', () => {
    expect(writeTable(trace, { decimal: ',' }).split('\n').slice(0, 2)).toEqual([
      'wavenumber (1/cm);absorbance',
      '400;0,1',
    ]);
  });
});
