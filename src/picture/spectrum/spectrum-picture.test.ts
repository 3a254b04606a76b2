// @vitest-environment jsdom
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { HEIGHTS } from './axis.ts';
import { curveIn } from './curve.ts';
import { layoutOf } from './layout.ts';
import { seriesOf } from './series.ts';
import { spectrumPicture } from './spectrum-picture.ts';
import type { SpectrumPictureOptions } from './spectrum-picture.ts';
import type { BandShown, SpectrumView, TraceRole } from './spectrum-view.ts';
import { TRACE_ROLES } from './spectrum-view.ts';

const X = Float64Array.from({ length: 1801 }, (_, i) => 400 + 2 * i);
const curve = (centre: number) => X.map((x) => 0.01 + Math.exp(-(((x - centre) / 15) ** 2)));

const sample = (role: TraceRole, i: number) => ({
  id: `t${i}`,
  label: `Trace ${i}`,
  role,
  x: X,
  y: curve(1700 + 20 * i),
});

const band = (position: number): BandShown => ({
  id: `b${position}`,
  position,
  height: 1,
  label: '',
});

const VIEW: SpectrumView = {
  traces: [sample('sample', 0)],
  windows: [
    { id: 'co', low: 1690, high: 1720, label: 'C=O <ketone>', verdict: 'present' },
    { id: 'oh', low: 3200, high: 3550, label: 'O–H', verdict: 'absent', selected: true },
    { id: 'nh', low: 3300, high: 3500, label: 'N–H', verdict: 'cannotTell' },
  ],
  bands: [band(1700), band(2950)],
  regions: [{ low: 2280, high: 2390, label: 'CO₂' }],
  yAxis: 'transmittance',
  range: { low: 400, high: 4000 },
};

const CAPTION = { name: 'Ketone & co', state: 'liquid film', version: 'version 4' };

const drawn = (view = VIEW, options: Partial<SpectrumPictureOptions> = {}) =>
  spectrumPicture(view, { caption: CAPTION, ...options });

function read(svg: string): Document {
  const parsed = new DOMParser().parseFromString(svg, 'image/svg+xml');
  expect(parsed.querySelector('parsererror')).toBeNull();
  return parsed;
}

const textsOf = (svg: string) =>
  [...read(svg).querySelectorAll('text')].map(({ textContent }) => textContent);

/** Where a number of the axis or of a band stands. */
const placeOf = (svg: string, text: string) =>
  Number(
    [...read(svg).querySelectorAll('text')]
      .find(({ textContent }) => textContent === text)!
      .getAttribute('x'),
  );

