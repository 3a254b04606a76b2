import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { exampleFolders, openBenchOf, openExample } from '../../../../test/example-folder.ts';
import type { Example } from '../../../../test/example-folder.ts';
import { documents } from '../../../../test/documents.ts';
import { enact } from '../../enact/enact.ts';
import { DEFAULT_POLICY } from '../../enact/policy.ts';
import { programOf } from '../../enact/program.ts';
import { tableWith } from '../../chemistry/substance.ts';
import { readExperiment } from '../../experiment/read.ts';
import { readCsvRecord } from '../../record/csv.ts';
import type { BenchEntry } from '../../record/entry.ts';
import { foldRecord } from '../../record/fold.ts';
import type { RunCharge } from '../../record/run.ts';
import { yieldReport } from '../yield/yield.ts';
import type { BenchField, BenchStep } from './field.ts';
import { benchSheet } from './sheet.ts';

const examples = exampleFolders().map(openExample);
const records = examples.flatMap((example) =>
  example.records.map((record) => ({ example, record, name: `${example.folder}/${record}` })),
);

interface Filled {
  readonly step: BenchStep;
  readonly field: BenchField;
}

/** The entry that the page makes of a field: only the number, the unit where there are two, and when, are free. */
function filledIn({ step, field }: Filled, from: BenchEntry, unit = field.unit): BenchEntry {
  return {
    id: from.id,
    at: from.at,
    by: from.by,
    kind: field.kind,
    step: step.id,
    ...(field.use === undefined ? {} : { use: field.use }),
    ...(field.item === undefined ? {} : { item: field.item }),
    ...(field.vessel === undefined ? {} : { vessel: field.vessel }),
    ...(from.value === undefined ? {} : { value: from.value }),
    ...(from.high === undefined ? {} : { high: from.high }),
    ...(from.decimals === undefined ? {} : { decimals: from.decimals }),
    ...(field.unit === '' ? {} : { unit }),
    ...(from.n === undefined ? {} : { n: from.n }),
    ...(from.instrument === undefined ? {} : { instrument: from.instrument }),
  };
}

/** The field that a line of a bench's own table belongs into. */
function fieldFor(
  fields: readonly Filled[],
  entry: BenchEntry,
  use: RunCharge | undefined,
): Filled | undefined {
  const sameItem = ({ step }: Filled) => step.item === entry.step;
  return fields.find((each) => {
    const { field } = each;
    if (field.kind !== entry.kind) return false;
    if (field.kind === 'charge') return field.use === use?.use;
    if (entry.vessel !== undefined && field.vessel !== entry.vessel) return false;
    return field.kind === 'tare' || sameItem(each);
  });
}

function refilled(example: Example, record: string) {
  const { experiment, plan } = example;
  const file = new URL(`../../../../examples/${example.folder}/${record}`, import.meta.url);
  const { entries } = readCsvRecord(readFileSync(file, 'utf8'));
  const { run } = openBenchOf(example, record);
  const fields = benchSheet(experiment, plan).steps.flatMap((step) =>
    step.fields.map((field) => ({ step, field })),
  );
  const left: BenchEntry[] = [];
  const made = entries.flatMap((entry) => {
    if (entry.kind === 'correction') return [entry];
    const charge = run.charges.find((each) =>
      each.terms.some(
        (term) => term.reading.id === entry.id || term.reading.entry.corrects === entry.id,
      ),
    );
    const found = fieldFor(fields, entry, charge);
    const unit = [found?.field, found?.field.or].find((each) => each?.unit === (entry.unit ?? ''));
    if (found !== undefined && unit !== undefined) return [filledIn(found, entry, unit.unit)];
    left.push(entry);
    return [];
  });
  return { made, left, run };
}

