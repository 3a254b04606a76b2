import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { InfraredSpectrum } from '../infrared.ts';
import type { InfraredQuestion } from './judge.ts';
import { judgeInfrared } from './judge.ts';
import {
  ANILINE,
  BENZOIC_ACID,
  CYCLOHEXANOL,
  CYCLOHEXANONE,
  ETHANOL,
  ETHYL_BENZOATE,
  NITROBENZENE,
  UNDECANE,
} from './testing/facts.ts';
import { CLEAN, mixed, moleculeNamed, traceOf } from './testing/scenario.ts';
import { simulated } from './testing/simulate.ts';

const ketone = { name: 'cyclohexanone', facts: CYCLOHEXANONE };
const alcohol = { name: 'cyclohexanol', facts: CYCLOHEXANOL };
const ester = { name: 'ethyl benzoate', facts: ETHYL_BENZOATE };
const acid = { name: 'benzoic acid', facts: BENZOIC_ACID };
const ethanol = { name: 'ethanol', facts: ETHANOL };
const undecane = { name: 'undecane', facts: UNDECANE };

const ask = (spectrum: InfraredSpectrum, rest: Partial<InfraredQuestion> = {}) =>
  judgeInfrared({ spectrum, startingMaterials: [], reagents: [], solvents: [], ...rest });

const reduction = (spectrum: InfraredSpectrum) =>
  ask(spectrum, { product: alcohol, startingMaterials: [ketone] });

describe('a reduction: ketone to alcohol', () => {
  it('a clean product: the change is seen, the ketone bounded', () => {
    const judged = reduction(traceOf('cyclohexanol', 'film'));
    expect(judged.change.map(({ group, kind, verdict }) => [group, kind, verdict])).toEqual([
      ['oh', 'new', 'present'],
      ['carbonyl', 'gone', 'present'],
    ]);
    expect(judged.residual).toMatchObject({ kind: 'atMost', of: 'cyclohexanone' });
    expect(judged.statements.find(({ id }) => id === 'infrared-groups')?.agreement).toBe('agrees');
  });

  it('nothing happened: the ketone is still there, and it is not the product', () => {
    const judged = reduction(traceOf('cyclohexanone', 'film'));
    expect(judged.change.map(({ verdict }) => verdict)).toEqual(['absent', 'absent']);
    expect(judged.statements.find(({ id }) => id === 'infrared-groups')?.agreement).toBe(
      'disagrees',
    );
    expect(judged.residual).toMatchObject({ kind: 'itself', of: 'cyclohexanone' });
    expect(judged.residual?.says).toContain('looks like cyclohexanone itself');
  });

  it('with a tenth or more of the ketone left it is never called gone', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 0.9, noNaN: true }),
        fc.integer({ min: 1, max: 50 }),
        (share, seed) => {
          const spectrum = mixed(
            traceOf('cyclohexanol', 'film', { seed }),
            share,
            traceOf('cyclohexanone', 'film', { seed }),
          );
          const judged = reduction(spectrum);
          const gone = judged.change.find(({ group }) => group === 'carbonyl')!;
          expect(gone.verdict).not.toBe('present');
          // Of nine tenths and more it may rightly be said that it looks like the ketone itself
          expect(judged.residual?.kind).toMatch(share < 0.8 ? /^measured$/ : /^(measured|itself)$/);
        },
      ),
      { numRuns: 40 },
    );
  });

  it('both pure spectra give the share back within its uncertainty', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.05, max: 0.8, noNaN: true }), (share) => {
        const [before, after] = [traceOf('cyclohexanone', 'film'), traceOf('cyclohexanol', 'film')];
        const judged = ask(mixed(after, share, before), {
          product: alcohol,
          startingMaterials: [ketone],
          reference: { startingMaterial: before, product: after },
        });
        const { residual } = judged;
        expect(residual?.from).toBe('reference');
        if (residual?.kind === 'measured')
          expect(Math.abs(residual.share - share)).toBeLessThan(2 * residual.u);
        else expect(residual!.share).toBeGreaterThanOrEqual(share);
      }),
      { numRuns: 30 },
    );
  });

  it('noise that would hide the ketone is no proof that it is gone', () => {
    const judged = reduction(traceOf('cyclohexanol', 'film', { noise: 0.05, strength: 0.35 }));
    expect(judged.change.find(({ group }) => group === 'carbonyl')?.verdict).not.toBe('present');
  });
});

