import { describe, expect, it } from 'vitest';
import { codesOf, jcampText, readText, refusalOf, traceOf, tracesOf } from './testing.ts';

const VALUES = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1, 1.1, 1.2];
const PLACES = [400, 404, 408, 412, 416, 420, 424, 428, 432, 436, 440, 444];
const DATA = '400 10 20 30\n412 40 50 60\n424 70 80 90\n436 100 110 120\n';
const DIF = '400A0J0U\n412D0J0U\n424G0J0T\n432I0J0T\n440A10J0\n444A20\n';

describe('a whole file', () => {
  it('is read without a warning', () => {
    const trace = traceOf(jcampText());
    expect(trace).toMatchObject({
      title: 'test',
      technique: 'infrared',
      kind: 'curve',
      xUnit: '1/cm',
      yUnit: 'absorbance',
      warnings: [],
    });
    expect([...trace.x]).toEqual(PLACES);
    expect([...trace.y]).toEqual(VALUES);
  });

  it.each([
    ['differences with checks', jcampText({}, DIF)],
    [
      'falling abscissae',
      jcampText(
        { FIRSTX: '444', LASTX: '400', FIRSTY: '1.2' },
        '444 120 110 100\n432 90 80 70\n420 60 50 40\n408 30 20 10\n',
      ),
    ],
    ['line ends of a Mac', jcampText().replaceAll('\n', '\r')],
    ['line ends of Windows and a mark', `\uFEFF${jcampText().replaceAll('\n', '\r\n')}`],
    [
      'labels in other spellings',
      jcampText().replace('##DATA TYPE', '##data_type').replace('##FIRSTX', '## First-X'),
    ],
    [
      'comments behind values',
      jcampText().replace('##YFACTOR=0.01', () => '##YFACTOR=0.01 $$ 467 means 4.67'),
    ],
    [
      'comments and blank lines',
      `$$ by hand\n\n${jcampText({}, `\n${DATA.replace('\n', () => ' $$ first\n\n')}`)}`,
    ],
    ['units behind numbers', jcampText({ FIRSTX: '400 cm-1', LASTX: '444.0 cm-1' })],
    [
      'a factor of the abscissa',
      jcampText(
        { XFACTOR: '4' },
        DATA.replace(/^\d+/gm, (x) => String(Number(x) / 4)),
      ),
    ],
    ['more headers behind the data', jcampText({}, `${DATA}##$MINE=1\n`)],
    ['a label without =', jcampText({}, DATA, '##END\n')],
    [
      'data behind the form',
      jcampText({}, '', '').replace('(X++(Y..Y))\n', `(X++(Y..Y)) \n${DATA}##END=\n`),
    ],
    ['a form without its last parenthesis', jcampText({ XYDATA: '(X++(Y..Y)' })],
    [
      'pairs',
      jcampText(
        { XYDATA: '(XY..XY)' },
        `${PLACES.map((x, i) => `${x}, ${10 * (i + 1)}`).join('\n')}\n`,
      ),
    ],
    [
      'pairs on one line',
      jcampText(
        { XYDATA: '(XY..XY)' },
        `${PLACES.map((x, i) => `${x},${10 * (i + 1)}`).join(' ')}\n`,
      ),
    ],
    [
      'pairs with semicolons',
      jcampText(
        { XYDATA: '(XY..XY)' },
        `${PLACES.map((x, i) => `${x},${10 * (i + 1)}`).join('; ')}\n`,
      ),
    ],
  ])('in another writing: %s', (_, text) => {
    const trace = traceOf(text);
    expect([...trace.x]).toEqual(PLACES);
    expect([...trace.y]).toEqual(VALUES);
    expect(trace.warnings).toEqual([]);
  });

  it('keeps every header under its normal label', () => {
    const { headers } = traceOf(
      jcampText({ 'SAMPLING PROCEDURE': 'liquid film\nbetween NaCl', '$LAB BOOK': '12' }),
    );
    expect(headers).toMatchObject({
      SAMPLINGPROCEDURE: 'liquid film\nbetween NaCl',
      $LABBOOK: '12',
    });
    expect(traceOf(jcampText({ STATE: 'gas', RESOLUTION: '4.0 cm-1' }))).toMatchObject({
      state: 'gas',
      resolution_percm: 4,
    });
  });

  it('a missing ordinate keeps its place', () => {
    const trace = traceOf(jcampText({}, DATA.replace('20', '?')));
    expect(trace.y[1]).toBeNaN();
    expect(trace.y[2]).toBe(0.3);
    expect(trace.warnings.map(({ code }) => code)).toEqual(['values-missing']);
  });
});

