import { beforeAll, describe, expect, it } from 'vitest';
import type { ClaimReport } from '../../src/core/evidence/spectrum/claims/check-claims.ts';
import { checkClaims } from '../../src/core/evidence/spectrum/claims/check-claims.ts';
import type { ClaimFindingId } from '../../src/core/evidence/spectrum/claims/finding.ts';
import type { InfraredSpectrum, SampleState } from '../../src/core/evidence/spectrum/infrared.ts';
import { bandsFor } from '../../src/core/evidence/spectrum/judge/bands.ts';
import { judgeInfrared } from '../../src/core/evidence/spectrum/judge/judge.ts';
import type { BandClaim } from '../../src/core/evidence/spectrum/schema.ts';
import {
  bandsAt,
  evenly,
  noisy,
  spectrumOf,
} from '../../src/core/evidence/spectrum/treat/testing/curves.ts';
import type { KnownBand } from '../../src/core/evidence/spectrum/treat/testing/curves.ts';
import type { StructureFacts } from '../../src/core/evidence/structure.ts';
import { timesIn } from '../../src/core/evidence/structure.ts';
import type { Random } from '../../src/core/quantity/random.ts';
import { seededRandom } from '../../src/core/quantity/random.ts';
import { structureFacts } from '../../src/structures/facts.ts';
import type { StructureKit } from '../../src/structures/port.ts';
import { loadStructureKit } from '../../src/structures/rdkit.ts';
import published from './ir-claims.json' with { type: 'json' };

/**
 * Every slip put into a right table, at random: is it among the first two candidates? Tables and
 * positions are the printed ones, the traces are drawn from them: heights and widths from memory.
 */
const SHOWN = process.env['SHOW_RATES'] !== undefined;
const TRIALS = SHOWN ? 60 : 24;

/** The trace as drawn, and as a poor instrument and another sample would have it. */
interface Look {
  readonly name: string;
  readonly noise: number;
  readonly isPoor: boolean;
  /** The least share of the trials that are found. */
  readonly least: number;
}

const LOOKS: readonly Look[] = [
  { name: 'a good trace', noise: 0.0008, isPoor: false, least: 0.9 },
  { name: 'a poor trace', noise: 0.003, isPoor: true, least: 0.75 },
];

/**
 * Poor: the scale is off by up to 3 cm⁻¹, widths vary by 30 %, heights by 40 %, and the baseline rises.
 */
function spoiled(bands: readonly KnownBand[], seed: number): KnownBand[] {
  const off = 3 * Math.sin(seed);
  return bands.map((one) => ({
    ...one,
    position: one.position + off,
    width: one.width * (1 + 0.3 * Math.sin(3 * seed + one.position)),
    height: one.height * (1 + 0.4 * Math.sin(5 * seed + 1.7 * one.position)),
  }));
}

function drawn(
  sample: Sample,
  extra: readonly KnownBand[],
  look: Look,
  seed: number,
): InfraredSpectrum {
  const x = evenly(450, 4000, 2);
  // Heights of what is added are shares of the tallest band
  const tallest = Math.max(...bandsAt(x, sample.bands));
  const all = [...sample.bands, ...extra.map((one) => ({ ...one, height: tallest * one.height }))];
  const clean = bandsAt(x, look.isPoor ? spoiled(all, seed) : all);
  const raised = look.isPoor ? clean.map((y, i) => y + 0.03 + 0.1 * (i / x.length) ** 2) : clean;
  return spectrumOf(x, noisy(raised, look.noise, seed + 1), {
    state: sample.state,
    positionU_percm: look.isPoor ? 2 : 0.5,
  });
}

let kit: StructureKit;
beforeAll(async () => {
  kit = await loadStructureKit();
});

const factsOf = (smiles: string): StructureFacts => {
  const reading = structureFacts(kit, smiles);
  if (!reading.ok) throw new Error(`${smiles}: ${reading.message}`);
  return reading.facts;
};

interface Sample {
  readonly compound: string;
  readonly smiles: string;
  readonly state: SampleState;
  readonly facts: StructureFacts;
  readonly claims: readonly BandClaim[];
  readonly bands: readonly KnownBand[];
}

