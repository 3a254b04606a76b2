import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SampleState } from './infrared.ts';
import { infraredOf } from './to-infrared.ts';
import { gapsOf } from './treat/grid.ts';
import { positionUAt } from './treat/position.ts';
import { stateIn } from './treat/sample-state.ts';
import { bandsAt, evenly, noisy, randomBands, traceOf } from './treat/testing/curves.ts';
import type { MeasuredTrace } from './trace.ts';

const x = evenly(600, 4000, 4);
const y = bandsAt(x, [
  { position: 1715, width: 25, height: 0.9 },
  { position: 2940, width: 40, height: 0.7 },
  { position: 1220, width: 30, height: 0.4 },
]).map((each) => each + 0.02);
const transmittance = y.map((each) => 10 ** -each);

function taken(trace: MeasuredTrace) {
  const got = infraredOf(trace);
  if (!got.ok) throw new Error(got.problem.message);
  return got;
}
const codes = (trace: MeasuredTrace): string[] => taken(trace).diagnostics.map(({ code }) => code);

describe('what is no infrared absorption spectrum', () => {
  const narrow = evenly(1700, 1800, 4);
  const CASES: readonly (readonly [string, MeasuredTrace, string])[] = [
    ['NMR', traceOf(x, y, { technique: 'nmr', xUnit: 'ppm' }), 'spectrum-not-infrared'],
    ['Raman', traceOf(x, y, { technique: 'raman' }), 'spectrum-not-infrared'],
    ['mass', traceOf(x, y, { technique: 'mass', xUnit: 'm/z' }), 'spectrum-not-infrared'],
    ['a list of peaks', traceOf(x, y, { kind: 'peaks' }), 'spectrum-peaks-only'],
    ['reflectance', traceOf(x, y, { yUnit: 'reflectance' }), 'spectrum-quantity-refused'],
    ['refractive index', traceOf(x, y, { yUnit: 'refractiveIndex' }), 'spectrum-quantity-refused'],
    [
      'a hump without a unit',
      traceOf(
        x,
        x.map((each) => Math.exp(-(((each - 2200) / 900) ** 2))),
        { yUnit: 'arbitrary' },
      ),
      'spectrum-quantity-refused',
    ],
    [
      'the near infrared',
      traceOf(evenly(4600, 9000, 4), new Float64Array(1101)),
      'spectrum-out-of-range',
    ],
    ['ppm', traceOf(x, y, { technique: 'unknown', xUnit: 'ppm' }), 'spectrum-axis-unknown'],
    [
      'an axis of 0 to 1',
      traceOf(
        x.map((each) => each / 4000),
        y,
        { xUnit: 'unknown' },
      ),
      'spectrum-axis-unknown',
    ],
    ['26 points', traceOf(narrow, narrow), 'spectrum-too-few-points'],
    ['no points', traceOf(new Float64Array(0), new Float64Array(0)), 'spectrum-out-of-range'],
  ];
  it.each(CASES)('%s', (_what, trace, code) => {
    const got = infraredOf(trace);
    expect(got.ok).toBe(false);
    if (!got.ok) {
      expect(got.problem).toMatchObject({ code, severity: 'error' });
      expect(got.problem.hint).toBeTruthy();
    }
  });
});