describe('the picture', () => {
  test('is the same text every time, well formed, and needs nothing that a policy refuses', () => {
    expect(drawn()).toBe(drawn());
    expect(drawn()).not.toContain(' style=');
    expect(drawn()).not.toContain('NaN');
    read(drawn());
  });

  test.each([320, 390, 820, 1440])('is well formed at %d px, all within its width', (width) => {
    const svg = drawn({ ...VIEW, traces: TRACE_ROLES.map(sample) }, { width });
    const places = [...read(svg).querySelectorAll('text')].map((each) =>
      Number(each.getAttribute('x')),
    );
    for (const x of places) expect(x >= 0 && x <= width).toBe(true);
  });

  test('says in words what it shows', () => {
    const parsed = read(drawn());
    expect(parsed.querySelector('title')?.textContent).toBe('Ketone & co, liquid film, version 4');
    expect(parsed.querySelector('desc')?.textContent.replaceAll('\u202f', ' ')).toBe(
      'Transmittance over wavenumber, 4000–400 cm⁻¹. Traces: Trace 0. Bands in cm⁻¹: 2950, 1700. ' +
        'C=O <ketone>, 1720–1690 cm⁻¹: seen. O–H, 3550–3200 cm⁻¹: not seen. ' +
        'N–H, 3500–3300 cm⁻¹: cannot tell. Not judged: 2390–2280 cm⁻¹, CO₂.',
    );
    expect(textsOf(drawn())).toEqual(
      expect.arrayContaining(['Ketone & co', 'liquid film · version 4', 'O–H, not seen', 'CO₂']),
    );
  });

  test('wavenumber falls to the right; between 2000 and 1000 is more room than above, and it says so', () => {
    const split = drawn();
    const [a, b, c] = ['3000', '2000', '1000'].map((text) => placeOf(split, text));
    expect(a! < b! && b! < c!).toBe(true);
    expect(c! - b!).toBeCloseTo(2 * (b! - a!), 0);
    expect(textsOf(split)).toContain('Wavenumber / cm⁻¹, scale changes at 2000');
    const even = drawn(VIEW, { scale: 'even' });
    expect(textsOf(even)).toContain('Wavenumber / cm⁻¹');
  });

  test('transmittance has its band down, absorbance up', () => {
    const spot = (view: SpectrumView) => {
      const layout = layoutOf(view, new Map(view.traces.map((each) => [each.id, seriesOf(each)])), {
        width: 900,
        height: 500,
        scale: 'even',
        decimal: '.',
      });
      return { band: layout.tips.get('b1700')!, flat: layout.tips.get('b2950')!, layout };
    };
    const down = spot(VIEW);
    expect(down.band).toBeGreaterThan(down.flat + 100);
    const up = spot({ ...VIEW, yAxis: 'absorbance' });
    expect(up.band).toBeLessThan(up.flat - 100);
  });

  test('five traces have five lines, told apart without colour, and each a name', () => {
    const traces = [...TRACE_ROLES, 'reference' as const].map(sample);
    const svg = drawn({ ...VIEW, traces }, { theme: 'print' });
    const lines = [...read(svg).querySelectorAll('g[clip-path] path')];
    const dashes = lines.map((line) => line.getAttribute('stroke-dasharray'));
    expect(dashes).toHaveLength(5);
    expect(new Set(dashes).size).toBe(5);
    expect(textsOf(svg)).toEqual(expect.arrayContaining(traces.map(({ label }) => label)));
  });

  test('bands without room for a number are counted, to the eye and in words', () => {
    const bands = Array.from({ length: 90 }, (_, i) => band(500 + 20 * i));
    const svg = drawn({ ...VIEW, bands });
    const shown = textsOf(svg).filter((text) =>
      bands.some(({ position }) => text === String(position)),
    );
    const left = Number(/(\d+) weaker bands have no label/.exec(svg)![1]);
    expect(left).toBeGreaterThan(10);
    expect(textsOf(svg)).toContain(`${left} weaker bands without a number`);
    expect(new Set(shown).size).toBeGreaterThanOrEqual(90 - left);
  });

  test('on paper there is no colour', () => {
    const colours = drawn(VIEW, { theme: 'print' }).match(/#[0-9a-f]{6}/g)!;
    for (const [, r, g, b] of colours.map((each) => /#(..)(..)(..)/.exec(each)!))
      expect(r === g && g === b).toBe(true);
  });

  test('takes the decimal sign of the laboratory', () => {
    const view: SpectrumView = { ...VIEW, yAxis: 'absorbance' };
    expect(textsOf(drawn(view, { decimal: ',' }))).toContain('0,4');
    expect(textsOf(drawn(view))).toContain('0.4');
  });

  test('two pictures on a page share no id', () => {
    const ids = (svg: string) => [...svg.matchAll(/ id="([^"]+)"/g)].map((match) => match[1]!);
    const both = [...ids(drawn(VIEW, { idPrefix: 'a' })), ...ids(drawn(VIEW, { idPrefix: 'b' }))];
    expect(new Set(both).size).toBe(both.length);
  });

  test('without a trace, or with one of no values, it is an empty plot that says so', () => {
    const empty = { ...VIEW, traces: [], windows: [], bands: [], regions: [] };
    expect(read(drawn(empty)).querySelector('desc')?.textContent).toContain('No trace. No bands.');
    const blank = { ...sample('sample', 0), y: X.map(() => Number.NaN) };
    expect(drawn({ ...VIEW, traces: [blank] })).not.toContain('NaN');
  });

  test('values that no paper could hold are drawn at its edge', () => {
    const wild = { ...sample('sample', 0), y: X.map((x) => (x === 1700 ? 1e300 : -500)) };
    const svg = drawn({ ...VIEW, traces: [wild] });
    expect(svg).not.toMatch(/NaN|Infinity/);
  });
});

describe('other axes', () => {
  const at = (
    axis: SpectrumView['axis'],
    range: SpectrumView['range'],
    position: number,
  ): SpectrumView => ({
    ...VIEW,
    ...(axis ? { axis } : {}),
    traces: [
      {
        ...sample('sample', 0),
        x: Float64Array.of(range.low, position, range.high),
        y: Float64Array.of(0, 100, 0),
      },
    ],
    windows: [],
    regions: [],
    bands: [{ ...band(position), label: '' }],
    yAxis: 'intensity',
    range,
  });

  test('a shift falls to the right and is said to the hundredth', () => {
    const svg = drawn(at('shift', { low: 0, high: 12 }, 7.26));
    expect(placeOf(svg, '10')).toBeLessThan(placeOf(svg, '2'));
    expect(textsOf(svg)).toEqual(expect.arrayContaining(['7.26', 'Chemical shift / ppm']));
  });

  test('masses are sticks from the base, and rise to the right', () => {
    const svg = drawn(at('massToCharge', { low: 10, high: 160 }, 122));
    expect(placeOf(svg, '40')).toBeLessThan(placeOf(svg, '120'));
    const stick = read(svg).querySelector('g[clip-path] path')!.getAttribute('d')!;
    expect(stick.match(/M[\d.]+ [\d.]+V[\d.]+/g)).toHaveLength(3);
  });

  test('time rises to the right', () => {
    const svg = drawn(at('time', { low: 0, high: 10 }, 4.5));
    expect(placeOf(svg, '2')).toBeLessThan(placeOf(svg, '8'));
  });
});

/** A = −log₁₀ T: IUPAC Compendium of Chemical Terminology, "absorbance" (doi:10.1351/goldbook.A00028). */
test.each([
  [0, 100],
  [1, 10],
  [2, 1],
  [Math.log10(2), 50],
])('absorbance %d is %d %% transmittance', (absorbance, percent) => {
  expect(HEIGHTS.transmittance.of(absorbance)).toBeCloseTo(percent, 10);
});

/** Beside the project; where it is not there, the checks with it are skipped and listed as such. */
const FILM = join(
  process.cwd(),
  '../shared/spectra/open/liquid-nk-cc0/polystyrene-myers_transmission.csv',
);

/**
 * Bands of a polystyrene film that pharmacopoeias check a wavenumber scale with: 2849.5, 1601.2 and
 * 1028.3 in the Russian Pharmacopoeia XIV, p. 750; the others of European Pharmacopoeia 2.2.24, from
 * memory. The spectrum is of another origin (doi:10.1177/0003702817742848): where its curve is
 * lowest in the picture, the axis under it says the published place, to one px.
 */
describe.skipIf(!existsSync(FILM))('the drawn curve of polystyrene, read against its axis', () => {
  const rows = existsSync(FILM)
    ? readFileSync(FILM, 'utf8')
        .split('\n')
        .filter((line) => /^\d/.test(line))
        .map((line) => line.split(',').map(Number))
        .sort((a, b) => a[0]! - b[0]!)
    : [];
  const film = {
    ...sample('sample', 0),
    x: Float64Array.from(rows, ([x]) => x!),
    y: Float64Array.from(rows, ([, y]) => y!),
  };

  test.each([3060, 2849.5, 1942.9, 1601.2, 1583, 1154.5, 1028.3])('%d cm⁻¹', (published) => {
    const series = seriesOf(film);
    const view = { ...VIEW, traces: [film] };
    const layout = layoutOf(view, new Map([[film.id, series]]), {
      width: 1120,
      height: 560,
      scale: 'split',
      decimal: '.',
    });
    const { plot, xOf, yOf, valueAtPx } = layout;
    const line = curveIn(series, {
      xOf,
      yOf,
      valueAt: valueAtPx,
      left: plot.left,
      width: plot.right - plot.left,
      falls: true,
    });
    let lowest = { x: 0, y: -Infinity };
    for (let i = 0; i < line.length; i += 2)
      if (Math.abs(valueAtPx(line[i]!) - published) < 8 && line[i + 1]! > lowest.y)
        lowest = { x: line[i]!, y: line[i + 1]! };
    expect(Math.abs(valueAtPx(lowest.x) - published)).toBeLessThan(2.5);
  });
});