const SHAPES: readonly (readonly [RegExp, height: number, width: number])[] = [
  [/overtone/, 0.03, 24],
  [/OH\b.*acid/, 0.5, 500],
  [/^(?!.*(?:C-OH|COH)).*\bOH\b/, 0.6, 220],
  [/NH/, 0.3, 40],
  [/C=O/, 1, 22],
  [/NO2/, 0.9, 18],
  [/sp3/, 0.6, 22],
  [/sp2|sp,|CHO|CH\)/, 0.15, 14],
  [/C≡|CN/, 0.25, 12],
  [/C=C/, 0.2, 12],
  [/oop/, 0.6, 12],
  [/CO|C-O/, 0.7, 22],
  [/./, 0.35, 12],
];

function sampleOf(table: (typeof published.keys)[number]['tables'][number]): Sample {
  const bands: KnownBand[] = [];
  const claims: BandClaim[] = [];
  for (const { at, group } of table.lines) {
    const [, height, width] = SHAPES.find(([words]) => words.test(group))!;
    for (const part of at.split(', ')) {
      const places = part
        .split('-')
        .map(Number)
        .sort((a, b) => a - b);
      const [low = 0, high] = places;
      claims.push({
        position_percm: low,
        ...(high === undefined ? {} : { high_percm: high }),
        group,
      });
      const tops = high === undefined || width < 100 ? places : [(low + high) / 2];
      for (const position of tops) bands.push({ position, width, height, shape: 'lorentz' });
    }
  }
  const { compound, smiles } = table;
  const state = table.state as SampleState;
  return { compound, smiles, state, facts: factsOf(smiles), claims, bands };
}

/** What is asked about a slipped table, and what should come out. */
interface Slipped {
  readonly sample: Sample;
  readonly claims: readonly BandClaim[];
  readonly expected: ClaimFindingId;
  /** The line that slipped; absent: the whole table. */
  readonly line?: number;
  readonly extra?: readonly KnownBand[];
  readonly startingMaterials?: readonly string[];
  readonly solvents?: readonly (readonly [name: string, smiles: string])[];
  readonly conclusion?: string;
  readonly spoil?: (spectrum: InfraredSpectrum) => InfraredSpectrum;
  readonly others?: (spectrum: InfraredSpectrum) => readonly InfraredSpectrum[];
}

type Slip = (sample: Sample, random: Random) => Slipped | undefined;

const pick = <T>(items: readonly T[], { uniform }: Random): T | undefined =>
  items[Math.floor(uniform() * items.length)];
const between = (low: number, high: number, { uniform }: Random): number =>
  low + (high - low) * uniform();
const single = ({ high_percm }: BandClaim): boolean => high_percm === undefined;
const band = (position: number, height: number, width: number): KnownBand => ({
  position,
  height,
  width,
  shape: 'gauss',
});

const holds = ({ facts }: Sample, ...patterns: readonly string[]): boolean =>
  patterns.some((pattern) => timesIn(facts, pattern) > 0);

const lines = (sample: Sample, words: RegExp): number[] =>
  sample.claims.flatMap(({ group }, i) => (words.test(group) ? [i] : []));

const changed = (
  sample: Sample,
  line: number,
  expected: ClaimFindingId,
  change: Partial<BandClaim>,
  more: Partial<Slipped> = {},
): Slipped => {
  const claims = sample.claims.map((claim, i) => {
    if (i !== line) return claim;
    const { high_percm, ...rest } = claim;
    const merged = { ...rest, ...change };
    return change.position_percm === undefined && high_percm !== undefined
      ? { ...merged, high_percm }
      : merged;
  });
  return { sample, claims, expected, line, ...more };
};

const added = (
  sample: Sample,
  expected: ClaimFindingId,
  claim: BandClaim,
  more: Partial<Slipped> = {},
): Slipped => ({
  sample,
  claims: [...sample.claims, claim],
  expected,
  line: sample.claims.length,
  ...more,
});

/** So far from every band that nobody could mean one. */
const free = ({ bands }: Sample, position: number): boolean =>
  bands.every((one) => Math.abs(one.position - position) > (one.width > 80 ? 50 : 14));

const someSingle = (sample: Sample, random: Random, test: (claim: BandClaim) => boolean) =>
  pick(
    sample.claims.flatMap((claim, i) => (single(claim) && test(claim) ? [i] : [])),
    random,
  );

