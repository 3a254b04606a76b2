import { enact } from '../src/core/enact/enact.ts';
import { DEFAULT_POLICY } from '../src/core/enact/policy.ts';
import type { Random } from '../src/core/quantity/random.ts';
import { seededRandom } from '../src/core/quantity/random.ts';
import { actualsOf } from '../src/core/record/actuals.ts';
import { readCsvRecord } from '../src/core/record/csv.ts';
import type { BenchEntry } from '../src/core/record/entry.ts';
import { foldRecord } from '../src/core/record/fold.ts';
import { demo, textOf } from './files.ts';
import type { Item } from './item.ts';
import { timeText } from './item.ts';
import { median, timesOf } from './measure.ts';
import { openedClean } from './opened.ts';

const BENCHES = 10_000;
const ROUNDS = 3;

/** A bench that did the same with its own figures; one line in twelve comes late, one bench in eight corrects itself. */
function anotherBench(pattern: readonly BenchEntry[], n: number, random: Random): BenchEntry[] {
  const tare_g = 50 + 20 * random.uniform();
  const patternTare_g = pattern.find((entry) => entry.kind === 'tare')?.value ?? 0;
  const made = pattern.map((entry): BenchEntry => {
    const id = `${n}-${entry.id}`;
    if (entry.value === undefined) return { ...entry, id };
    const near = (value: number, u: number) => Number((value + u * random.normal()).toFixed(3));
    if (entry.kind === 'tare') return { ...entry, id, value: near(tare_g, 0) };
    if (entry.kind === 'gross')
      return { ...entry, id, value: near(entry.value - patternTare_g + tare_g, 0.04) };
    return { ...entry, id, value: near(entry.value, 0.03 * entry.value) };
  });
  for (let i = made.length - 1; i > 0; i--)
    if (random.uniform() < 1 / 12) [made[i], made[i - 1]] = [made[i - 1]!, made[i]!];
  const first = made.find((entry) => entry.kind === 'charge');
  if (random.uniform() < 1 / 8 && first?.value !== undefined)
    made.push({
      id: `${n}-correction`,
      at: '2025-10-14T17:00:00',
      by: first.by,
      kind: 'correction',
      corrects: first.id,
      value: Number((first.value * 1.1).toFixed(3)),
      unit: 'g',
      text: 'Read again.',
    });
  return made;
}

/** Every bench of a large course re-enacted after an edit: each record folded, then enacted without a trace. */
export function tenThousandBenches(): Item[] {
  const { experiment, program, table } = openedClean(textOf(demo.document), demo.document);
  const pattern = readCsvRecord(textOf(demo.record)).entries;
  const random = seededRandom(7);
  const records = Array.from({ length: BENCHES }, (_, n) => anotherBench(pattern, n, random));
  const texts = records.map((record) => JSON.stringify(record));
  const quick = { ...DEFAULT_POLICY, trace: false };
  const again = () => {
    let postings = 0;
    for (const record of records) {
      const actuals = actualsOf(foldRecord(record, experiment));
      postings += enact(program, table, quick, actuals).postings.length;
    }
    return postings;
  };
  const foldAll = () => records.map((record) => foldRecord(record, experiment).nets.length);
  const parseAll = () => texts.map((text) => (JSON.parse(text) as unknown[]).length);
  const none = () => undefined;
  const fold_ms = median(timesOf(ROUNDS, foldAll, none));
  return [
    {
      what: `${BENCHES.toLocaleString('en')} bench runs of the demonstration re-enacted: fold and enact, no trace, one core`,
      times_ms: timesOf(ROUNDS, again, none),
      budget_ms: 5000,
      baseline: {
        what: 'JSON.parse of the same records',
        times_ms: timesOf(ROUNDS + 4, parseAll, none),
      },
      remarks: [
        `${experiment.steps.length} steps, ${pattern.length} entries a record. The fold alone ${timeText(fold_ms)}.`,
      ],
    },
  ];
}