describe('the vertical axis', () => {
  it('absorbance as it is', () => {
    expect(taken(traceOf(x, y)).spectrum).toMatchObject({
      absorbance: y,
      recordedAs: 'absorbance',
    });
    expect(codes(traceOf(x, y))).toEqual([]);
  });
  it('transmittance, as a fraction or in percent', () => {
    for (const scale of [1, 100]) {
      const trace = traceOf(
        x,
        transmittance.map((each) => scale * each),
        { yUnit: 'transmittance' },
      );
      const { spectrum, diagnostics } = taken(trace);
      spectrum.absorbance.forEach((each, i) => expect(each).toBeCloseTo(y[i]!, 9));
      expect(spectrum.recordedAs).toBe('transmittance');
      expect(diagnostics).toEqual([]);
    }
  });
  it('no light at all is held at A = 3', () => {
    const dark = transmittance.map((each, i) => (i === 300 ? -0.01 : each));
    expect(taken(traceOf(x, dark, { yUnit: 'transmittance' })).spectrum.absorbance[300]).toBe(3);
  });
  it('an absorption index as a film', () => {
    const got = taken(
      traceOf(
        x,
        y.map((each) => each / 10),
        { yUnit: 'absorptionIndex' },
      ),
    );
    // 4π · 0.1 · 1716 cm⁻¹ · 5 · 10⁻⁴ cm / ln 10, times the absorbance there
    const at = x.indexOf(1716);
    expect(got.spectrum.absorbance[at]).toBeCloseTo(0.46825 * y[at]!, 3);
    expect(got.diagnostics.map(({ code }) => code)).toEqual(['spectrum-film-assumed']);
  });
  it.each([
    ['absorbance', transmittance, 'transmittance'],
    ['absorbance', transmittance.map((each) => 100 * each), 'transmittance'],
    ['transmittance', y, 'absorbance'],
  ] as const)('labelled %s, upside down', (yUnit, values, seems) => {
    const { spectrum, diagnostics } = taken(traceOf(x, noisy(values, 1e-4, 2), { yUnit }));
    expect(spectrum.recordedAs).toBe(seems);
    expect(diagnostics.map(({ code }) => code)).toEqual(['spectrum-upside-down']);
    expect(spectrum.absorbance[x.indexOf(1716)]).toBeCloseTo(0.92, 1);
  });
  it('what is labelled rightly is never turned, however weak, strong, noisy or tilted', () => {
    const fine = evenly(400, 4000, 2);
    for (let seed = 1; seed <= 25; seed++)
      for (const strength of [0.03, 0.3, 1, 3, 10, 30]) {
        const { bands } = randomBands(seed);
        const usual = bands.filter(
          ({ position: p }) => p < 1800 || (p > 2800 && p < 3100) || p > 3300,
        );
        const scatter = seed % 2 === 0 ? 0.4 : 0;
        const clean = bandsAt(fine, usual).map(
          (each, i) => strength * each + scatter * (fine[i]! / 4000) ** 2,
        );
        const dark = noisy(
          clean.map((each) => 10 ** -each),
          0.003,
          seed,
        );
        const asAbsorbance = taken(traceOf(fine, noisy(clean, 0.001, seed)));
        expect(asAbsorbance.spectrum.recordedAs).toBe('absorbance');
        const asTransmittance = taken(traceOf(fine, dark, { yUnit: 'transmittance' }));
        expect(asTransmittance.spectrum.recordedAs).toBe('transmittance');
      }
  });
  it('bands that point down in absorbance are told, not turned', () => {
    const inverted = y.map((each) => -each);
    expect(codes(traceOf(x, inverted))).toEqual(['spectrum-bands-inverted']);
  });
  it.each([
    ['absorbance', y],
    ['transmittance', transmittance],
  ] as const)('without a unit it is taken by its look: %s', (seems, values) => {
    const { spectrum, diagnostics } = taken(traceOf(x, values, { yUnit: 'unknown' }));
    expect(spectrum.recordedAs).toBe(seems);
    expect(diagnostics.map(({ code }) => code)).toEqual(['spectrum-units-guessed']);
  });
});

describe('the horizontal axis', () => {
  it('micrometres become wavenumbers, and positions less sure towards 4000', () => {
    const wavelength = evenly(2.5, 16, 0.02);
    const values = bandsAt(
      wavelength.map((each) => 1e4 / each),
      [{ position: 1715, width: 25, height: 0.9 }],
    );
    const { spectrum } = taken(traceOf(wavelength, values, { xUnit: 'um' }));
    const { wavenumber_percm } = spectrum;
    expect(wavenumber_percm[0]).toBeCloseTo(625, 6);
    expect(wavenumber_percm.at(-1)).toBeCloseTo(4000, 6);
    expect(positionUAt(spectrum, 3400)).toBeGreaterThan(2.5 * positionUAt(spectrum, 1715));
    expect(positionUAt(spectrum, 2000)).toBeCloseTo(spectrum.positionU_percm, 9);
  });
  it('a record that was linear in wavelength is known as such', () => {
    const inWavenumbers = evenly(2.5, 16, 0.02)
      .map((each) => 1e4 / each)
      .reverse();
    const values = bandsAt(inWavenumbers, [{ position: 1715, width: 25, height: 0.9 }]);
    expect(taken(traceOf(inWavenumbers, values)).spectrum.wavelengthU_um).toBeGreaterThan(0.009);
    expect(taken(traceOf(x, y)).spectrum.wavelengthU_um).toBeUndefined();
  });
  it.each([
    ['cm⁻¹', x, 1000],
    ['µm', evenly(2.5, 16, 0.02), 16],
  ])('without a unit it is taken by its values: %s', (_unit, values, _last) => {
    const flat = bandsAt(values, [
      { position: values[300]!, width: values[4]! - values[0]!, height: 1 },
    ]);
    const { spectrum, diagnostics } = taken(traceOf(values, flat, { xUnit: 'unknown' }));
    expect(diagnostics.map(({ code }) => code)).toContain('spectrum-units-guessed');
    expect(spectrum.wavenumber_percm.at(-1)).toBeCloseTo(4000, 6);
  });
  it('equal places are averaged, places without a value left out and told', () => {
    const doubled = Float64Array.from([...x.slice(0, 100), x[99]!, ...x.slice(100)]);
    const values = Float64Array.from([...y.slice(0, 100), y[99]! + 0.2, ...y.slice(100)]);
    values[500] = Number.NaN;
    const { spectrum, diagnostics } = taken(traceOf(doubled, values));
    expect(spectrum.wavenumber_percm).toHaveLength(x.length - 1);
    expect(spectrum.absorbance[99]).toBeCloseTo(y[99]! + 0.1, 12);
    expect(diagnostics.map(({ code }) => code)).toEqual([
      'spectrum-points-merged',
      'spectrum-points-missing',
    ]);
    expect(spectrum.gaps).toEqual([]);
  });
  it('a stretch without values is a gap', () => {
    const values = y.map((each, i) => (i > 400 && i < 420 ? Number.NaN : each));
    const { spectrum, diagnostics } = taken(traceOf(x, values));
    expect(spectrum.gaps).toEqual([[x[400], x[420]]]);
    expect(diagnostics.map(({ code }) => code)).toContain('spectrum-gap');
  });
  it('a curve drawn with far points has no gaps, but less sure places', () => {
    const drawn = x.filter((each, i) => i % 7 === 0 || i % 7 === 1 || Math.abs(each - 1715) < 40);
    expect(gapsOf(drawn)).toEqual([]);
    const values = bandsAt(drawn, [{ position: 1715, width: 25, height: 1 }]);
    expect(taken(traceOf(drawn, values)).spectrum.positionU_percm).toBeGreaterThan(3);
  });
  it('far points are told', () => {
    const coarse = evenly(600, 4000, 20);
    expect(
      codes(traceOf(coarse, bandsAt(coarse, [{ position: 1715, width: 60, height: 1 }]))),
    ).toContain('spectrum-coarse');
  });
  it('digitised from paper', () => {
    const headers = { DATAPROCESSING: 'DIGITIZED FROM HARD COPY' };
    expect(taken(traceOf(x, y, { headers })).spectrum.positionU_percm).toBeGreaterThan(3.9);
  });
});

