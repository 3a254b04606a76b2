import { describe, expect, it } from 'vitest';
import table from '../../../facts/polystyrene.json' with { type: 'json' };
import { rowsOf } from '../../../facts/table.ts';
import { checkWavenumbers } from './polystyrene.ts';
import { bandsAt, evenly, noisy, randomBands, spectrumOf } from './testing/curves.ts';

const x = evenly(450, 4000, 1);
const published = rowsOf(table).map((row) => Number(row['position_percm']));

/** A film with its bands at the published places, on a scale that is off by so much. */
function film(shift: (percm: number) => number, missing: readonly number[] = []) {
  const places = published.filter((place) => !missing.includes(place));
  const bands = [
    ...places.map((place) => ({ position: place + shift(place), width: 10, height: 0.2 })),
    { position: 698, width: 14, height: 1 },
    { position: 757, width: 16, height: 0.6 },
    { position: 2923, width: 24, height: 0.9 },
  ];
  return spectrumOf(x, noisy(bandsAt(x, bands), 5e-4, 3));
}

describe('the wavenumber check', () => {
  it('passes at the published places, each told', () => {
    const report = checkWavenumbers(film(() => 0));
    expect(report).toMatchObject({ polystyrene: true, verdict: 'passes' });
    expect(report.checks.map(({ verdict }) => verdict)).toEqual(published.map(() => 'passes'));
    expect(Math.abs(report.offset_percm)).toBeLessThan(0.2);
    for (const { source, vibration } of report.checks) expect(source && vibration).toBeTruthy();
  });
  it.each([
    ['3 cm⁻¹ too high', (_percm: number) => 3],
    ['6 cm⁻¹ too low', (_percm: number) => -6],
    ['a thousandth too high', (percm: number) => percm / 1000],
  ])('fails %s', (_what, shift) => {
    expect(checkWavenumbers(film(shift))).toMatchObject({ polystyrene: true, verdict: 'fails' });
  });
  it('does not hold a hidden band against the instrument', () => {
    const report = checkWavenumbers(film(() => 0, [1154.5]));
    expect(report).toMatchObject({ polystyrene: true, verdict: 'passes' });
    expect(report.checks.find((each) => each.expected_percm === 1154.5)).toMatchObject({
      verdict: 'cannotTell',
    });
  });
  it('cannot tell just beside the limit: points 1 cm⁻¹ apart are no better', () => {
    const report = checkWavenumbers(film((percm) => (percm === 1601.2 ? 1.2 : 0)));
    expect(report.checks.find((each) => each.expected_percm === 1601.2)!.verdict).toBe(
      'cannotTell',
    );
  });
  it('says nothing of an instrument from another substance', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const { bands, shoulders } = randomBands(seed);
      const report = checkWavenumbers(spectrumOf(x, bandsAt(x, [...bands, ...shoulders])));
      expect(report).toMatchObject({ polystyrene: false, verdict: 'cannotTell' });
    }
  });
});
