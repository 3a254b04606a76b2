import { describe, expect, it } from 'vitest';
import { FILM_UM, filmAbsorbance } from './absorbance.ts';
import { CRYSTALS, atrAbsorbance, correctAtr, scaleDepth } from './atr.ts';
import { fourier } from './fourier.ts';
import { evenly, spectrumOf } from './testing/curves.ts';

const diamond = { n1: CRYSTALS.diamond, n2: 1.5, sine2: 0.5, cosine: Math.SQRT1_2, bounces: 1 };

describe('reflectance at the crystal', () => {
  it('is whole where the sample absorbs nothing', () => {
    expect(atrAbsorbance(1.5, 0, diamond)).toBeCloseTo(0, 12);
  });
  it('falls by the effective depth where it absorbs weakly', () => {
    // Harrick 1967 (from memory), de/λ at 45°: s = n21·cosθ / (π·n1·(1 − n21²)·√(sin²θ − n21²)),
    // p = s·(2sin²θ − n21²) / ((1 + n21²)sin²θ − n21²) with λ in vacuum; A = 4πk·(de/λ)/ln 10
    const n21 = 1.5 / 2.4;
    const root = Math.sqrt(0.5 - n21 ** 2);
    const s = (n21 * Math.SQRT1_2) / (Math.PI * 2.4 * (1 - n21 ** 2) * root);
    const p = (s * (1 - n21 ** 2)) / ((1 + n21 ** 2) * 0.5 - n21 ** 2);
    const k = 1e-6;
    const expected = (4 * Math.PI * k * ((s + p) / 2)) / Math.LN10;
    expect(atrAbsorbance(1.5, k, diamond) / expected).toBeCloseTo(1, 4);
  });
  it('twice as much after two bounces of a weak band', () => {
    const once = atrAbsorbance(1.5, 1e-4, diamond);
    expect(atrAbsorbance(1.5, 1e-4, { ...diamond, bounces: 2 }) / once).toBeCloseTo(2, 3);
  });
});

/** A band of the damped oscillator (Lorentz): its n and k belong together without any transform. */
function oscillator(place: number, centre: number, width: number, strength: number) {
  // ε = 1.5² + S·ν0² / (ν0² − ν² − iγν)
  const [re, im] = [centre ** 2 - place ** 2, width * place];
  const size = re ** 2 + im ** 2;
  const er = 2.25 + (strength * centre ** 2 * re) / size;
  const ei = (strength * centre ** 2 * im) / size;
  const modulus = Math.hypot(er, ei);
  return { n: Math.sqrt((modulus + er) / 2), k: Math.sqrt((modulus - er) / 2) };
}

describe('the correction, against an oscillator whose n and k are known', () => {
  const x = evenly(600, 4000, 1);
  const cases = [
    ['a weak band', 1715, 15, 0.002],
    ['a strong carbonyl band', 1715, 20, 0.015],
    ['a broad O–H band', 3340, 250, 0.04],
  ] as const;
  it.each(cases)('%s', (_what, centre, width, strength) => {
    const film = x.map((place) =>
      filmAbsorbance(oscillator(place, centre, width, strength).k, place, FILM_UM),
    );
    const atr = x.map((place) => {
      const { n, k } = oscillator(place, centre, width, strength);
      return atrAbsorbance(n, k, diamond);
    });
    const top = (y: Float64Array): number => x[y.indexOf(Math.max(...y))]!;
    const { spectrum, settled, misfit } = correctAtr(spectrumOf(x, atr, { state: 'atr' }));
    expect(settled).toBe(true);
    expect(misfit).toBeLessThan(0.005);
    expect(spectrum.state).toBe('film');
    expect(Math.abs(top(spectrum.absorbance) - top(film))).toBeLessThanOrEqual(2);
    expect(Math.abs(top(atr) - top(film))).toBeGreaterThanOrEqual(
      Math.abs(top(spectrum.absorbance) - top(film)),
    );
    expect(Math.max(...spectrum.absorbance) / Math.max(...film)).toBeCloseTo(1, 1);
  });
  it('nothing comes of nothing', () => {
    const { spectrum } = correctAtr(spectrumOf(x, new Float64Array(x.length)));
    expect(Math.max(...spectrum.absorbance.map(Math.abs))).toBe(0);
  });
  it('says so where no absorption fits, and scales by depth', () => {
    const impossible = x.map((_, i) => (i % 200 < 100 ? 6 : 0));
    const { spectrum, settled } = correctAtr(spectrumOf(x, impossible));
    expect(settled).toBe(false);
    expect(spectrum.absorbance.every(Number.isFinite)).toBe(true);
  });
});

it('depth alone: heights go with the wavenumber, 1000 cm⁻¹ stays', () => {
  const x = Float64Array.from([500, 1000, 2000]);
  expect([...scaleDepth(x, Float64Array.from([0.2, 0.2, 0.2]))]).toEqual([0.1, 0.2, 0.4]);
});

it('the transform: one wave has one line, and the way back is exact', () => {
  const n = 64;
  const re = Float64Array.from({ length: n }, (_, i) => Math.cos((2 * Math.PI * 5 * i) / n));
  const im = new Float64Array(n);
  const kept = Float64Array.from(re);
  fourier(re, im);
  re.forEach((each, i) => expect(each).toBeCloseTo(i === 5 || i === n - 5 ? n / 2 : 0, 9));
  fourier(re, im, true);
  kept.forEach((each, i) => expect(re[i]! / n).toBeCloseTo(each, 12));
});
