import { describe, expect, it } from 'vitest';
import { refusalOf, traceOf, tracesOf } from './testing.ts';

const X = [400, 404.5, 409, 413.5, 418, 1600];
const Y = [0.1, 0.25, 1.5, 0.125, 0.1, 0.05];

interface Writing {
  readonly separator: string;
  readonly decimal?: string;
  readonly head?: string;
  readonly isFalling?: boolean;
}

function table({
  separator,
  decimal = '.',
  head = 'wavenumber (cm-1)|absorbance',
  isFalling = false,
}: Writing): string {
  const written = (value: number) => String(value).replace('.', decimal);
  const rows = X.map((x, i) => `${written(x)}${separator}${written(Y[i]!)}`);
  const lines = [
    ...(head === '' ? [] : [head.replaceAll('|', separator)]),
    ...(isFalling ? rows.reverse() : rows),
  ];
  return `${lines.join('\n')}\n`;
}

const codes = (text: string) => traceOf(text).warnings.map(({ code }) => code);

describe('a table in any dialect', () => {
  it.each([
    ['commas', table({ separator: ',' })],
    ['commas and blanks', table({ separator: ' , ' })],
    ['semicolons', table({ separator: ';' })],
    ['semicolons, decimal commas', table({ separator: ';', decimal: ',' })],
    ['tabs', table({ separator: '\t' })],
    ['tabs, decimal commas', table({ separator: '\t', decimal: ',' })],
    ['blanks', table({ separator: '   ' })],
    ['blanks, decimal commas', table({ separator: '  ', decimal: ',' })],
    ['falling', table({ separator: ',', isFalling: true })],
    ['quotes', table({ separator: ',' }).replaceAll(/[^,\n]+/g, '"$&"')],
    ['a separator at the end of each line', table({ separator: ';' }).replaceAll(/$/gm, ';')],
    [
      'units on a line of their own',
      table({ separator: ',', head: 'Wavenumber|Signal\ncm-1|Abs' }),
    ],
    ['units alone', table({ separator: ',', head: 'cm-1|A' })],
    ['a preamble', `Sample 12, film\nScans: 16\n\n${table({ separator: ',' })}`],
    ['comments', `# ethanol\n# 16 scans\n${table({ separator: ',' })}`],
    ['other tongues', table({ separator: ';', head: 'Wellenzahl [cm-1]|Extinktion' })],
  ])('%s', (_, text) => {
    const trace = traceOf(text);
    expect([...trace.x]).toEqual(X);
    expect([...trace.y]).toEqual(Y);
    expect(trace).toMatchObject({
      kind: 'curve',
      technique: 'infrared',
      xUnit: '1/cm',
      yUnit: 'absorbance',
      warnings: [],
    });
  });

  it('exponents', () => {
    const trace = traceOf('4.000E+02 1.0E-01\n4.04e2 2e-1\n4.08E2 3D-1\n1.7E3 0.1\n');
    expect([...trace.x]).toEqual([400, 404, 408, 1700]);
    expect([...trace.y]).toEqual([0.1, 0.2, 0.3, 0.1]);
  });

  it('the title is the first line above, or the name of the file', () => {
    expect(traceOf(`# ethanol, film\n${table({ separator: ',' })}`).title).toBe('ethanol, film');
    expect(traceOf(table({ separator: ',' }), 'ethanol.csv').title).toBe('ethanol');
  });

  it('what stands above as label and value is kept', () => {
    const trace = traceOf(
      `Sample: ethanol\nState: liquid film\nResolution: 4 cm-1\n${table({ separator: ',' })}`,
    );
    expect(trace).toMatchObject({ state: 'liquid film', resolution_percm: 4 });
  });
});

describe('columns', () => {
  it('y before x, by the header', () => {
    const trace = traceOf('Absorbance,Wavenumbers\n0.1,600\n0.3,604\n0.2,608\n');
    expect([...trace.x]).toEqual([600, 604, 608]);
  });

  it('y before x, by the values', () => {
    const trace = traceOf('0.1,1600\n0.3,1604\n0.2,1608\n0.2,1612\n');
    expect([...trace.x]).toEqual([1600, 1604, 1608, 1612]);
    expect(trace.warnings.map(({ code }) => code)).toContain('columns-swapped');
  });

  it('a count of the rows is no axis', () => {
    const trace = traceOf('1,1600,0.1\n2,1604,0.3\n3,1608,0.2\n4,1612,0.4\n');
    expect([...trace.x]).toEqual([1600, 1604, 1608, 1612]);
    expect([...trace.y]).toEqual([0.1, 0.3, 0.2, 0.4]);
  });

  it('a column in which nothing varies is left out', () => {
    const text = 'cm-1,Background,Sample (Abs)\n600,0,0.1\n604,0,0.3\n608,0,0.2\n';
    expect([...traceOf(text).y]).toEqual([0.1, 0.3, 0.2]);
    expect(codes(text)).toEqual(['columns-left-out']);
  });

  it('several columns are several traces', () => {
    const traces = tracesOf(
      'cm-1,A first,A second\n600,0.1,0.3\n604,0.3,0.1\n608,0.2,0.5\n',
      'two.csv',
    );
    expect(traces.map(({ title }) => title)).toEqual(['two: A first', 'two: A second']);
    expect([...traces[1]!.y]).toEqual([0.3, 0.1, 0.5]);
  });

  it('an axis with a blank spectrum', () => {
    expect([...traceOf('cm-1,A\n600,0\n604,0\n608,0\n').y]).toEqual([0, 0, 0]);
  });
});

