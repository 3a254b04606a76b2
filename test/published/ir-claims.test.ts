import { existsSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type {
  ClaimReport,
  ClaimVerdict,
} from '../../src/core/evidence/spectrum/claims/check-claims.ts';
import { checkClaims } from '../../src/core/evidence/spectrum/claims/check-claims.ts';
import type { InfraredSpectrum, SampleState } from '../../src/core/evidence/spectrum/infrared.ts';
import { judgeInfrared } from '../../src/core/evidence/spectrum/judge/judge.ts';
import { readInstrumentFile } from '../../src/core/evidence/spectrum/read/read-file.ts';
import type { BandClaim } from '../../src/core/evidence/spectrum/schema.ts';
import { infraredOf } from '../../src/core/evidence/spectrum/to-infrared.ts';
import {
  bandsAt,
  evenly,
  noisy,
  spectrumOf,
} from '../../src/core/evidence/spectrum/treat/testing/curves.ts';
import type { KnownBand } from '../../src/core/evidence/spectrum/treat/testing/curves.ts';
import type { StructureFacts } from '../../src/core/evidence/structure.ts';
import { structureFacts } from '../../src/structures/facts.ts';
import type { StructureKit } from '../../src/structures/port.ts';
import { loadStructureKit } from '../../src/structures/rdkit.ts';
import published from './ir-claims.json' with { type: 'json' };

interface Line {
  readonly at: string;
  readonly group: string;
  /** Why the printed line should not stand. */
  readonly deviation?: string;
}

interface Printed {
  readonly compound: string;
  readonly smiles: string;
  readonly state: string;
  readonly lines: readonly Line[];
}

const keys: readonly { readonly source: string; readonly tables: readonly Printed[] }[] =
  published.keys;

let kit: StructureKit;
beforeAll(async () => {
  kit = await loadStructureKit();
});

function factsOf(smiles: string): StructureFacts {
  const reading = structureFacts(kit, smiles);
  if (!reading.ok) throw new Error(`${smiles}: ${reading.message}`);
  return reading.facts;
}

/** "1611, 1526" is two bands, "2877-2963" a range. */
function claimsIn({ at, group }: Line): BandClaim[] {
  return at.split(', ').map((part) => {
    const [a = 0, b] = part.split('-').map(Number);
    return b === undefined
      ? { position_percm: a, group }
      : { position_percm: Math.min(a, b), high_percm: Math.max(a, b), group };
  });
}

/** Height and width that such bands usually have, to draw a trace with. From memory. */
function lookOf(group: string): readonly [height: number, width: number] {
  if (/overtone/.test(group)) return [0.03, 24];
  if (/OH\b.*acid/.test(group)) return [0.5, 500];
  if (/\bOH\b/.test(group) && !/C-OH|COH/.test(group)) return [0.6, 180];
  if (/NH/.test(group)) return [0.3, 40];
  if (/C=O/.test(group)) return [1, 22];
  if (/NO2/.test(group)) return [0.9, 18];
  if (/sp3/.test(group)) return [0.6, 22];
  if (/sp2|sp,|CHO/.test(group)) return [0.15, 14];
  if (/C≡|CN/.test(group)) return [0.25, 12];
  if (/CO|C-O/.test(group)) return [0.7, 22];
  return [0.35, 12];
}

/** A trace that has a band at each printed place; of a range at both ends, of a wide O–H in its middle. */
function drawn(table: Printed): InfraredSpectrum {
  const bands: KnownBand[] = table.lines.flatMap((line) => {
    const [height, width] = lookOf(line.group);
    return claimsIn(line).flatMap(({ position_percm, high_percm }) => {
      const places =
        high_percm === undefined
          ? [position_percm]
          : width > 100
            ? [(position_percm + high_percm) / 2]
            : [position_percm, high_percm];
      return places.map((position) => ({ position, width, height, shape: 'lorentz' as const }));
    });
  });
  const x = evenly(450, 4000, 2);
  return spectrumOf(x, noisy(bandsAt(x, bands), 0.0005, 7), { state: table.state as SampleState });
}

function checked(
  spectrum: InfraredSpectrum,
  { compound, smiles }: Pick<Printed, 'compound' | 'smiles'>,
  claims: readonly BandClaim[],
): ClaimReport {
  const facts = factsOf(smiles);
  const judgement = judgeInfrared({
    spectrum,
    product: { name: compound, facts },
    startingMaterials: [],
    reagents: [],
    solvents: [],
  });
  return checkClaims({ spectrum, claims, product: facts, startingMaterials: [], judgement });
}

const told = (report: ClaimReport): string[] =>
  report.claims.map(
    ({ claim, verdict, findings }) =>
      `${claim.position_percm} ${claim.group}: ${verdict}${findings[0] ? ` (${findings[0].id} ${findings[0].likelihood})` : ''}`,
  );

const tally: Record<ClaimVerdict, number> = {
  stands: 0,
  doubtful: 0,
  contradicted: 0,
  cannotTell: 0,
};

describe.each(keys)('$source', ({ tables }) => {
  it.each(tables)('$compound', (table) => {
    const claims = table.lines.flatMap(claimsIn);
    const expected = table.lines.flatMap((line) =>
      claimsIn(line).map(
        (claim) => `${claim.position_percm} ${claim.group}: ${line.deviation === undefined}`,
      ),
    );
    const report = checked(drawn(table), table, claims);
    for (const { verdict } of report.claims) tally[verdict]++;
    expect(
      report.claims.map(
        ({ claim, verdict }) => `${claim.position_percm} ${claim.group}: ${verdict === 'stands'}`,
      ),
      told(report).join('\n'),
    ).toEqual(expected);
  });
});

/** Drawn at the printed places, so this is of the words and the windows, not of the eyes. */
it('printed lines that stand: 98 in 100', () => {
  const all = Object.values(tally).reduce((sum, n) => sum + n, 0);
  expect(all).toBeGreaterThan(250);
  expect(tally.stands / all).toBeGreaterThan(0.97);
  expect(tally.cannotTell).toBe(0);
});

const folder = new URL('../../../shared/spectra/', import.meta.url);
const here = existsSync(new URL('MANIFEST.csv', folder));
const said = here
  ? 'measured traces and tables of others'
  : 'measured traces: SKIPPED, the folder shared/spectra is not here';

function measured(file: string, state: SampleState): InfraredSpectrum {
  const reading = readInstrumentFile(readFileSync(new URL(file, folder)), file);
  if (!reading.ok) throw new Error(`${file}: ${reading.problem.message}`);
  for (const trace of reading.traces) {
    const got = infraredOf(trace, { state });
    if (got.ok) return got.spectrum;
  }
  throw new Error(`${file}: no absorption spectrum`);
}

describe.skipIf(!here)(said, () => {
  it.each(published.measured as readonly (Printed & { file: string; source: string })[])(
    '$compound, $file: $source',
    (table) => {
      const spectrum = measured(table.file, table.state as SampleState);
      const report = checked(spectrum, table, table.lines.flatMap(claimsIn));
      const expected = table.lines.flatMap((line) =>
        claimsIn(line).map((claim) => [claim.position_percm, line.deviation === undefined]),
      );
      expect(
        report.claims.map(({ claim, verdict }) => [claim.position_percm, verdict === 'stands']),
        told(report).join('\n'),
      ).toEqual(expected);
    },
  );
});
