import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../../quantity/random.ts';
import type { StructureFacts } from '../../structure.ts';
import type { InfraredSpectrum } from '../infrared.ts';
import { judgeInfrared } from '../judge/judge.ts';
import {
  BENZOIC_ACID,
  CYCLOHEXANOL,
  CYCLOHEXANONE,
  ETHYL_BENZOATE,
} from '../judge/testing/facts.ts';
import { mixed, traceOf } from '../judge/testing/scenario.ts';
import type { BandClaim } from '../schema.ts';
import type { ClaimQuestion, ClaimReport } from './check-claims.ts';
import { candidatesOf, checkClaims } from './check-claims.ts';
import { noiseLikeness } from './rules/same-noise.ts';

type Asked = Partial<Omit<ClaimQuestion, 'product'>> & { readonly product?: StructureFacts | null };

function check(
  spectrum: InfraredSpectrum,
  claims: readonly BandClaim[],
  rest: Asked = {},
): ClaimReport {
  const { product, startingMaterials = [], ...more } = rest;
  const facts = product ?? undefined;
  const judgement = judgeInfrared({
    spectrum,
    ...(facts === undefined ? {} : { product: { name: 'product', facts } }),
    startingMaterials: startingMaterials.map((one) => ({ name: one.smiles, facts: one })),
    reagents: [],
    solvents: [],
  });
  return checkClaims({
    spectrum,
    claims,
    startingMaterials,
    judgement,
    ...(facts === undefined ? {} : { product: facts }),
    ...more,
  });
}

const claim = (
  position_percm: number,
  group: string,
  rest: Partial<BandClaim> = {},
): BandClaim => ({
  position_percm,
  group,
  ...rest,
});

const verdicts = (report: ClaimReport): string[] => report.claims.map(({ verdict }) => verdict);
const ids = (report: ClaimReport, line = 0): string[] =>
  report.claims[line]!.findings.map(({ id }) => id);
const tableIds = (report: ClaimReport): string[] => report.table.map(({ id }) => id);

describe('a right table stands', () => {
  it('cyclohexanol', () => {
    const report = check(
      traceOf('cyclohexanol', 'film'),
      [
        claim(3330, 'O–H stretch, alcohol', { shape: 'broad' }),
        claim(2932, 'sp3 C–H'),
        claim(2855, 'sp³ C-H'),
        claim(1068, 'C–O stretch'),
      ],
      {
        product: CYCLOHEXANOL,
        startingMaterials: [CYCLOHEXANONE],
        conclusion: 'The C=O of the ketone is gone.',
      },
    );
    expect(verdicts(report)).toEqual(['stands', 'stands', 'stands', 'stands']);
    expect(report.table.filter(({ weight }) => weight !== 'notes')).toEqual([]);
    expect(tableIds(report)).not.toContain('change-not-mentioned');
    expect(tableIds(report)).not.toContain('fits-starting-material');
  });

  it('a range, a wide one, and a line that says "no C=O"', () => {
    const report = check(
      traceOf('cyclohexanol', 'film'),
      [
        claim(3550, 'O–H', { high_percm: 3200 }),
        claim(2850, 'C–H (alkane)', { high_percm: 2950 }),
        claim(1715, 'no C=O'),
      ],
      { product: CYCLOHEXANOL, startingMaterials: [CYCLOHEXANONE] },
    );
    expect(verdicts(report)).toEqual(['stands', 'stands', 'stands']);
    expect(tableIds(report)).not.toContain('change-not-mentioned');
  });

  it('without any structure', () => {
    const report = check(traceOf('cyclohexanone', 'film'), [
      claim(1714, 'C=O'),
      claim(2940, 'C-H'),
    ]);
    expect(verdicts(report)).toEqual(['stands', 'stands']);
  });
});