const hasHydroxyl = (sample: Sample): boolean =>
  holds(sample, 'hydroxyl', 'amine-primary', 'amine-secondary-aryl', 'amide-nh2', 'alkyne-ch');

const SLIPS: Readonly<Record<string, Slip>> = {
  'a position in no band': (sample, random) => {
    const line = someSingle(sample, random, () => true);
    if (line === undefined) return undefined;
    const sign = random.uniform() < 0.5 ? -1 : 1;
    const position = Math.round(
      sample.claims[line]!.position_percm + sign * between(18, 60, random),
    );
    if (!free(sample, position)) return undefined;
    return changed(sample, line, 'no-band-there', { position_percm: position });
  },
  'the middle of a window': (sample, random) => {
    const rows = bandsFor(sample.facts, sample.state).map((one) => one.band);
    const line = someSingle(sample, random, ({ group }) => /C=O|NO2|C≡|OH|NH/.test(group));
    if (line === undefined) return undefined;
    const { group, position_percm } = sample.claims[line]!;
    const name = /C=O/.test(group)
      ? 'C=O'
      : /NO2/.test(group)
        ? 'NO₂'
        : /C≡/.test(group)
          ? 'C≡'
          : /OH/.test(group)
            ? 'O–H s'
            : 'N–H s';
    const row = pick(
      rows.filter(
        ({ vibration, low_percm, high_percm }) =>
          vibration.startsWith(name) && low_percm < position_percm && high_percm > position_percm,
      ),
      random,
    );
    if (row === undefined) return undefined;
    const position = Math.round((row.low_percm + row.high_percm) / 2);
    if (!free(sample, position)) return undefined;
    return changed(sample, line, 'table-value', { position_percm: position });
  },
  'a wavelength': (sample, random) => {
    const line = someSingle(sample, random, () => true);
    if (line === undefined) return undefined;
    const um = Math.round(1e6 / sample.claims[line]!.position_percm) / 100;
    return changed(sample, line, 'wavelength-as-wavenumber', { position_percm: um });
  },
  'the other scale': (sample, random) => {
    const line = someSingle(
      sample,
      random,
      ({ position_percm }) => Math.abs(position_percm - 2000) > 200,
    );
    if (line === undefined) return undefined;
    const x = sample.claims[line]!.position_percm;
    const position = Math.round(x > 2000 ? 2000 + (x - 2000) / 2 : 2000 - 2 * (2000 - x));
    if (position < 500 || !free(sample, position)) return undefined;
    return changed(sample, line, 'axis-break', { position_percm: position });
  },
  'a summit of the %T curve': (sample, random) => {
    const tops = sample.bands.map(({ position }) => position).sort((a, b) => a - b);
    const gaps = tops.flatMap((low, i) => {
      const high = tops[i + 1];
      return high !== undefined && high - low > 45 && high - low < 160
        ? [[low, high] as const]
        : [];
    });
    const gap = pick(gaps, random);
    if (gap === undefined) return undefined;
    const x = evenly(...gap, 1);
    const y = bandsAt(x, sample.bands);
    const position = x[y.indexOf(Math.min(...y))]!;
    const line = sample.claims.findIndex(
      (claim) => single(claim) && gap.includes(claim.position_percm),
    );
    if (line < 0 || !free(sample, position)) return undefined;
    return changed(sample, line, 'minimum-picked', { position_percm: position });
  },
  'a faint O–H': (sample, random) => {
    if (hasHydroxyl(sample) || holds(sample, 'carbonyl')) return undefined;
    const position = Math.round(between(3300, 3550, random));
    return added(
      sample,
      'faint-hydroxyl',
      { position_percm: position, group: 'O–H stretch, alcohol' },
      { extra: [band(position, between(0.015, 0.035, random), between(60, 160, random))] },
    );
  },
  'water called an alcohol': (sample, random) => {
    if (hasHydroxyl(sample)) return undefined;
    const height = between(0.12, 0.5, random);
    return added(
      sample,
      'water-as-alcohol',
      { position_percm: 3400, group: 'O-H stretch (alcohol)', shape: 'broad' },
      { extra: [band(3405, height, 260), band(1640, 0.35 * height, 50)] },
    );
  },
  'acid O–H called C–H': (sample, random) => {
    const line = pick(lines(sample, /^(?!.*(?:C-OH|COH)).*OH.*acid/), random);
    if (line === undefined) return undefined;
    return changed(sample, line, 'acid-hydroxyl-as-ch', {
      group: pick(['C–H stretch', 'sp3 C-H', 'alkane C–H stretch'], random)!,
      shape: 'broad',
    });
  },
  'N–H and O–H swapped': (sample, random) => {
    const line = pick(lines(sample, /^(?!.*(?:C-OH|COH|acid)).*\b(?:OH|NH2?)\b/), random);
    if (line === undefined || sample.claims[line]!.position_percm < 2600) return undefined;
    const isOh = /OH/.test(sample.claims[line]!.group);
    return changed(sample, line, 'nh-oh-swapped', {
      group: isOh ? 'N–H stretch, amine' : 'O–H stretch, alcohol',
    });
  },
  'C–H above 3000 called alkane': (sample, random) => {
    const line = pick(
      lines(sample, /sp2/).filter((i) => sample.claims[i]!.position_percm > 3010),
      random,
    );
    if (line === undefined) return undefined;
    return changed(sample, line, 'above-3000-as-alkane', {
      group: pick(['C–H stretch, alkane', 'sp³ C–H', 'CH3 stretch'], random)!,
    });
  },
  'CO₂ called a triple bond': (sample, random) => {
    const height = between(0.03, 0.2, random);
    return added(
      sample,
      'air-as-triple-bond',
      {
        position_percm: Math.round(between(2334, 2362, random)),
        group: pick(['C≡N stretch', 'C#C', 'nitrile', 'alkyne C≡C'], random)!,
      },
      { extra: [band(2361, height, 18), band(2339, 0.85 * height, 25)] },
    );
  },
  'C≡N without nitrogen': (sample, random) => {
    if (sample.smiles.toUpperCase().includes('N')) return undefined;
    const position = Math.round(between(2210, 2260, random));
    return added(
      sample,
      'element-missing',
      { position_percm: position, group: pick(['C≡N', 'nitrile', 'C-N stretch'], random)! },
      { extra: [band(position, between(0.03, 0.2, random), 14)] },
    );
  },
  'a weak 1600 called C=O': (sample, random) => {
    const line = pick(
      lines(sample, /C=C/).filter((i) => sample.claims[i]!.position_percm > 1572),
      random,
    );
    if (line === undefined) return undefined;
    return changed(sample, line, 'weak-1600-as-carbonyl', {
      group: pick(['C=O stretch', 'carbonyl', 'C=O, ketone'], random)!,
    });
  },
  'a C=O that is left, passed over': (sample, random) => {
    if (holds(sample, 'carbonyl')) return undefined;
    return {
      sample,
      claims: sample.claims,
      expected: 'left-over-not-mentioned',
      extra: [band(between(1705, 1722, random), between(0.12, 0.6, random), 22)],
      startingMaterials: ['CC(=O)C1CCCCC1'],
      conclusion: 'The product was made.',
    };
  },
  'nothing said of the starting band': (sample, random) => {
    if (holds(sample, 'carbonyl')) return undefined;
    return {
      sample,
      claims: sample.claims,
      expected: 'change-not-mentioned',
      startingMaterials: [pick(['CC(=O)C1CCCCC1', 'O=C1CCCCC1', 'O=Cc1ccccc1'], random)!],
      conclusion: 'The spectrum agrees with the product.',
    };
  },
  'an overtone called O–H': (sample, random) => {
    if (hasHydroxyl(sample) || !holds(sample, 'carbonyl')) return undefined;
    const nu = sample.claims.find(({ group }) => /^(?!.*overtone).*C=O/.test(group));
    if (nu === undefined || sample.claims.some(({ group }) => group.includes('overtone')))
      return undefined;
    const position = Math.round(2 * nu.position_percm - between(10, 34, random));
    return added(
      sample,
      'overtone-as-hydroxyl',
      { position_percm: position, group: 'O–H stretch' },
      { extra: [band(position, between(0.015, 0.045, random), 26)] },
    );
  },
  'ring overtones called C=O': (sample, random) => {
    if (!holds(sample, 'benzene-ring')) return undefined;
    const rows = [1945, 1875, 1800, 1762];
    const position = pick(
      rows.filter((one) => sample.bands.every(({ position: top }) => Math.abs(top - one) > 45)),
      random,
    );
    if (position === undefined) return undefined;
    return added(
      sample,
      'combination-as-carbonyl',
      { position_percm: position, group: 'C=O stretch' },
      { extra: rows.map((one) => band(one, between(0.02, 0.06, random), 20)) },
    );
  },
  'an aldehyde without its C–H': (sample, random) => {
    if (holds(sample, 'aldehyde')) return undefined;
    const line = pick(lines(sample, /^(?!.*overtone).*C=O/), random);
    if (line === undefined) return undefined;
    return changed(sample, line, 'aldehyde-without-ch', { group: 'C=O stretch, aldehyde' });
  },
  'five and more below 1500': (sample) => {
    const below = sample.bands.filter(({ position }) => position < 1500);
    const more = below.map(({ position }) => ({
      position_percm: Math.round(position),
      group: 'C–C',
    }));
    const claims = [...sample.claims, ...more];
    return claims.filter(({ position_percm }) => position_percm < 1500).length > 4
      ? { sample, claims, expected: 'crowded-fingerprint' }
      : undefined;
  },
  'C–O called C–C': (sample, random) => {
    const line = pick(lines(sample, /C-OH|COC|COH|CO,|C-O/), random);
    if (line === undefined) return undefined;
    return changed(sample, line, 'co-as-cc', { group: 'C–C stretch' });
  },
  'the C–O of an alcohol left out': (sample) => {
    if (!holds(sample, 'alcohol', 'phenol') || holds(sample, 'carbonyl')) return undefined;
    const claims = sample.claims.filter(({ group }) => !/C-OH|COC|COH|CO,/.test(group));
    return { sample, claims, expected: 'co-not-assigned' };
  },
  'too thick': (sample, random) => ({
    sample,
    claims: sample.claims,
    expected: 'too-thick',
    spoil: (spectrum) => {
      const factor = between(4, 10, random) / Math.max(...spectrum.absorbance);
      const cut = between(1.75, 2.2, random);
      return {
        ...spectrum,
        recordedAs: 'transmittance',
        absorbance: spectrum.absorbance.map((value) => Math.min(cut, factor * value)),
      };
    },
  }),
  'too weak': (sample, random) => ({
    sample,
    claims: sample.claims,
    expected: 'too-weak',
    spoil: (spectrum) => {
      const factor = between(0.01, 0.035, random) / Math.max(...spectrum.absorbance);
      return { ...spectrum, absorbance: spectrum.absorbance.map((value) => factor * value) };
    },
  }),
  'acetone called the product': (sample, random) => {
    if (holds(sample, 'carbonyl')) return undefined;
    const height = between(0.15, 0.8, random);
    return added(
      sample,
      'solvent-band',
      { position_percm: 1714, group: 'C=O stretch' },
      {
        extra: [
          band(1714, height, 22),
          band(1362, 0.6 * height, 14),
          band(1222, 0.55 * height, 16),
          band(1420, 0.25 * height, 16),
          band(530, 0.25 * height, 14),
        ],
        ...(random.uniform() < 0.5 ? { solvents: [['acetone', 'CC(C)=O']] as const } : {}),
      },
    );
  },
  'ether called the product': (sample, random) => {
    if (holds(sample, 'ether', 'alcohol') || !free(sample, 1121)) return undefined;
    const height = between(0.25, 0.9, random);
    return added(
      sample,
      'solvent-band',
      { position_percm: 1121, group: 'C–O stretch' },
      {
        extra: [
          band(1121, height, 24),
          band(2977, 0.6 * height, 20),
          band(2865, 0.5 * height, 24),
          band(1383, 0.3 * height, 12),
          band(1351, 0.2 * height, 12),
        ],
        solvents: [['diethyl ether', 'CCOCC']],
      },
    );
  },
  'a table that fits the starting material': (sample) => {
    const claims = sample.claims.filter(({ group }) => /sp3|CH\d.*bend/.test(group));
    const alkyl = !holds(sample, 'cyclopropane-ch') && holds(sample, 'methylene');
    if (claims.length < 2 || !alkyl) return undefined;
    return {
      sample,
      claims,
      expected: 'fits-starting-material',
      startingMaterials: ['CCCC(=O)CC(C)C'],
      conclusion: 'The product was made.',
    };
  },
  'a copy of another file': (sample, random) => ({
    sample,
    claims: sample.claims,
    expected: 'same-noise',
    others: (spectrum) => {
      const factor = between(0.7, 1.3, random);
      const offset = between(-0.02, 0.05, random);
      return [
        {
          ...spectrum,
          title: 'another file',
          absorbance: spectrum.absorbance.map((value) => factor * value + offset),
        },
      ];
    },
  }),
};