describe('read, and said', () => {
  it.each([
    ['no end', jcampText({}, DATA, ''), ['file-no-end']],
    ['no end behind a check', jcampText({}, DIF.trimEnd(), ''), ['file-no-end']],
    ['NPOINTS alone is wrong', jcampText({ NPOINTS: '15', DELTAX: '4' }), ['file-points-header']],
    ['NPOINTS is missing', jcampText({ NPOINTS: undefined }), ['file-points-header']],
    ['DELTAX alone is wrong', jcampText({ DELTAX: '3.857' }), ['file-deltax']],
    ['LASTX one point on', jcampText({ LASTX: '448', DELTAX: '4' }), ['file-lastx']],
    ['FIRSTY of another scale', jcampText({ FIRSTY: '0.5' }), ['file-first-ordinate']],
    ['FIRSTY before the factor', jcampText({ FIRSTY: '10' }), ['file-first-ordinate']],
    ['MAXY of another scale', jcampText({ MAXY: '120' }), ['file-range-header']],
    ['MINX elsewhere', jcampText({ MINX: '300' }), ['file-range-header']],
    [
      'lines a little beside',
      jcampText({}, DATA.replace('412 ', '412.8 ')),
      ['file-abscissa-rough'],
    ],
    ['lines without the factor', jcampText({ XFACTOR: '4' }), ['file-abscissa-factor']],
    ['decimal commas', jcampText({ YFACTOR: '0,01' }), ['file-decimal-comma']],
    ['stray characters', `xx${jcampText()}`, ['file-stray-text']],
  ])('%s', (_, text, codes) => {
    expect(codesOf(text)).toEqual(codes);
    expect([...traceOf(text).x]).toEqual(PLACES);
  });

  it.each([
    ['MAXY rounded', { MAXY: '1.2' }],
    ['DELTAX rounded', { DELTAX: '4.0' }],
    ['MAXX rounded', { MAXX: '444.2' }],
    ['FIRSTY rounded', { FIRSTY: '.10' }],
  ])('rounding is not worth a word: %s', (_, changed) => {
    expect(codesOf(jcampText(changed))).toEqual([]);
  });
});