describe('a product with some of its starting material', () => {
  const statement = (judged: ReturnType<typeof ask>, id: string) =>
    judged.statements.find((one) => one.id === id);
  const blend = (share: number) =>
    mixed(traceOf('cyclohexanol', 'film'), share, traceOf('cyclohexanone', 'film'));

  it('fits the product, weakly, and says what stands besides', () => {
    const identity = statement(reduction(blend(0.3)), 'infrared-groups');
    expect(identity).toMatchObject({ agreement: 'agrees', weight: 'weak' });
    expect(identity?.says).toMatch(
      /Besides them a band at 17\d\d cm⁻¹ stands, as cyclohexanone has/,
    );
    expect(statement(reduction(blend(0.6)), 'infrared-groups')?.says).toMatch(
      /Besides them a C=O group is seen at 17\d\d cm⁻¹, as cyclohexanone has/,
    );
    expect(statement(reduction(blend(0.3)), 'infrared-residual')?.agreement).toBe('disagrees');
  });

  it('lists no band of the starting material as unexplained', () => {
    const judged = reduction(traceOf('cyclohexanone', 'film'));
    expect(judged.unexplained.filter(({ position_percm: p }) => p > 1690 && p < 1740)).toEqual([]);
  });

  it('a group of nothing that went in still speaks against the product', () => {
    const identity = statement(ask(blend(0.6), { product: alcohol }), 'infrared-groups');
    expect(identity?.agreement).toBe('disagrees');
  });

  it('bands that the starting material has as well prove no product', () => {
    const heptanone = { name: 'heptan-2-one', facts: CYCLOHEXANONE };
    const of = (share: number) =>
      statement(
        ask(mixed(traceOf('undecane', 'film'), share, traceOf('heptan-2-one', 'film')), {
          product: undecane,
          startingMaterials: [heptanone],
        }),
        'infrared-groups',
      );
    expect(of(1)?.agreement).toBe('disagrees');
    expect(of(0.3)?.agreement).not.toBe('agrees');
  });

  it('a rest of an alcohol, whose O–H gives no share, is said of the starting material', () => {
    const judged = ask(
      mixed(traceOf('cyclohexanone', 'film'), 0.4, traceOf('cyclohexanol', 'film')),
      {
        product: ketone,
        startingMaterials: [alcohol],
      },
    );
    expect(statement(judged, 'infrared-remains-oh')?.agreement).toBe('disagrees');
    expect(judged.contaminants.filter(({ verdict }) => verdict === 'present')).toEqual([]);
  });
});

describe('what was looked for and is not there', () => {
  it('is one statement, with what is there apart', () => {
    const judged = ask(traceOf('undecane', 'film'), {
      product: undecane,
      solvents: [ethanol, { name: 'acetone' }, { name: 'toluene' }],
    });
    const about = judged.statements.filter((one) => one.about === 'contaminant');
    expect(about.map(({ id }) => id)).toEqual(['infrared-contaminants-not-seen']);
    expect(about[0]?.says).toBe('Nothing is seen of ethanol, acetone and toluene.');
  });

  it('water alone is called water, and no share of a starting material is read from it', () => {
    const water = {
      ...moleculeNamed('undecane'),
      bands: '3395/1/370 1643/.28/80 600/.5/300',
    };
    const judged = reduction(simulated(water, { ...CLEAN, state: 'film' }));
    const identity = judged.statements.find(({ id }) => id === 'infrared-groups');
    expect(identity?.agreement).toBe('disagrees');
    expect(identity?.says).toMatch(/^The spectrum is that of water: .* No sign of cyclohexanol/);
    expect(judged.residual).toBeUndefined();
    const change = judged.change.find(({ group }) => group === 'oh');
    expect(change?.says).toMatch(/fits water|cannot be told/);
  });
});

describe('a reduction: nitrobenzene to aniline', () => {
  const nitrobenzene = { name: 'nitrobenzene', facts: NITROBENZENE };
  const aniline = { name: 'aniline', facts: ANILINE };
  const verdictAt = (share: number) =>
    ask(mixed(traceOf('aniline', 'film'), share, traceOf('nitrobenzene', 'film')), {
      product: aniline,
      startingMaterials: [nitrobenzene],
    }).change.find(({ group }) => group === 'nitro')?.verdict;

  it('the bands of the ring are no nitro group that is left', () => {
    expect(verdictAt(0)).toBe('present');
  });

  it.each([0.1, 0.2, 0.4, 0.8])('with a share of %s left it is not called gone', (share) => {
    expect(verdictAt(share)).not.toBe('present');
  });
});