describe('the sheet of a bench', () => {
  it.each(records)('$name: fills into fields and gives its yield', ({ example, record }) => {
    const { experiment, plan, program, table } = example;
    const { made, left } = refilled(example, record);
    // What the page offers at every step or on a page of its own, and the one slip of a unit, which a fixed unit forestalls
    const rest = left.filter(({ kind }) => !['observation', 'time', 'evidence'].includes(kind));
    expect(rest.map((each) => each.id)).toEqual(record.includes('wrong-unit') ? ['p06-01'] : []);
    const run = foldRecord(made, experiment);
    expect(run.diagnostics).toEqual([]);
    const quick = { ...DEFAULT_POLICY, trace: false };
    const report = yieldReport({
      experiment,
      plan,
      run,
      reenact: (actuals) => enact(program, table, quick, actuals),
    });
    const before = openBenchOf(example, record).report;
    expect(report.products.map((each) => each.yield)).toEqual(
      before.products.map((each) => each.yield),
    );
    expect(report.products.map((each) => each.net_g)).toEqual(
      before.products.map((each) => each.net_g),
    );
  });

  it.each(examples)('$folder: is plain data with a key for each field', ({ experiment, plan }) => {
    const sheet = benchSheet(experiment, plan);
    expect(JSON.parse(JSON.stringify(sheet))).toEqual(sheet);
    const keys = sheet.steps.flatMap((step) => step.fields.map((field) => field.key));
    expect(new Set(keys).size).toBe(keys.length);
    expect(benchSheet(experiment, plan)).toEqual(sheet);
    for (const field of sheet.steps.flatMap((step) => step.fields)) {
      if (field.planned === undefined || field.low === undefined) continue;
      expect(field.low).toBeLessThan(field.planned.value);
      expect(field.high).toBeGreaterThan(field.planned.value);
    }
  });

  it.each(documents())('%s: filled in as planned, it folds without a remark', (_path, text) => {
    const experiment = readExperiment(text);
    const plan = enact(programOf(experiment), tableWith(experiment.substances));
    const sheet = benchSheet(experiment, plan);
    const keys = sheet.steps.flatMap((step) => step.fields.map((field) => field.key));
    expect(new Set(keys).size).toBe(keys.length);
    let second = 0;
    const entries = sheet.steps.flatMap((step) =>
      step.fields.map((field): BenchEntry => {
        const at = new Date(1_760_000_000_000 + 1000 * second++).toISOString();
        const from: BenchEntry = { id: field.key, at, by: '', kind: field.kind };
        return filledIn({ step, field }, { ...from, ...plannedIn(field) });
      }),
    );
    const run = foldRecord(entries, experiment);
    expect(run.diagnostics).toEqual([]);
    expect(run.tareMissing).toEqual([]);
    const weighed = sheet.steps.flatMap((step) =>
      step.fields.filter((field) => field.kind === 'gross' && field.again),
    );
    const grossNets = run.nets.filter((net) => net.terms.length === 2);
    expect(grossNets).toHaveLength(weighed.length);
    for (const charge of run.charges) {
      const planned = plan.charges.find((each) => each.use === charge.use);
      if (planned === undefined) continue;
      const own = charge.kind === 'mass' ? planned.mass_g : planned.volume_mL!;
      // A range is planned from its lower end, and reckoned amounts are shown with three figures
      expect(charge.value / own, charge.name).toBeGreaterThan(0.7);
      expect(charge.value / own, charge.name).toBeLessThan(1.01);
    }
  });
});

/** What a bench would write that keeps to the plan; an empty vessel weighs 50 g. */
function plannedIn(field: BenchField): Partial<BenchEntry> {
  const net_g = field.net?.planned_g ?? 1;
  const values: Record<BenchField['kind'], Partial<BenchEntry>> = {
    charge: { value: field.planned?.value ?? 1 },
    tare: { value: 50 },
    gross: { value: 50 + net_g, ...(field.n === undefined ? {} : { n: field.n }) },
    net: { value: 1 },
    temperature: { value: field.planned?.value ?? 20 },
    meltingRange: { value: 80, high: 81 },
    observation: { text: 'seen' },
    time: {},
    lot: {},
  };
  return values[field.kind];
}

const sheetOf = (folder: string) => {
  const { experiment, plan } = openExample(folder);
  return benchSheet(experiment, plan);
};
const stepOf = (folder: string, id: string) =>
  sheetOf(folder).steps.find((step) => step.id === id)!;

