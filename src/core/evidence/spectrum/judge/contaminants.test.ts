import { describe, expect, it } from 'vitest';
import type { SampleState } from '../infrared.ts';
import type { OwnWindows } from './contaminants.ts';
import { judgeContaminants } from './contaminants.ts';
import { contextOf } from './context.ts';
import type { Verdict } from './group-judgement.ts';
import { moleculeNamed, CLEAN } from './testing/scenario.ts';
import { simulated } from './testing/simulate.ts';

/** Bands of contaminants, from memory: position / height / width. */
const BANDS = {
  acetone: '1714/1/18 1420/.25 1362/.6/14 1222/.6/14 530/.25',
  'ethyl acetate': '2985/.15 1741/1/18 1374/.35/14 1240/1/22 1048/.45/16 848/.1',
  toluene: '3027/.4/14 2920/.25 1605/.25/9 1496/.6/8 1460/.3 1081/.15 1030/.2 728/1/10 695/.7/9',
  moisture: '3440/1/260 1634/.35/50',
  silicone: '2963/.3/14 1261/.75/10 1095/.95/40 1022/1/45 800/1/16',
};

interface Scenario {
  readonly what: string;
  readonly sample: string;
  readonly state?: SampleState;
  readonly added?: keyof typeof BANDS;
  /** Height of the contaminant's tallest band beside the sample's. */
  readonly height?: number;
  readonly own?: OwnWindows;
  readonly used: readonly string[];
  readonly expected: Readonly<Record<string, Verdict | 'notListed'>>;
}

const SCENARIOS: readonly Scenario[] = [
  {
    what: 'acetone that was used',
    sample: 'undecane',
    added: 'acetone',
    height: 0.3,
    used: ['acetone'],
    expected: { acetone: 'present' },
  },
  {
    what: 'acetone that nobody used is not guessed at',
    sample: 'undecane',
    added: 'acetone',
    height: 0.3,
    used: [],
    expected: { acetone: 'notListed' },
  },
  {
    what: 'used, and not there',
    sample: 'undecane',
    used: ['acetone', 'ethyl acetate'],
    expected: { acetone: 'absent', 'ethyl-acetate': 'absent' },
  },
  {
    what: 'ethyl acetate in an alkane',
    sample: 'undecane',
    added: 'ethyl acetate',
    height: 0.4,
    used: ['ethyl acetate'],
    expected: { 'ethyl-acetate': 'present' },
  },
  {
    what: 'toluene in a nitrile',
    sample: 'hexanenitrile',
    added: 'toluene',
    height: 0.4,
    used: ['toluene'],
    expected: { toluene: 'present' },
  },
  {
    what: 'silicone, unasked',
    sample: 'undecane',
    added: 'silicone',
    height: 0.5,
    used: [],
    own: [{ low_percm: 2800, high_percm: 3000, mostShare: 1 }],
    expected: { 'silicone-grease': 'present' },
  },
  {
    what: 'no silicone in an ether',
    sample: 'dibutyl ether',
    used: [],
    expected: { 'silicone-grease': 'notListed' },
  },
  {
    what: 'moisture of a disc',
    sample: 'naphthalene',
    state: 'disc',
    added: 'moisture',
    height: 0.3,
    used: [],
    expected: { 'disc-moisture': 'present', 'carbon-dioxide': 'notListed' },
  },
];

describe('contaminants', () => {
  it.each(SCENARIOS)(
    '$what',
    ({ sample, state = 'film', added, height = 0, own = [], used, expected }) => {
      const molecule = moleculeNamed(sample);
      const more =
        added === undefined
          ? []
          : BANDS[added].split(' ').map((band) => {
              const [position, share, width = '18'] = band.split('/');
              return `${position}/${Number(share) * height}/${width}`;
            });
      const spectrum = simulated(
        { ...molecule, bands: [molecule.bands, ...more].join(' ') },
        { ...CLEAN, state },
      );
      const judged = judgeContaminants(contextOf(spectrum), own, { used, sample: [] });
      for (const [id, verdict] of Object.entries(expected))
        expect([id, judged.find((one) => one.id === id)?.verdict ?? 'notListed']).toEqual([
          id,
          verdict,
        ]);
      for (const one of judged) expect(one.probability).toBeLessThanOrEqual(0.95);
    },
  );

  it('water in a dry-looking hydrocarbon is listed', () => {
    const molecule = moleculeNamed('undecane');
    const spectrum = simulated(
      { ...molecule, bands: `${molecule.bands} 3395/.4/360 1640/.11/80` },
      { ...CLEAN, state: 'film' },
    );
    const own = [{ low_percm: 2800, high_percm: 3000, mostShare: 1 }];
    const water = judgeContaminants(contextOf(spectrum), own, { used: ['water'], sample: [] }).find(
      ({ id }) => id === 'water',
    );
    expect(water?.verdict).toBe('present');
  });

  it('a substance is no contaminant of itself', () => {
    const spectrum = simulated(moleculeNamed('cyclohexanone'), { ...CLEAN, state: 'film' });
    const judged = judgeContaminants(contextOf(spectrum), [], {
      used: ['acetone'],
      sample: ['acetone'],
    });
    expect(judged.some(({ id }) => id === 'acetone')).toBe(false);
  });
});
