/** A bench's evidence, from entries and files to the verdict: a ketone reduced to its alcohol. */
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { tableWith } from '../src/core/chemistry/substance.ts';
import { enact } from '../src/core/enact/enact.ts';
import { programOf } from '../src/core/enact/program.ts';
import type { EvidenceEntered } from '../src/core/evidence/schema.ts';
import { evidenceEnteredSchema } from '../src/core/evidence/schema.ts';
import { readInstrumentFile } from '../src/core/evidence/spectrum/read/read-file.ts';
import type { FileReading } from '../src/core/evidence/spectrum/trace.ts';
import type { StructureFacts } from '../src/core/evidence/structure.ts';
import { readExperiment } from '../src/core/experiment/read.ts';
import { actualsOf } from '../src/core/record/actuals.ts';
import { readCsvRecord } from '../src/core/record/csv.ts';
import type { BenchEntry } from '../src/core/record/entry.ts';
import { foldRecord } from '../src/core/record/fold.ts';
import { evidenceOf, evidenceReport } from '../src/core/report/evidence/evidence.ts';
import { subjectsOf } from '../src/core/report/evidence/subjects.ts';
import { runResult } from '../src/core/report/result/result.ts';
import { structureFacts } from '../src/structures/facts.ts';
import { loadStructureKit } from '../src/structures/rdkit.ts';
import { ALCOHOL, ALCOHOL_WITH_KETONE, KETONE } from './made-up-spectra.ts';

const EXAMPLE = new URL('../examples/cyclohexanol/', import.meta.url);
const text = readFileSync(new URL('experiment.md', EXAMPLE), 'utf8');
/** The weighings alone: the evidence of this bench is put in by each test. */
const weighed = readCsvRecord(
  readFileSync(new URL('bench-1-plain-run.csv', EXAMPLE), 'utf8'),
).entries.filter(({ kind }) => kind !== 'evidence');

const experiment = readExperiment(text);
const table = tableWith(experiment.substances);
const program = programOf(experiment);
const plan = enact(program, table);
const subjects = subjectsOf(experiment, plan, table);
const structures = new Map<string, StructureFacts>();

beforeAll(async () => {
  const kit = await loadStructureKit();
  for (const { substance } of [subjects.product!, ...subjects.others]) {
    const found = structureFacts(kit, substance.smiles ?? '');
    if (found.ok) structures.set(substance.smiles!, found.facts);
  }
});

let minute = 0;
function entry(evidence: EvidenceEntered, hash?: string): BenchEntry {
  minute++;
  const at = new Date(Date.UTC(2026, 1, 3, 15, minute)).toISOString();
  return {
    id: `evidence ${minute}`,
    at,
    by: 'MT',
    kind: 'evidence',
    evidence: evidenceEnteredSchema.parse(evidence),
    ...(hash !== undefined && { attachments: [hash] }),
  };
}

function reportOf(
  entries: readonly BenchEntry[],
  files: ReadonlyMap<string, FileReading> = new Map(),
) {
  const run = foldRecord([...weighed, ...entries], experiment);
  const enactment = enact(program, table, undefined, actualsOf(run));
  const { report: yields } = runResult(
    { experiment, program, table, plan, diagnostics: [] },
    { run, enactment, diagnostics: [] },
  );
  return evidenceReport({ subjects, evidence: evidenceOf(run), files, structures, yields });
}

const HASH = 'a'.repeat(64);
const hashOf = (n: number) => HASH.slice(0, 63) + String(n);

const fileOf = (text: string): FileReading =>
  readInstrumentFile(new TextEncoder().encode(text), 'made-up.csv');

const infrared = (of: 'product' | 'startingMaterial'): EvidenceEntered => ({
  technique: 'infrared',
  of,
  state: 'film',
});

const rowOf = (report: ReturnType<typeof reportOf>, question: string) =>
  report.verdict.find((row) => row.question === question)!;

describe('the subjects of the experiment', () => {
  test('product, starting material and solvents', () => {
    expect(subjects.product?.substance.name).toBe('4-methylcyclohexanol');
    const roles = subjects.others.map(({ role, substance }) => [substance.name, role]);
    expect(roles).toContainEqual(['4-methylcyclohexanone', 'startingMaterial']);
    expect(roles).toContainEqual(['diethyl ether', 'solvent']);
    expect(roles).toContainEqual(['ethanol', 'solvent']);
    // A reactant without carbon: no spectrum here looks for it
    expect(roles).toContainEqual(['sodium borohydride', 'reagent']);
  });
});