describe('refused, with the line', () => {
  const short = DATA.replace('436 100 110 120\n', '');
  it.each([
    ['cut off between lines', jcampText({}, short, ''), 'file-cut-off 15'],
    ['cut off in a number', jcampText({}, DATA.slice(0, -2), ''), 'file-cut-off 16'],
    ['cut off in a check', jcampText({}, DIF.slice(0, -2), ''), 'file-cut-off 18'],
    ['cut off in the headers', jcampText().slice(0, 120), 'file-no-data 1'],
    ['fewer points than said', jcampText({}, short), 'file-points-differ 15'],
    [
      'a line in the middle is missing',
      jcampText({}, DATA.replace('412 40 50 60\n', '')),
      'file-points-differ 15',
    ],
    [
      'a value in a line is missing',
      jcampText({ NPOINTS: '11' }, DATA.replace(' 50', '')),
      'file-abscissa-fails 15',
    ],
    ['an abscissa is wrong', jcampText({}, DATA.replace('424', '464')), 'file-abscissa-fails 15'],
    ['LASTX would stretch the axis', jcampText({ LASTX: '4440' }), 'file-abscissa-fails 14'],
    ['FIRSTX would shift the axis', jcampText({ FIRSTX: '404' }), 'file-abscissa-fails 13'],
    ['a check ordinate fails', jcampText({}, DIF.replace('G0', 'G1')), 'file-check-fails 15'],
    ['FIRSTX is missing', jcampText({ FIRSTX: undefined }), 'file-header-missing 11'],
    ['LASTX is missing', jcampText({ LASTX: undefined }), 'file-header-missing 11'],
    ['LASTX is no number', jcampText({ LASTX: 'end' }), 'file-header-missing 12'],
    ['the label of the data is missing', jcampText({ XYDATA: undefined }), 'file-no-data 1'],
    ['no data', jcampText({ NPOINTS: '0' }, ''), 'file-no-data 12'],
    ['a strange letter', jcampText({}, DATA.replace('50', '5x')), 'file-unreadable 14'],
    [
      'one line, and DELTAX against it',
      jcampText({ NPOINTS: '3', DELTAX: '4' }, '400 10 20 30\n'),
      'file-abscissa-fails 13',
    ],
    ['an interferogram', jcampText({ 'DATA TYPE': 'INFRARED INTERFEROGRAM' }), 'file-no-data 12'],
    ['too many points', jcampText({}, '400 10S99999999\n'), 'file-too-many 13'],
    [
      'pairs that lost one',
      jcampText({ XYDATA: '(XY..XY)' }, '400,1 404,2 408\n'),
      'file-unreadable 14',
    ],
    [
      'pairs cut off',
      jcampText({ XYDATA: '(XY..XY)' }, '400,1\n404,2\n408,3\n', ''),
      'file-cut-off 12',
    ],
  ])('%s', (_, text, refusal) => {
    expect(refusalOf(text)).toBe(refusal);
  });
});

describe('several blocks', () => {
  const link = (blocks: number, ...inner: string[]) =>
    `##TITLE=both\n##DATA TYPE=LINK\n##BLOCKS=${blocks}\n${inner.join('')}##END=\n`;

  it('a compound file gives each of its traces', () => {
    const traces = tracesOf(link(2, jcampText({ TITLE: 'a' }), jcampText({ TITLE: 'b' })));
    expect(traces.map(({ title, warnings }) => [title, warnings])).toEqual([
      ['a', []],
      ['b', []],
    ]);
  });

  it('compound files stand in compound files', () => {
    expect(tracesOf(link(1, link(1, jcampText()))).length).toBe(1);
  });

  it('a wrong number of blocks is said', () => {
    expect(codesOf(link(16, jcampText()))).toEqual(['file-blocks']);
  });

  it('files one behind another are all read, and it is said', () => {
    const traces = tracesOf(jcampText({ TITLE: 'a' }) + jcampText({ TITLE: 'b' }));
    expect(traces.map(({ title }) => title)).toEqual(['a', 'b']);
    expect(traces[1]?.warnings.map(({ code }) => code)).toEqual(['file-blocks']);
  });

  it('a block that cannot be read is named in those that can', () => {
    const [trace] = tracesOf(link(2, jcampText(), jcampText({ LASTX: '4440' })));
    expect(trace?.warnings).toMatchObject([{ code: 'file-part-left-out', at: { line: 34 } }]);
  });

  it('a structure beside the spectrum is passed over', () => {
    const structure = '##TITLE=s\n##JCAMP-CS=3.7\n##ATOMLIST=\n1 C\n2 O\n##END=\n';
    expect(tracesOf(link(2, structure, jcampText())).length).toBe(1);
  });
});