describe('units', () => {
  const dips = [0.98, 0.97, 0.5, 0.98, 0.97, 0.96];
  const light = (scale: number, unit: string) =>
    `cm-1,${unit}\n${dips.map((y, i) => `${600 + 4 * i},${y * scale}`).join('\n')}\n`;

  it.each([
    ['%T', 100, []],
    ['Transmittance', 1, []],
    ['Transmittance', 100, ['transmittance-scale']],
    ['%T', 1, ['transmittance-scale']],
  ])('%s up to %s', (unit, scale, expected) => {
    const trace = traceOf(light(scale, unit));
    expect(trace.yUnit).toBe('transmittance');
    expect(trace.y[2]).toBeCloseTo(0.5, 12);
    expect(trace.warnings.map(({ code }) => code)).toEqual(expected);
  });

  it('from the values, and said', () => {
    const rows = Array.from(
      { length: 200 },
      (_, i) => `${600 + 15 * i}\t${i % 16 === 0 ? 20 : 98 + (i % 3) / 10}`,
    );
    const trace = traceOf(`${rows.join('\n')}\n`);
    expect(trace).toMatchObject({ xUnit: '1/cm', yUnit: 'transmittance' });
    expect(trace.warnings.map(({ code }) => code)).toEqual(['units-taken', 'transmittance-scale']);
  });

  it('minutes and nothing else', () => {
    const trace = traceOf('Time (min),Signal (mV)\n0,1\n0.5,5\n1,2\n');
    expect(trace).toMatchObject({ xUnit: 'min', yUnit: 'arbitrary', warnings: [] });
  });

  it('a range that may be anything stays open', () => {
    const trace = traceOf('1,5\n2,9\n3,4\n4,6\n');
    expect(trace).toMatchObject({ xUnit: 'unknown', technique: 'unknown' });
    expect(trace.warnings.map(({ code }) => code)).toContain('units-unknown');
  });

  it('Raman is told from infrared', () => {
    expect(traceOf('Raman shift (cm-1),counts\n600,1\n604,5\n608,2\n').technique).toBe('raman');
  });
});

describe('rows that are not right', () => {
  it.each([
    ['a value is missing', 'cm-1,A\n600,0.1\n604,NaN\n608,0.2\n', ['values-missing']],
    [
      'the first values are missing',
      'cm-1,A\n600,NaN\n604,\n608,0.2\n612,0.3\n',
      ['values-missing'],
    ],
    ['one x twice', 'cm-1,A\n600,0.1\n604,0.2\n604,0.3\n608,0.2\n', ['x-repeated']],
    ['x back and forth', 'cm-1,A\n600,0.1\n608,0.2\n604,0.3\n612,0.2\n', ['x-unsorted']],
    [
      'a line of text at the end',
      'cm-1,A\n600,0.1\n604,0.2\n608,0.2\nend of data\n',
      ['rows-left-out'],
    ],
    ['the last line cut off', 'cm-1,A\n600,0.1\n604,0.2\n608,0.2\n612', ['rows-left-out']],
    [
      'another table behind it',
      'cm-1,A\n600,0.1\n604,0.2\n608,0.2\ncm-1,A\n600,0.5\n604,0.6\n',
      ['table-goes-on'],
    ],
  ])('%s', (_, text, expected) => {
    expect(codes(text)).toEqual(expected);
  });

  it.each([
    ['commas for both', '3996,00,98,93\n3992,00,98,04\n3988,00,98,96\n', 'table-unclear 1'],
    ['commas for both, x whole', '3996,0,00467\n3992,0,00462\n3988,0,00454\n', 'table-unclear 1'],
    ['one column', '1\n2\n3\n', 'file-no-data'],
    ['no axis', '3,5\n1,7\n4,2\n1,9\n5,3\n', 'table-unclear'],
    ['one row', 'cm-1,A\n600,0.1\n', 'file-no-data'],
  ])('refused: %s', (_, text, expected) => {
    expect(refusalOf(text)).toBe(expected);
  });
});
