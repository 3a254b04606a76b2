/**
 * `tsx scripts/confusion.ts FOLDER [index.csv] [--names] [--blind]`: judges every measured spectrum
 * of a folder and prints, per group and state: n, sensitivity, specificity, share of cannot tell,
 * Brier score and how far the probabilities hold. The table has the columns file, smiles and, where
 * the file does not say, state. With `--names` each wrong verdict is named; with `--blind` the judge
 * is not told which elements the sample holds.
 */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { SAMPLE_STATES } from '../src/core/evidence/spectrum/infrared.ts';
import type { SampleState } from '../src/core/evidence/spectrum/infrared.ts';
import { groupsSeen } from '../src/core/evidence/spectrum/judge/groups-seen.ts';
import { elementsOf, holds } from '../src/core/evidence/spectrum/judge/structure-groups.ts';
import type { Judged } from '../src/core/evidence/spectrum/judge/testing/confusion.ts';
import {
  confusionOf,
  confusionText,
} from '../src/core/evidence/spectrum/judge/testing/confusion.ts';
import { readInstrumentFile } from '../src/core/evidence/spectrum/read/read-file.ts';
import { infraredOf } from '../src/core/evidence/spectrum/to-infrared.ts';
import { structureFacts } from '../src/structures/facts.ts';
import { loadStructureKit } from '../src/structures/rdkit.ts';
import { readCsv } from './csv.ts';

const [folder, ...rest] = process.argv.slice(2);
if (folder === undefined) {
  console.error('Which folder? tsx scripts/confusion.ts FOLDER [index.csv] [--names] [--blind]');
  process.exit(2);
}
const table = rest.find((word) => !word.startsWith('--')) ?? 'index.csv';
const [blind, names] = [rest.includes('--blind'), rest.includes('--names')];

const [columns = [], ...rows] = readCsv(readFileSync(join(folder, table), 'utf8'));
const kit = await loadStructureKit();
const judged: Judged[] = [];
const skipped: string[] = [];

for (const cells of rows) {
  const row = Object.fromEntries(columns.map((column, i) => [column, cells[i] ?? '']));
  const problem = judgeRow(row['file'] ?? '', row['smiles'] ?? '', row['state'] ?? '');
  if (problem !== undefined) skipped.push(`${row['file']}: ${problem}`);
}

console.log(confusionText(confusionOf(judged), names));
console.log(
  `${new Set(judged.map(({ file }) => file)).size} spectra judged, ${skipped.length} left out`,
);
for (const one of skipped) console.log(`  ${one}`);

function judgeRow(file: string, smiles: string, asked: string): string | undefined {
  if (smiles === '') return 'no structure';
  const path = join(folder!, file);
  if (!existsSync(path)) return 'no such file';
  const reading = readInstrumentFile(readFileSync(path), file);
  if (!reading.ok) return reading.problem.message;
  const found = structureFacts(kit, smiles.replaceAll('(*)', '').replaceAll('*', 'C'));
  if (!found.ok) return found.message;
  const state = SAMPLE_STATES.find((one): one is SampleState => one === asked);
  const spectra = reading.traces.map((trace) =>
    infraredOf(trace, state === undefined ? {} : { state }),
  );
  const first = spectra.find((one) => one.ok);
  if (first === undefined) {
    const [none] = spectra;
    return none !== undefined && !none.ok ? none.problem.message : 'no trace';
  }
  const elements = blind ? undefined : elementsOf([found.facts]);
  for (const judgement of groupsSeen(first.spectrum, elements === undefined ? {} : { elements }))
    judged.push({
      file,
      state: first.spectrum.state ?? 'not said',
      truth: holds(found.facts, judgement.group),
      judgement,
    });
  return undefined;
}