describe('peaks', () => {
  const peaks = (label: string, data: string, changed = {}) =>
    jcampText(
      {
        XYDATA: undefined,
        NPOINTS: undefined,
        FIRSTX: undefined,
        LASTX: undefined,
        FIRSTY: undefined,
        YFACTOR: '1',
        ...changed,
      },
      `##${label}\n${data}`,
    );

  it('a table of peaks', () => {
    const trace = traceOf(peaks('PEAK TABLE=(XY..XY)', '3340,0.8 2976,0.9\n1052,1.2\n'));
    expect(trace.kind).toBe('peaks');
    expect([...trace.x]).toEqual([1052, 2976, 3340]);
    expect([...trace.y]).toEqual([1.2, 0.9, 0.8]);
  });

  it('a table of peaks with widths', () => {
    const trace = traceOf(peaks('PEAK TABLE=(XYW..XYW)', '3340,0.8,120 2976,0.9,20\n'));
    expect([...trace.y]).toEqual([0.9, 0.8]);
  });

  it('assignments: multiplicity and atoms are let be', () => {
    const text = peaks('PEAK ASSIGNMENTS=(XYMA)', '(1.24,1.00,T,<5>)\n(3.73, ,Q,<7, 8>) $$ CH2\n', {
      'DATA TYPE': 'NMR PEAK ASSIGNMENTS',
      XUNITS: 'PPM',
    });
    const trace = traceOf(text);
    expect(trace).toMatchObject({ kind: 'peaks', technique: 'nmr', xUnit: 'ppm' });
    expect([...trace.x]).toEqual([1.24, 3.73]);
    expect([...trace.y]).toEqual([1, Number.NaN]);
  });

  it('a whole curve called a table of peaks is a curve', () => {
    const data = Array.from({ length: 200 }, (_, i) => `${600 + 3.857 * i} ${0.1 + i / 1000}`).join(
      '\n',
    );
    const trace = traceOf(peaks('PEAK TABLE=(XY..XY)', `${data}\n`));
    expect(trace.kind).toBe('curve');
    expect(trace.warnings.map(({ code }) => code)).toEqual(['peaks-are-curve']);
  });

  it('a peak at every whole mass stays a table of peaks', () => {
    const data = Array.from({ length: 200 }, (_, i) => `${20 + i},${i % 7}`).join(' ');
    expect(
      traceOf(
        peaks('PEAK TABLE=(XY..XY)', `${data}\n`, { 'DATA TYPE': 'MASS SPECTRUM', XUNITS: 'M/Z' }),
      ).kind,
    ).toBe('peaks');
  });
});

describe('pages of complex data', () => {
  const pages = (data: string) => `##TITLE=t
##JCAMP-DX=5.01
##DATA TYPE=NMR SPECTRUM
##.OBSERVE FREQUENCY=100
##$OFFSET=9
##NTUPLES=NMR SPECTRUM
##VAR_NAME=FREQUENCY, SPECTRUM/REAL, SPECTRUM/IMAG, PAGE NUMBER
##SYMBOL=X, R, I, N
##VAR_DIM=4, 4, 4, 2
##UNITS=HZ, ARBITRARY UNITS, ARBITRARY UNITS,
##FACTOR=100, 2, 2, 1
##FIRST=300, 2, 10, 1
##LAST=0, 8, 40, 2
##PAGE=N=1
##DATA TABLE=(X++(R..R)), XYDATA
${data}##PAGE=N=2
##DATA TABLE=(X++(I..I)), XYDATA
3 5 10 15 20
##END NTUPLES=NMR SPECTRUM
##END=
`;

  it('the real page alone, in ppm: δ = 9 − (300 − ν)/100', () => {
    const trace = traceOf(pages('3 1 2\n1 3 4\n'));
    expect(trace).toMatchObject({
      technique: 'nmr',
      xUnit: 'ppm',
      frequency_MHz: 100,
      warnings: [],
    });
    expect([...trace.x]).toEqual([6, 7, 8, 9]);
    expect([...trace.y]).toEqual([8, 6, 4, 2]);
  });

  it('a page is checked as a file is', () => {
    expect(refusalOf(pages('3 1 2\n1 3\n'))).toMatch(/^file-points-differ/);
  });
});

