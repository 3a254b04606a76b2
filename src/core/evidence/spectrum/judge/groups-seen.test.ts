import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SampleState } from '../infrared.ts';
import type { JudgedGroup, Verdict } from './group-judgement.ts';
import { groupsSeen } from './groups-seen.ts';
import { judgeStructure } from './judge-structure.ts';
import { MOLECULES } from './testing/molecules.ts';
import { elementsIn, judgementOf, moleculeNamed, traceOf } from './testing/scenario.ts';
import type { Distortion } from './testing/simulate.ts';
import { simulated, usualDistortion } from './testing/simulate.ts';

interface Scenario {
  readonly what: string;
  readonly molecule: string;
  readonly state: SampleState;
  readonly verdicts: Partial<Record<JudgedGroup, Verdict>>;
  /** Verdicts that would be wrong, where the trace leaves it open. */
  readonly never?: Partial<Record<JudgedGroup, Verdict>>;
  readonly distortion?: Partial<Distortion>;
  /** The judge is not told the elements. */
  readonly blind?: boolean;
}

const SCENARIOS: readonly Scenario[] = [
  {
    what: 'an alcohol',
    molecule: 'butan-1-ol',
    state: 'film',
    verdicts: { oh: 'present', carbonyl: 'absent', acid: 'absent' },
  },
  {
    what: 'an alkane',
    molecule: 'undecane',
    state: 'film',
    verdicts: {
      oh: 'absent',
      carbonyl: 'absent',
      nitrile: 'absent',
      nitro: 'absent',
      acid: 'absent',
    },
    blind: true,
  },
  {
    what: 'the overtone of a C=O is no O–H',
    molecule: 'cyclohexanone',
    state: 'film',
    verdicts: { oh: 'absent', carbonyl: 'present' },
    blind: true,
  },
  {
    what: 'NH2 of an aryl amine is no O–H',
    molecule: 'aniline',
    state: 'film',
    verdicts: { nh: 'present', carbonyl: 'absent' },
    never: { oh: 'present' },
    blind: true,
  },
  {
    what: 'the N–H of an amide is no O–H',
    molecule: 'acetanilide',
    state: 'disc',
    verdicts: { oh: 'absent', nh: 'present', carbonyl: 'present' },
  },
  {
    what: 'an acid is no alcohol',
    molecule: 'butyric acid',
    state: 'film',
    verdicts: { acid: 'present', oh: 'absent', carbonyl: 'present' },
    blind: true,
  },
  {
    what: 'an acid in a mull',
    molecule: 'benzoic acid',
    state: 'mull',
    verdicts: { acid: 'present', carbonyl: 'present' },
  },
  {
    what: 'moisture of a disc is no alcohol',
    molecule: 'benzophenone',
    state: 'disc',
    verdicts: { oh: 'absent', carbonyl: 'present' },
    distortion: { water: 0.12 },
  },
  {
    what: 'a hindered phenol, narrow',
    molecule: 'BHT',
    state: 'disc',
    verdicts: { oh: 'present' },
  },
  {
    what: 'a terminal alkyne is no O–H',
    molecule: 'oct-1-yne',
    state: 'film',
    verdicts: { 'alkyne-h': 'present', oh: 'absent' },
  },
  {
    what: 'the strong C=C of a vinyl ether is no C=O',
    molecule: 'ethyl vinyl ether',
    state: 'film',
    verdicts: { oh: 'absent', acid: 'absent' },
    never: { carbonyl: 'present' },
  },
  { what: 'a nitrile', molecule: 'benzonitrile', state: 'film', verdicts: { nitrile: 'present' } },
  {
    what: 'no nitrile without nitrogen',
    molecule: 'oct-1-yn-3-ol',
    state: 'film',
    verdicts: { nitrile: 'absent', oh: 'present' },
  },
  {
    what: 'a nitro group',
    molecule: 'nitrobenzene',
    state: 'film',
    verdicts: { nitro: 'present', carbonyl: 'absent' },
  },
  {
    what: 'an amide is no nitro group',
    molecule: 'acetanilide',
    state: 'mull',
    verdicts: { nh: 'present' },
    never: { nitro: 'present' },
  },
  {
    what: 'an aldehyde',
    molecule: 'octanal',
    state: 'film',
    verdicts: { 'aldehyde-ch': 'present', carbonyl: 'present' },
  },
  {
    what: 'an ester is no aldehyde',
    molecule: 'hexyl acetate',
    state: 'film',
    verdicts: { 'aldehyde-ch': 'absent', carbonyl: 'present' },
  },
  {
    what: 'the O–H of a vapour, narrow and weak',
    molecule: 'hexan-1-ol gas',
    state: 'gas',
    verdicts: { oh: 'present', carbonyl: 'absent' },
  },
  {
    what: 'the O–H of an acid vapour is no alcohol',
    molecule: 'acetic acid gas',
    state: 'gas',
    verdicts: { acid: 'present', oh: 'absent', carbonyl: 'present' },
  },
  {
    what: 'the N–H of a vapour is no O–H',
    molecule: 'indole gas',
    state: 'gas',
    verdicts: { oh: 'absent', nh: 'present' },
  },
  {
    what: 'a ketone vapour',
    molecule: 'cyclopentanone gas',
    state: 'gas',
    verdicts: { carbonyl: 'present', oh: 'absent' },
    blind: true,
  },
  {
    what: 'C=N of a vapour is no C=O',
    molecule: 'N-benzylidenemethylamine gas',
    state: 'gas',
    verdicts: { carbonyl: 'absent' },
  },
];