describe('what does not go together', () => {
  const ketone = { product: CYCLOHEXANONE };

  it.each([
    [1714, 'C=O, ketone', 'stands', undefined],
    [1790, 'C=O, ketone', 'contradicted', 'no-band-there'],
    [5.83, 'C=O, ketone', 'contradicted', 'wavelength-as-wavenumber'],
    [5834, 'C=O, ketone', 'contradicted', 'wavelength-as-wavenumber'],
    [1428, 'C=O, ketone', 'doubtful', 'other-window'],
    [3405, 'O–H stretch', 'doubtful', 'overtone-as-hydroxyl'],
    [1714, 'C=O, ester', 'doubtful', 'other-class'],
    [1714, 'C=O, aldehyde', 'doubtful', 'aldehyde-without-ch'],
    [2940, 'C≡N', 'contradicted', 'element-missing'],
    [2470, 'C–H stretch, sp3', 'contradicted', 'axis-break'],
    [1714, 'gibberish', 'cannotTell', undefined],
    [250, 'C–Cl', 'contradicted', 'element-missing'],
  ])('cyclohexanone, %d called %s: %s', (position, group, verdict, id) => {
    const report = check(traceOf('cyclohexanone', 'film'), [claim(position, group)], ketone);
    // Where the C=O at 1428 is meant, the band that is there is a CH₂
    if (position !== 1428) expect(verdicts(report)).toEqual([verdict]);
    else expect(['doubtful', 'contradicted']).toContain(verdicts(report)[0]);
    if (id !== undefined) expect(ids(report).slice(0, 2)).toContain(id);
  });

  it('the ketone that is left is not passed over', () => {
    const spectrum = mixed(traceOf('cyclohexanol', 'film'), 0.2, traceOf('cyclohexanone', 'film'));
    const asked = { product: CYCLOHEXANOL, startingMaterials: [CYCLOHEXANONE] };
    const claims = [claim(3330, 'O–H, alcohol'), claim(1068, 'C–O')];
    expect(tableIds(check(spectrum, claims, asked)).slice(0, 2)).toContain(
      'left-over-not-mentioned',
    );
    const seen = [...claims, claim(1714, 'C=O of unreacted starting material')];
    expect(tableIds(check(spectrum, seen, asked))).not.toContain('left-over-not-mentioned');
    const denied = [...claims, claim(1714, 'no C=O')];
    const report = check(spectrum, denied, asked);
    expect(verdicts(report)[2]).toBe('contradicted');
    expect(ids(report, 2)).toContain('said-absent');
  });

  it('a mull hides what its oil absorbs', () => {
    const report = check(traceOf('benzoic acid', 'mull'), [claim(2923, 'C–H, alkane')], {
      product: BENZOIC_ACID,
    });
    expect(verdicts(report)).toEqual(['cannotTell']);
  });

  it('outside the record nothing is said', () => {
    const report = check(traceOf('cyclohexanone', 'film'), [claim(3970, 'O–H')]);
    expect(verdicts(report)).toEqual(['cannotTell']);
  });

  it('the acid O–H called C–H', () => {
    const wide = claim(2500, 'C–H stretch', { high_percm: 3300, shape: 'broad' });
    const report = check(traceOf('benzoic acid', 'disc'), [wide], { product: BENZOIC_ACID });
    expect(ids(report)[0]).toBe('acid-hydroxyl-as-ch');
    // The same words for an ester are only too wide
    const ester = check(traceOf('ethyl benzoate', 'film'), [wide], { product: ETHYL_BENZOATE });
    expect(ids(ester)).not.toContain('acid-hydroxyl-as-ch');
  });

  it('aromatic C–H called alkane, and right', () => {
    const trace = traceOf('ethyl benzoate', 'film');
    const asked = { product: ETHYL_BENZOATE };
    expect(ids(check(trace, [claim(3063, 'C–H, alkane')], asked))[0]).toBe('above-3000-as-alkane');
    expect(verdicts(check(trace, [claim(3063, 'C–H, aromatic')], asked))).toEqual(['stands']);
    expect(verdicts(check(trace, [claim(2982, 'C–H, alkane')], asked))).toEqual(['stands']);
  });
});