function reportOf(slipped: Slipped, look: Look, seed: number): ClaimReport {
  const { sample, claims, extra = [], startingMaterials = [], solvents = [] } = slipped;
  const clean = drawn(sample, extra, look, seed);
  const spectrum = slipped.spoil?.(clean) ?? clean;
  const product = { name: sample.compound, facts: sample.facts };
  const before = startingMaterials.map((smiles) => factsOf(smiles));
  const judgement = judgeInfrared({
    spectrum,
    product,
    startingMaterials: before.map((facts) => ({ name: facts.smiles, facts })),
    reagents: [],
    solvents: solvents.map(([name, smiles]) => ({ name, facts: factsOf(smiles) })),
  });
  return checkClaims({
    spectrum,
    claims,
    product: sample.facts,
    startingMaterials: before,
    judgement,
    ...(slipped.conclusion === undefined ? {} : { conclusion: slipped.conclusion }),
    ...(slipped.others === undefined ? {} : { others: slipped.others(spectrum) }),
  });
}

const rightSamples = (): Sample[] =>
  published.keys
    .flatMap(({ tables }) => tables)
    .filter(({ lines: all }) => all.every((line) => !('deviation' in line)))
    .map(sampleOf);

describe.each(LOOKS)('every slip, put into right tables: $name', (look) => {
  it.each(Object.entries(SLIPS))(
    '%s',
    (name, slip) => {
      const random = seededRandom(look.isPoor ? 4711 : 20_261_128);
      const samples = rightSamples();
      let [tried, found, first] = [0, 0, 0];
      const missed: string[] = [];
      for (let i = 0; i < 40 * TRIALS && tried < TRIALS; i++) {
        const slipped = slip(pick(samples, random)!, random);
        if (slipped === undefined) continue;
        tried++;
        const report = reportOf(slipped, look, i);
        const { line, expected } = slipped;
        const findings = line === undefined ? report.table : report.claims[line]!.findings;
        const rank = findings.findIndex(({ id }) => id === expected);
        if (rank === 0) first++;
        if (rank === 0 || rank === 1) found++;
        else
          missed.push(
            `${slipped.sample.compound} ${line === undefined ? '' : JSON.stringify(slipped.claims[line])}: ` +
              findings.map(({ id, likelihood }) => `${id} ${likelihood}`).join(', '),
          );
      }
      if (SHOWN) process.stdout.write(`${look.name}, ${name}: ${found}/${tried}, first ${first}\n`);
      expect(tried).toBeGreaterThanOrEqual(20);
      expect(found / tried, missed.join('\n')).toBeGreaterThanOrEqual(look.least);
    },
    60_000,
  );

  it('right tables are left alone', () => {
    let [all, stand] = [0, 0];
    const alarms: string[] = [];
    for (const [i, sample] of rightSamples().entries())
      for (const seed of [i, i + 100, i + 200]) {
        const report = reportOf(
          { sample, claims: sample.claims, expected: 'too-weak' },
          look,
          seed,
        );
        for (const { claim, verdict, findings } of report.claims) {
          all++;
          if (verdict === 'stands') stand++;
          else
            alarms.push(
              `${sample.compound} ${JSON.stringify(claim)}: ${verdict} ${findings[0]?.id}`,
            );
        }
        for (const { id, weight } of report.table)
          if (weight !== 'notes') alarms.push(`${sample.compound}: ${id}`);
      }
    if (SHOWN)
      process.stdout.write(
        `${look.name}, right lines that stand: ${stand}/${all}\n${alarms.join('\n')}\n`,
      );
    expect(all).toBeGreaterThan(500);
    expect(stand / all, alarms.join('\n')).toBeGreaterThan(look.isPoor ? 0.93 : 0.97);
  }, 60_000);
});