describe('a step of the sheet', () => {
  it('asks for a solid in g and keeps the plan beside it', () => {
    const [field] = stepOf('cyclohexanol', '3').fields;
    expect(field).toMatchObject({
      kind: 'charge',
      use: '3.1',
      label: 'sodium borohydride, weighed',
      counts: true,
      unit: 'g',
      planned: { value: 0.15 },
      decimals: 3,
    });
    expect(field!.or).toBeUndefined();
  });

  it('takes mass or volume where the document writes both', () => {
    const [alcohol] = stepOf('ester', '1').fields;
    expect(alcohol).toMatchObject({ unit: 'g', planned: { value: 8.82 } });
    expect(alcohol!.or).toMatchObject({ unit: 'mL', planned: { value: 10.9 } });
  });

  it('asks for what is taken several times as a sum', () => {
    const [ether] = stepOf('cyclohexanol', '9').fields;
    expect(ether).toMatchObject({ unit: 'mL', counts: false, planned: { value: 30 } });
    expect(ether!.planned!.text).toMatch(/^3 × 10\s?mL$/);
  });

  it('asks twice for a weighing to constant mass, and lets more follow', () => {
    const { fields } = stepOf('cyclohexanol', '19b');
    expect(fields.map(({ kind, n, again }) => [kind, n, again ?? false])).toEqual([
      ['gross', 1, false],
      ['gross', 2, true],
    ]);
    expect(fields[0]!.net).toMatchObject({ tare: 'tare product flask' });
    expect(fields[0]!.net!.planned_g).toBeCloseTo(1.14, 2);
  });

  it('asks for the tare where the procedure does', () => {
    expect(stepOf('cyclohexanol', '15').fields.map((f) => f.kind)).toEqual(['tare']);
    expect(stepOf('cyclohexanol', '18').fields.map((f) => f.kind)).toEqual(['gross']);
  });

  it('asks for the tare of a vessel that is called tared before anything goes in', () => {
    const { steps } = sheetOf('grignard');
    const filled = steps.findIndex(({ fields }) => fields.some(({ kind }) => kind === 'tare'));
    const weighed = steps.findIndex(({ fields }) => fields.some(({ kind }) => kind === 'gross'));
    expect(steps[filled]!.fields[0]!.vessel).toBe(steps[weighed]!.fields[0]!.vessel);
    expect(filled).toBeLessThan(weighed);
  });

  it('has the remarks that stand behind its item', () => {
    expect(stepOf('cyclohexanol', '6').cautions).toEqual([
      'Hydrogen comes off with foam. The flask stays open, in the hood, well away from anything hot.',
    ]);
    for (const id of ['19', '19b'])
      expect(stepOf('cyclohexanol', id).cautions[0]).toMatch(/^Let the flask come to/);
    expect(stepOf('cyclohexanol', '5').cautions).toEqual([]);
  });

  it('has a wait only where the sentence says how long', () => {
    expect(stepOf('cyclohexanol', '4b').wait).toEqual({
      duration_min: 20,
      what: 'Stirring, flask',
    });
    expect(stepOf('cyclohexanol', '10').wait).toBeUndefined();
  });

  it('asks for a melting range of each where the sentence says each', () => {
    const { fields } = stepOf('separation', '25');
    expect(fields.map((field) => field.vessel)).toEqual([
      'neutral flask',
      'base dish',
      'acid dish',
    ]);
    expect(stepOf('grignard', '33').fields).toMatchObject([{ kind: 'meltingRange', unit: '°C' }]);
  });
});

const WITHOUT_TARE = `# Benzoic acid

## Reaction
sodium benzoate + HCl -> benzoic acid + NaCl

## Vessels
- beaker: 100 mL beaker
- dish: evaporating dish

## Procedure
1. Charge the beaker with sodium benzoate 10 mmol and water 20 mL.
2. Add 2 M hydrochloric acid 6 mL to the beaker dropwise.
3. If the mixture is not acid, add 1 mL more of the acid.
4. Filter the beaker under vacuum; keep the solid.
5. weigh the solid.
6. Transfer the solid to the dish.
7. Weigh the dish.
`;

describe('a sheet without tares', () => {
  const experiment = readExperiment(WITHOUT_TARE);
  const plan = enact(programOf(experiment), tableWith(experiment.substances));
  const { steps } = benchSheet(experiment, plan);
  const fields = (id: string) => steps.find((step) => step.id === id)!.fields;

  it('asks for the empty dish before anything goes in, and for crystals on a filter as a net', () => {
    expect(fields('5').map((field) => field.kind)).toEqual(['net']);
    expect(fields('6').map((field) => field.kind)).toEqual(['tare']);
    expect(fields('7').map((field) => field.kind)).toEqual(['gross']);
  });

  it('turns moles into what a balance shows', () => {
    expect(fields('1')[0]).toMatchObject({ unit: 'g', planned: { value: 1.44 } });
  });

  it('keeps a condition with the sentence before it', () => {
    expect(steps.find((step) => step.id === '2')!.cautions[0]).toMatch(/^If the mixture is not/);
  });
});