/** Independent noise of one size; the same seed gives the same. */
function withNoise(spectrum: InfraredSpectrum, sigma: number, seed: number): InfraredSpectrum {
  const { normal } = seededRandom(seed);
  return { ...spectrum, absorbance: spectrum.absorbance.map((value) => value + sigma * normal()) };
}

describe('records that are one', () => {
  const smooth = traceOf('cyclohexanol', 'film', { noise: 0 });

  it('two honest measurements of one substance are never taken for one record', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1e6 }),
        fc.double({ min: 0.0002, max: 0.005, noNaN: true }),
        (seed, sigma) => {
          const [a, b] = [withNoise(smooth, sigma, seed), withNoise(smooth, sigma, seed + 17)];
          const { r, u } = noiseLikeness(a, b)!;
          expect(Math.abs(r)).toBeLessThan(6 * u);
          const report = check(a, [claim(3330, 'O–H')], { others: [b] });
          expect(tableIds(report)).not.toContain('same-noise');
        },
      ),
      { numRuns: 25 },
    );
  });

  it('a copy is found, scaled, tilted, rounded to four decimals or to 0.01 % T', () => {
    const a = withNoise(smooth, 0.001, 5);
    const copies: readonly ((value: number, x: number) => number)[] = [
      (value) => value,
      (value) => 0.8 * value + 0.03,
      (value, x) => value + 1e-5 * x,
      (value) => Math.round(value * 1e4) / 1e4,
      (value) => -Math.log10(Math.round(1e4 * 10 ** -value) / 1e4),
    ];
    for (const copy of copies) {
      const absorbance = a.absorbance.map((value, i) => copy(value, a.wavenumber_percm[i]!));
      const report = check(a, [claim(3330, 'O–H')], { others: [{ ...a, absorbance }] });
      expect(report.table.find(({ id }) => id === 'same-noise')?.likelihood).toBe(0.95);
    }
  });

  it('a common background is no copy: it is named as the other reason', () => {
    const background = withNoise(smooth, 0.0012, 11);
    const [a, b] = [withNoise(background, 0.0008, 12), withNoise(background, 0.0008, 13)];
    const found = check(a, [claim(3330, 'O–H')], { others: [b] }).table.find(
      ({ id }) => id === 'same-noise',
    );
    expect(found?.likelihood).toBe(0.4);
    expect(found?.says).toContain('background');
  });

  it('a curve without noise tells nothing', () => {
    expect(noiseLikeness(smooth, { ...smooth, absorbance: smooth.absorbance.map(() => 0) })).toBe(
      undefined,
    );
  });
});

describe('always', () => {
  const trace = traceOf('cyclohexanol', 'film');
  const words = fc.constantFrom(
    'C=O',
    'O–H',
    'C–H sp3',
    'C≡N',
    'aromatic',
    'no C=O',
    'CO2',
    'xyz',
    'C–C',
    'aldehyde',
    'N-H',
  );

  it('every line gets an answer; likelihoods are shares and fall; texts accuse nobody', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            position_percm: fc.double({ min: 1, max: 20_000, noNaN: true }),
            group: words,
            shape: fc.constantFrom('broad', 'sharp', ''),
          }),
          { maxLength: 12 },
        ),
        (claims) => {
          const report = check(trace, claims, {
            product: CYCLOHEXANOL,
            startingMaterials: [CYCLOHEXANONE],
          });
          expect(report.claims).toHaveLength(claims.length);
          const all = candidatesOf(report);
          for (const [i, one] of all.entries()) {
            expect(one.likelihood).toBeGreaterThan(0);
            expect(one.likelihood).toBeLessThan(1);
            if (i > 0) expect(one.likelihood).toBeLessThanOrEqual(all[i - 1]!.likelihood);
            expect(`${one.says} ${one.right ?? ''}`).not.toMatch(
              /wrong|cheat|copied|fault|your|!|undefined|NaN|Infinity/,
            );
          }
          for (const judged of report.claims) expect(judged.says).not.toBe('');
        },
      ),
      { numRuns: 60 },
    );
  });
});
