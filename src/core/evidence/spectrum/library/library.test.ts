import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { seededRandom } from '../../../quantity/random.ts';
import { bandsAt, evenly, noisy, randomBands, spectrumOf } from '../treat/testing/curves.ts';
import { fingerprintBytes, fingerprintFrom, fingerprintOf, PLACES } from './fingerprint.ts';
import type { Fingerprint } from './fingerprint.ts';
import { keptBands } from './kept-bands.ts';
import { referenceIn } from './reference.ts';
import { mostAlike, packLibrary, withBands } from './search.ts';
import { similarityOf } from './similarity.ts';
import { similarityWords } from './words.ts';

const X = evenly(500, 4000, 2);
const curve = (seed: number, x = X) => bandsAt(x, randomBands(seed).bands);
const printOf = (y: Float64Array, x = X, rest = {}): Fingerprint =>
  fingerprintOf(spectrumOf(x, y, rest))!;
const alike = (a: Fingerprint, b: Fingerprint): number => similarityOf(a, b)?.similarity ?? -1;
const seeds = fc.integer({ min: 1, max: 100_000 });

describe('a similarity', () => {
  it('is 1 with itself, the same either way round, and between 0 and 1', () => {
    fc.assert(
      fc.property(
        seeds,
        seeds,
        fc.double({ min: 0, max: 0.01, noNaN: true }),
        (one, two, sigma) => {
          const a = printOf(noisy(curve(one), sigma, one));
          const b = printOf(noisy(curve(two), sigma, two));
          expect(alike(a, a)).toBeCloseTo(1, 12);
          const there = alike(a, b);
          expect(there).toBe(alike(b, a));
          expect(there).toBeGreaterThanOrEqual(0);
          expect(there).toBeLessThanOrEqual(1);
        },
      ),
      { numRuns: 40 },
    );
  });

  it('does not change with the thickness, an offset or a tilt', () => {
    const part = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        seeds,
        part(0.05, 5),
        part(-1, 1),
        part(-3e-4, 3e-4),
        (seed, scale, level, tilt) => {
          const y = curve(seed);
          const other = y.map((each, i) => scale * each + level + tilt * (X[i]! - 500));
          expect(alike(printOf(y), printOf(other))).toBeGreaterThan(0.995);
        },
      ),
      { numRuns: 40 },
    );
  });

  it('hardly changes when all bands move by 3 cm⁻¹, or the points lie 4 cm⁻¹ apart', () => {
    const coarse = evenly(502, 3998, 4);
    for (const seed of [1, 2, 3, 4, 5, 6]) {
      const own = printOf(curve(seed));
      const moved = randomBands(seed).bands.map((band) => ({
        ...band,
        position: band.position + 3,
      }));
      expect(alike(own, printOf(bandsAt(X, moved)))).toBeGreaterThan(0.97);
      expect(alike(own, printOf(curve(seed, coarse), coarse))).toBeGreaterThan(0.98);
    }
  });

  it('does not see the carbon dioxide of the air, one way or the other', () => {
    for (const height of [-0.3, 0.3, 1]) {
      const air = bandsAt(X, [
        { position: 2361, width: 18, height },
        { position: 2339, width: 24, height: 0.85 * height },
        { position: 668, width: 3, height: height / 2 },
      ]);
      const y = curve(7);
      expect(alike(printOf(y), printOf(y.map((each, i) => each + air[i]!)))).toBeGreaterThan(0.99);
    }
  });

  it('weighs ATR by the depth of the light: a film that was tilted so is the same', () => {
    const y = curve(11);
    const tilted = y.map((each, i) => (each * 1000) / X[i]!);
    expect(alike(printOf(y), printOf(tilted, X, { state: 'atr' }))).toBeGreaterThan(0.995);
    expect(alike(printOf(y), printOf(tilted))).toBeLessThan(0.985);
  });

  it('is asked only where both reach over 1000 cm⁻¹', () => {
    const [left, right] = [evenly(2300, 4000, 2), evenly(600, 2400, 2)];
    const upper = printOf(curve(3, left), left);
    const lower = printOf(curve(3, right), right);
    expect(similarityOf(upper, lower)).toBeUndefined();
    const whole = printOf(curve(3));
    expect(similarityOf(whole, lower)).toMatchObject({ from_percm: 600, to_percm: 2400 });
    expect(alike(whole, lower)).toBeGreaterThan(0.9);
  });

  it('has no fingerprint where there is no band', () => {
    expect(
      fingerprintOf(
        spectrumOf(
          X,
          X.map(() => 0.3),
        ),
      ),
    ).toBeUndefined();
    expect(
      fingerprintOf(
        spectrumOf(
          X,
          X.map((place) => 1e-4 * place),
        ),
      ),
    ).toBeUndefined();
    const [far, near] = [evenly(4200, 5000, 2), evenly(300, 560, 2)];
    expect(fingerprintOf(spectrumOf(far, curve(1, far)))).toBeUndefined();
    expect(fingerprintOf(spectrumOf(near, curve(1, near)))).toBeUndefined();
  });

  it('has words for every value', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (value) => {
        expect(similarityWords(value)).toMatch(/\.$/);
      }),
    );
    expect(similarityWords(0.97)).toContain('isomer');
    expect(similarityWords(0.2)).toBe('Not alike.');
  });
});