const firmly = (verdict: Verdict, other: Verdict) => verdict !== 'cannotTell' && verdict !== other;

describe('groups seen in a trace', () => {
  it.each(SCENARIOS)(
    '$what: $molecule',
    ({ molecule, state, verdicts, never = {}, distortion, blind }) => {
      const spectrum = traceOf(molecule, state, distortion);
      const known = blind === true ? {} : { elements: elementsIn(moleculeNamed(molecule)) };
      for (const [group, verdict] of Object.entries(never))
        expect(judgementOf(spectrum, group as JudgedGroup, known).verdict).not.toBe(verdict);
      for (const [group, verdict] of Object.entries(verdicts))
        expect([group, judgementOf(spectrum, group as JudgedGroup, known).verdict]).toEqual([
          group,
          verdict,
        ]);
    },
  );

  it('never names a C–O or C–Cl alone', () => {
    for (const name of ['butan-1-ol', 'tetrahydrofuran', 'chlorobenzene']) {
      const all = groupsSeen(traceOf(name, 'film'));
      for (const one of all.filter(({ group }) => group === 'c-o' || group === 'c-cl'))
        expect(one.verdict).not.toBe('present');
    }
  });

  it('does not call a chelated O–H absent once the structure says that there is one', () => {
    const spectrum = traceOf('acetylacetone', 'film');
    expect(judgementOf(spectrum, 'oh').verdict).not.toBe('present');
    const facts = {
      smiles: 'CC(=O)C=C(C)O',
      matches: {
        enol: [[6]],
        hydroxyl: [[6]],
        'enol-chelated': [[6, 4, 3, 1, 2]],
        carbonyl: [[1, 2]],
      },
    };
    const told = judgeStructure(spectrum, facts).find(({ group }) => group === 'oh')!;
    expect(told.verdict).toBe('cannotTell');
    expect(told.reasons.join(' ')).toContain('inside the molecule');
  });

  it('cannot tell where the record ends too early', () => {
    const whole = traceOf('butan-1-ol', 'film');
    const n = whole.wavenumber_percm.findIndex((x) => x > 2400);
    const cut = {
      ...whole,
      wavenumber_percm: whole.wavenumber_percm.subarray(0, n),
      absorbance: whole.absorbance.subarray(0, n),
    };
    expect(judgementOf(cut, 'oh').verdict).toBe('cannotTell');
    expect(judgementOf(cut, 'carbonyl').verdict).toBe('absent');
  });

  it('cannot tell from noise alone', () => {
    const nothing = { ...moleculeNamed('undecane'), bands: '2900/.001' };
    const spectrum = simulated(nothing, {
      ...usualDistortion('film', 1),
      noise: 0.01,
      strength: 0.1,
    });
    for (const one of groupsSeen(spectrum)) expect(one.verdict).toBe('cannotTell');
  });

  it('keeps its verdict when the state is not said, or withholds it', () => {
    for (const molecule of MOLECULES.filter(({ form }) => form === 'liquid')) {
      const spectrum = traceOf(molecule.name, 'film');
      const { state: _said, ...unsaid } = spectrum;
      const known = { elements: elementsIn(molecule) };
      const told = judgementOf(spectrum, 'oh', known).verdict;
      expect(firmly(judgementOf(unsaid, 'oh', known).verdict, told)).toBe(false);
    }
  });
});

describe('what must not change a verdict', () => {
  const molecules = MOLECULES.filter(({ form }) => form !== 'gas');
  const sample = fc.record({
    molecule: fc.constantFrom(...molecules),
    offset: fc.double({ min: -0.05, max: 0.6, noNaN: true }),
    slope: fc.double({ min: 0, max: 0.4, noNaN: true }),
    factor: fc.double({ min: 0.4, max: 2, noNaN: true }),
  });

  it('offset, a sloping baseline, thickness: O–H and C=O never turn over', () => {
    fc.assert(
      fc.property(sample, ({ molecule, offset, slope, factor }) => {
        const state = molecule.form === 'liquid' ? 'film' : 'disc';
        const known = { elements: elementsIn(molecule) };
        const spectrum = traceOf(molecule.name, state, { noise: 0.0005 });
        const moved = {
          ...spectrum,
          absorbance: spectrum.absorbance.map(
            (y, i) => factor * y + offset + (slope * spectrum.wavenumber_percm[i]!) / 4000,
          ),
        };
        for (const group of ['oh', 'carbonyl'] as const) {
          const before = judgementOf(spectrum, group, known).verdict;
          const after = judgementOf(moved, group, known).verdict;
          if (before !== 'cannotTell') expect(firmly(after, before)).toBe(false);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('probabilities are probabilities, and every judgement says what it cannot tell', () => {
    fc.assert(
      fc.property(fc.constantFrom(...MOLECULES), fc.nat(1000), (molecule, seed) => {
        const state = { gas: 'gas', liquid: 'film', solid: 'mull' } as const;
        for (const one of groupsSeen(
          simulated(molecule, usualDistortion(state[molecule.form], seed)),
        )) {
          expect(one.probability).toBeGreaterThanOrEqual(0);
          expect(one.probability).toBeLessThanOrEqual(1);
          expect(one.limits.length).toBeGreaterThan(20);
          expect(one.reasons.length).toBeGreaterThan(0);
        }
      }),
      { numRuns: 40 },
    );
  });
});