describe('spectra dropped beside the weighings', () => {
  test('an alcohol where the ketone was: the change is seen, and one technique leaves it open', () => {
    const report = reportOf(
      [entry(infrared('startingMaterial'), hashOf(1)), entry(infrared('product'), hashOf(2))],
      new Map([
        [hashOf(1), fileOf(KETONE)],
        [hashOf(2), fileOf(ALCOHOL)],
      ]),
    );
    expect(rowOf(report, 'change').outcome).toBe('yes');
    expect(rowOf(report, 'identity').outcome).toBe('open');
    expect(rowOf(report, 'startingMaterial').outcome).toBe('yes');
    expect(report.sentence).toBe(
      'The infrared spectrum fits 4-methylcyclohexanol; one more kind of measurement is needed.',
    );
  });

  test('the ketone itself, called the product, is contradicted', () => {
    const report = reportOf(
      [entry(infrared('product'), hashOf(1))],
      new Map([[hashOf(1), fileOf(KETONE)]]),
    );
    expect(rowOf(report, 'identity').outcome).toBe('no');
    expect(rowOf(report, 'change').outcome).toBe('no');
    expect(rowOf(report, 'startingMaterial').outcome).toBe('no');
    expect(report.sentence).toMatch(/does not fit 4-methylcyclohexanol/);
  });

  test('both together: some starting material is left', () => {
    const report = reportOf(
      [entry(infrared('product'), hashOf(1))],
      new Map([[hashOf(1), fileOf(ALCOHOL_WITH_KETONE)]]),
    );
    expect(rowOf(report, 'startingMaterial').outcome).toBe('no');
    expect(report.sentence).toMatch(/starting material is still in it/);
  });

  test('a file that is no spectrum, and one that is not here yet', () => {
    const html = readInstrumentFile(new TextEncoder().encode('<!DOCTYPE html><p>x'), 'a.jdx');
    const report = reportOf(
      [entry(infrared('product'), hashOf(1)), entry(infrared('product'), hashOf(2))],
      new Map([[hashOf(1), html]]),
    );
    const [first, second] = report.measurements.filter(
      ({ evidence }) => evidence.technique === 'infrared',
    );
    expect(first!.diagnostics[0]!.message).toMatch(/web page/);
    expect(second!.statements).toEqual([]);
    expect(rowOf(report, 'identity').outcome).toBe('notMeasured');
  });
});

describe('several kinds of measurement', () => {
  test('a file that was only kept is settled by the entry worked up from it', () => {
    const kept = entry({ technique: 'file', kind: 'nmr', of: 'product', file: 'p.dx' }, hashOf(3));
    const open = reportOf([kept]);
    expect(open.measurements.map(({ evidence }) => evidence.technique)).toContain('file');
    const worked = entry({ technique: 'nmr', solvent: 'CDCl3', signals: [] }, hashOf(3));
    const settled = reportOf([kept, worked]);
    expect(settled.measurements.map(({ evidence }) => evidence.technique)).not.toContain('file');
  });

  test('a mass share corrects the yield, and both are there', () => {
    const report = reportOf([
      entry({
        technique: 'nmr',
        solvent: 'CDCl3',
        sampleMass_mg: 20,
        standard: {
          substance: '1,3,5-trimethoxybenzene',
          smiles: 'COc1cc(OC)cc(OC)c1',
          mass_mg: 10,
          purity_percent: 99.5,
          hydrogens: 3,
          shift_ppm: 6.08,
        },
        signals: [
          { shift_ppm: 6.08, integral: 3, assignment: { to: 'standard', hydrogens: 3 } },
          { shift_ppm: 3.55, integral: 2.7, assignment: { to: 'product', hydrogens: 1 } },
        ],
      }),
    ]);
    // (2.7/3)·(3/1)·(114.188/168.192)·(10/20)·0.995, by hand
    const share = 2.7 * (114.188 / 168.192) * 0.5 * 0.995;
    const { isolated, corrected, purity } = report.yield!;
    expect(purity.figure).toMatchObject({ basis: 'mass', kind: 'measured' });
    expect(purity.figure.share).toBeCloseTo(share, 3);
    expect(corrected.percent).toBeCloseTo(isolated.percent * share, 1);
    expect(corrected.u_percent).toBeGreaterThan(isolated.u_percent);
  });
});