describe('pages of mass spectra', () => {
  const scans = (first: string) => `##TITLE=t
##JCAMP-DX=5.01
##DATA TYPE=MASS SPECTRUM
##NTUPLES=MASS SPECTRUM
##VAR_NAME=MASS, INTENSITY, RETENTION TIME
##SYMBOL=X, Y, T
##VAR_DIM=3, 3, 2
##UNITS=M/Z, RELATIVE ABUNDANCE, SECONDS
##FACTOR=1, 1, 1
##PAGE=T=10
##NPOINTS=2
##DATA TABLE=(XY..XY), PEAKS
${first}
##PAGE=T=20
##NPOINTS=3
##DATA TABLE=(XY..XY), PEAKS
43,100 58,30 71,5
##END NTUPLES=MASS SPECTRUM
##END=
`;

  it('each page is a table of peaks with its own number of points', () => {
    const traces = tracesOf(scans('43,100 58,25'));
    expect(traces.map(({ title, kind, xUnit, x }) => [title, kind, xUnit, x.length])).toEqual([
      ['t (T=10)', 'peaks', 'm/z', 2],
      ['t (T=20)', 'peaks', 'm/z', 3],
    ]);
    expect(traces.flatMap(({ warnings }) => warnings)).toEqual([]);
  });

  it('a page that lost a peak is left out, and it is said', () => {
    const [trace] = tracesOf(scans('43,100'));
    expect(trace?.warnings.map(({ code }) => code)).toEqual(['file-part-left-out']);
  });
});

describe('chemical shifts', () => {
  const nmr = (changed: Record<string, string>) =>
    traceOf(
      jcampText({
        'DATA TYPE': 'NMR SPECTRUM',
        XUNITS: 'HZ',
        YUNITS: 'ARBITRARY UNITS',
        ...changed,
      }),
    );
  const ends = ({ x }: { readonly x: Float64Array }) => [x[0], x.at(-1)];

  it.each([
    [
      'of a reference by its point',
      { '.OBSERVE FREQUENCY': '4', '.SHIFT REFERENCE': 'INTERNAL, TMS, 1, 0' },
      [0, 11],
      [],
    ],
    [
      'of a reference at the end',
      { '.OBSERVE FREQUENCY': '4', '.SHIFT REFERENCE': 'INTERNAL, ,12, -1' },
      [-12, -1],
      [],
    ],
    ['of an offset', { '.OBSERVE FREQUENCY': '5', $SF: '4', $OFFSET: '10' }, [-1, 10], []],
    ['of the zero of the file', { '.OBSERVE FREQUENCY': '4' }, [100, 111], ['shift-reference']],
    [
      'of two that differ',
      { '.OBSERVE FREQUENCY': '4', $OFFSET: '10', '.SHIFT REFERENCE': 'INTERNAL, TMS, 1, 0' },
      [0, 11],
      ['shift-reference'],
    ],
    ['without a frequency', {}, [400, 444], ['shift-reference']],
  ] as const)('%s', (_, changed, expected, codes) => {
    const trace = nmr(changed);
    expect(ends(trace)).toEqual(expected);
    expect(trace.warnings.map(({ code }) => code)).toEqual(codes);
  });

  it('a signal in time is read and said not to be a spectrum', () => {
    const trace = nmr({ 'DATA TYPE': 'NMR FID', XUNITS: 'SECONDS' });
    expect(trace).toMatchObject({ xUnit: 's', warnings: [{ code: 'time-signal' }] });
  });
});