describe('an oxidation: alcohol to ketone', () => {
  const oxidation = (spectrum: InfraredSpectrum) =>
    ask(spectrum, { product: ketone, startingMaterials: [alcohol] });

  it('a clean ketone: its overtone is no alcohol that is left', () => {
    const judged = oxidation(traceOf('cyclohexanone', 'film'));
    expect(judged.change.map(({ group, verdict }) => [group, verdict])).toEqual([
      ['oh', 'present'],
      ['carbonyl', 'present'],
    ]);
  });

  it('with a tenth or more of the alcohol left it is never called gone', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 0.9, noNaN: true }),
        fc.integer({ min: 1, max: 50 }),
        (share, seed) => {
          const [before, after] = [
            traceOf('cyclohexanol', 'film', { seed }),
            traceOf('cyclohexanone', 'film', { seed }),
          ];
          const judged = oxidation(mixed(after, share, before));
          expect(judged.change.find(({ group }) => group === 'oh')?.verdict).not.toBe('present');
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe('an esterification', () => {
  it('the acid is gone, the C=O stays and is no news', () => {
    const judged = ask(traceOf('ethyl benzoate', 'film'), {
      product: ester,
      startingMaterials: [acid, ethanol],
    });
    expect(judged.change.map(({ group, kind }) => [group, kind])).toEqual([
      ['oh', 'gone'],
      ['acid', 'gone'],
    ]);
    expect(judged.change.every(({ verdict }) => verdict === 'present')).toBe(true);
  });

  it('with a quarter or more of the acid left it is never called gone', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.25, max: 0.9, noNaN: true }),
        fc.integer({ min: 1, max: 50 }),
        (share, seed) => {
          const spectrum = mixed(
            traceOf('hexyl acetate', 'film', { seed }),
            share,
            traceOf('butyric acid', 'film', { seed }),
          );
          const judged = ask(spectrum, { product: ester, startingMaterials: [acid, ethanol] });
          const gone = judged.change.find(({ group }) => group === 'acid')!;
          expect(gone.verdict).not.toBe('present');
        },
      ),
      { numRuns: 40 },
    );
  });

  it('ethanol in an alkane is named when it was used, and not guessed at when not', () => {
    const wet = mixed(traceOf('undecane', 'film'), 0.4, traceOf('butan-1-ol', 'film'));
    const judged = ask(wet, { product: undecane });
    expect(judged.contaminants.some(({ id }) => id === 'ethanol')).toBe(false);
    expect(judged.statements.find(({ id }) => id === 'infrared-groups')?.agreement).toBe(
      'disagrees',
    );
  });
});

describe('what a judgement never does', () => {
  const words = /\bconfirm(?:s|ed)?\b|\bproven\b|!/i;

  it.each([
    ['a clean product', () => reduction(traceOf('cyclohexanol', 'film'))],
    ['another substance', () => reduction(traceOf('nitrobenzene', 'film'))],
    ['no structure', () => ask(traceOf('acetophenone', 'film'))],
    ['a gas', () => ask(traceOf('ethyl acetate gas', 'gas'), { product: ester })],
  ])('claim too much, or say nothing of its limits: %s', (_what, judge) => {
    const judged = judge();
    for (const { says, limits, weight } of judged.statements) {
      expect(says).not.toMatch(words);
      expect(limits.length).toBeGreaterThan(20);
      expect(weight).not.toBe('strong');
    }
    expect(judged.summary.at(-1)).toContain('isomer');
    expect(new Set(judged.statements.map(({ id }) => id)).size).toBe(judged.statements.length);
    expect(JSON.parse(JSON.stringify(judged))).toEqual(judged);
  });

  it('bands in a mull under the oil cannot be told', () => {
    const judged = ask(traceOf('benzoin', 'mull'), { product: undecane });
    const stretch = judged.bands.find(({ what }) => what.startsWith('C–H stretch'));
    expect(stretch?.verdict).toBe('cannotTell');
    expect(stretch?.reasons.join(' ')).toContain('oil');
  });

  it('a band that nothing explains is listed', () => {
    const judged = ask(traceOf('hexanenitrile', 'film'), { product: undecane });
    expect(judged.unexplained.some(({ position_percm: p }) => Math.abs(p - 2247) < 8)).toBe(true);
  });
});