describe('the bytes of a fingerprint', () => {
  it('give it back, and other bytes give none', () => {
    const print = printOf(curve(5));
    expect(fingerprintFrom(fingerprintBytes(print))).toEqual(print);
    expect(fingerprintFrom(new Uint8Array(3))).toBeUndefined();
    expect(fingerprintFrom(new Uint8Array(PLACES + 4))).toBeUndefined();
  });
});

describe('a search', () => {
  const spectra = Array.from({ length: 60 }, (_, n) => {
    const x = n % 3 === 0 ? evenly(650, 4000, 2) : X;
    return { id: `s${n}`, fingerprint: printOf(noisy(curve(n + 1, x), 0.002, n), x) };
  });
  const library = packLibrary(spectra);

  it('finds each spectrum first when it is asked for by itself', () => {
    for (const { id, fingerprint } of spectra) {
      const [best] = mostAlike(library, fingerprint, 5);
      expect(best!.id).toBe(id);
      expect(best!.similarity).toBeCloseTo(1, 12);
    }
  });

  it('gives what comparing one by one gives, the best first', () => {
    for (const most of [1, 7, 200]) {
      const { uniform } = seededRandom(most);
      const asked = printOf(curve(1000 + Math.floor(100 * uniform())));
      const each = spectra
        .flatMap(({ id, fingerprint }) => {
          const likeness = similarityOf(asked, fingerprint);
          return likeness === undefined ? [] : [{ id, ...likeness }];
        })
        .sort((a, b) => b.similarity - a.similarity)
        .slice(0, most);
      const found = mostAlike(library, asked, most);
      expect(found.map(({ similarity }) => similarity.toFixed(9))).toEqual(
        each.map(({ similarity }) => similarity.toFixed(9)),
      );
      expect(found[0]!.id).toBe(each[0]!.id);
    }
  });

  it('of nothing finds nothing', () => {
    expect(mostAlike(packLibrary([]), spectra[0]!.fingerprint, 5)).toEqual([]);
  });
});

describe('a search by bands', () => {
  const band = (position_percm: number, share: number) => ({ position_percm, share });
  const spectra = [
    { id: 'ester', bands: [band(1735, 1), band(1240, 0.9)] },
    { id: 'ketone', bands: [band(1715, 1), band(1225, 0.2), band(1218, 0.1)] },
    { id: 'faint', bands: [band(2920, 1), band(1712, 0.05), band(1221, 0.04)] },
  ];

  test.each([
    { asked: [1715, 1220], tolerance: 10, ids: ['ketone', 'faint'] },
    { asked: [1715, 1220], tolerance: 20, ids: ['ester', 'ketone', 'faint'] },
    { asked: [1715, 1220, 3300], tolerance: 20, ids: [] },
    { asked: [1735], tolerance: 0, ids: ['ester'] },
  ])('$asked within $tolerance', ({ asked, tolerance, ids }) => {
    expect(withBands(spectra, asked, tolerance).map(({ id }) => id)).toEqual(ids);
  });

  it('says which bands it found, in the order of the question', () => {
    expect(withBands(spectra, [1220, 1715], 10)[0]!.bands).toEqual([
      { asked_percm: 1220, position_percm: 1225, share: 0.2 },
      { asked_percm: 1715, position_percm: 1715, share: 1 },
    ]);
  });

  it('works on the bands that are picked from a curve', () => {
    const bands = keptBands(spectrumOf(X, noisy(curve(21), 0.0005, 3)));
    const { bands: known } = randomBands(21);
    const tallest = known.reduce((a, b) => (b.height > a.height ? b : a));
    const [hit] = withBands([{ id: 'own', bands }], [tallest.position], 3);
    expect(hit!.bands[0]!.share).toBeGreaterThan(0.6);
    expect(bands.every(({ share }) => share > 0 && share <= 1)).toBe(true);
  });
});

describe('a file for the library', () => {
  const bytesOf = (text: string) => new TextEncoder().encode(text);

  it('is read, and its state is what the person said', () => {
    const y = curve(2);
    const text = [...X].map((x, i) => `${x},${y[i]!.toFixed(5)}`).join('\n');
    const table = bytesOf(`cm-1,absorbance\n${text}\n`);
    const got = referenceIn(table, { state: 'atr' });
    expect(got).toMatchObject({ ok: true, spectrum: { state: 'atr' } });
    expect(got.ok && got.bands.length).toBeGreaterThan(5);
  });

  test.each([
    ['<!doctype html><title>x</title>', 'file-not-spectrum'],
    ['', 'file-empty'],
    [`cm-1,absorbance\n${[...X].map((x) => `${x},0.1`).join('\n')}\n`, 'spectrum-without-bands'],
    [
      '##TITLE=x\n##JCAMP-DX=4.24\n##DATA TYPE=MASS SPECTRUM\n##XUNITS=M/Z\n##YUNITS=RELATIVE ABUNDANCE\n##PEAK TABLE=(XY..XY)\n31,100\n45,50\n##END=\n',
      'spectrum-not-infrared',
    ],
  ])('%#: what is none is refused', (text, code) => {
    const got = referenceIn(bytesOf(text));
    expect(got.ok ? 'read' : got.problem.code).toBe(code);
  });
});