describe('how the sample was put in the beam', () => {
  const CASES: readonly (readonly [string, SampleState | undefined])[] = [
    ['KBr disc', 'disc'],
    ['SOLID (KBr PELLET)', 'disc'],
    ['solid; 1.0 mg in 300 mg KBr', 'disc'],
    ['between KBr plates', 'film'],
    ['NaCl windows', 'film'],
    ['nujol mull', 'mull'],
    ['SOLID (OIL MULL)', 'mull'],
    ['SOLID (SPLIT MULL, FLUOROLUBE FOR 3800-1330 AND NUJOL FOR 1330-400 CM^-1)', 'mull'],
    ['SOLUTION (10% CCl4 FOR 3800-1330, 10% CS2 FOR 1330-400 CM^-1)', 'solution'],
    ['10 % in CHCl3', 'solution'],
    ['LIQUID (NEAT)', 'film'],
    ['capillary film', 'film'],
    ['MELT', 'film'],
    ['gas', 'gas'],
    ['VAPOR (50 mmHg)', 'gas'],
    ['gas phase', 'gas'],
    ['ATR, diamond', 'atr'],
    ['attenuated total reflectance', 'atr'],
    ['solid', undefined],
    ['liquid', 'film'],
    ['', undefined],
  ];
  it.each(CASES)('%s: %s', (text, state) => {
    expect(stateIn(text)).toBe(state);
    const { spectrum } = taken(traceOf(x, y, { headers: { STATE: text } }));
    expect(spectrum.state).toBe(state);
  });
  it('what the person says comes first, then the trace, then the headers', () => {
    const trace = traceOf(x, y, { state: 'nujol mull', headers: { STATE: 'gas' } });
    expect(taken(trace).spectrum.state).toBe('mull');
    const asked = infraredOf(trace, { state: 'disc' });
    expect(asked.ok && asked.spectrum.state).toBe('disc');
  });
  it('a name is not taken for a state', () => {
    expect(taken(traceOf(x, y, { title: 'ethylene gas oil film' })).spectrum.state).toBeUndefined();
    expect(taken(traceOf(x, y, { title: 'product 3, ATR' })).spectrum.state).toBe('atr');
  });
});

describe('what always holds', () => {
  it('wavenumbers rise strictly, every value is finite, nothing throws', () => {
    const number = fc.oneof(fc.double(), fc.double({ min: 300, max: 5000, noNaN: true }));
    fc.assert(
      fc.property(
        fc.array(fc.tuple(number, number), { maxLength: 150 }),
        fc.constantFrom('absorbance', 'transmittance', 'absorptionIndex', 'unknown', 'arbitrary'),
        fc.constantFrom('1/cm', 'um', 'nm', 'unknown'),
        (points, yUnit, xUnit) => {
          const got = infraredOf(
            traceOf(
              Float64Array.from(points, ([place]) => place),
              Float64Array.from(points, ([, value]) => value),
              { yUnit, xUnit },
            ),
          );
          if (!got.ok) return;
          const { wavenumber_percm: w, absorbance } = got.spectrum;
          expect(w.length).toBe(absorbance.length);
          expect(w.length).toBeGreaterThanOrEqual(50);
          expect(absorbance.every(Number.isFinite)).toBe(true);
          for (let i = 1; i < w.length; i++) expect(w[i]!).toBeGreaterThan(w[i - 1]!);
        },
      ),
    );
  });
});