describe('units and scales', () => {
  it.each([
    ['1/CM', '1/cm'],
    ['cm-1', '1/cm'],
    ['CM^-1', '1/cm'],
    ['Wavenumber', '1/cm'],
    ['WAVENUMBERS (1/CM)', '1/cm'],
    ['MICROMETERS', 'um'],
    ['microns', 'um'],
    ['µm', 'um'],
    ['NANOMETERS', 'nm'],
    ['PPM', 'ppm'],
    ['HZ', 'Hz'],
    ['M/Z', 'm/z'],
    ['SECONDS', 's'],
    ['MINUTES', 'min'],
    ['MILLISECONDS', 'unknown'],
    ['ARBITRARY', 'unknown'],
  ])('%s is %s', (written, unit) => {
    expect(traceOf(jcampText({ XUNITS: written })).xUnit).toBe(unit);
  });

  it.each([
    ['ABSORBANCE', 'absorbance'],
    ['Abs', 'absorbance'],
    ['REFLECTANCE', 'reflectance'],
    ['absorption index', 'absorptionIndex'],
    ['dispersion index', 'refractiveIndex'],
    ['Kubelka-Munk', 'reflectance'],
    ['ARBITRARY UNITS', 'arbitrary'],
    ['RELATIVE ABUNDANCE', 'arbitrary'],
    ['', 'unknown'],
  ])('%s is %s', (written, unit) => {
    expect(traceOf(jcampText({ YUNITS: written })).yUnit).toBe(unit);
  });

  it.each([
    ['RAMAN SPECTRUM', 'raman'],
    ['NMR SPECTRUM', 'nmr'],
    ['MASS SPECTRUM', 'mass'],
    ['GAS CHROMATOGRAM', 'chromatogram'],
    ['UV/VIS SPECTRUM', 'ultraviolet'],
    ['IR', 'infrared'],
    ['', 'infrared'],
  ])('DATA TYPE %s is %s', (written, technique) => {
    expect(
      traceOf(
        jcampText({ 'DATA TYPE': written, XUNITS: written.startsWith('MASS') ? 'M/Z' : '1/CM' }),
      ).technique,
    ).toBe(technique);
  });

  const dips = (scale: number) =>
    `400 ${[0.98, 0.97, 0.98].map((v) => v * scale).join(' ')}\n412 ${[0.97, 0.5, 0.1].map((v) => v * scale).join(' ')}\n424 ${[0.6, 0.97, 0.98].map((v) => v * scale).join(' ')}\n436 ${[0.97, 0.98, 0.98].map((v) => v * scale).join(' ')}\n`;
  const light = (unit: string, scale: number) =>
    traceOf(jcampText({ YUNITS: unit, YFACTOR: '1', FIRSTY: undefined }, dips(scale)));

  it.each([
    ['TRANSMITTANCE', 1, []],
    ['TRANSMITTANCE', 100, ['transmittance-scale']],
    ['%T', 100, []],
    ['Percent Transmittance', 1, ['transmittance-scale']],
    ['%T', 3, []],
    ['TRANSMITTANCE', 3, ['transmittance-scale']],
  ])('%s of values up to %s', (unit, scale, codes) => {
    const trace = light(unit, scale);
    expect(trace.yUnit).toBe('transmittance');
    expect(trace.warnings.map(({ code }) => code)).toEqual(codes);
    if (scale !== 3) expect(trace.y[0]).toBeCloseTo(0.98, 12);
  });

  it('transmittance whose bands rise from zero is doubted', () => {
    const data = '400 0 0 0\n412 1 2 60\n424 10 0 0\n436 0 0 0\n';
    expect(codesOf(jcampText({ YUNITS: 'TRANSMITTANCE', FIRSTY: '0' }, data))).toEqual([
      'ordinate-doubt',
    ]);
  });

  it('absorbance of a hundred is no absorbance', () => {
    const trace = light('ABSORBANCE', 100);
    expect(trace).toMatchObject({ yUnit: 'unknown', warnings: [{ code: 'ordinate-doubt' }] });
  });
});

it('a title that nobody gave is empty', () => {
  expect(readText('##JCAMP-DX=4.24\n').ok).toBe(false);
  expect(traceOf(jcampText({ TITLE: '' })).title).toBe('');
});
