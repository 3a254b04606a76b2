import { describe, expect, it } from 'vitest';
import { checkBalance } from '../src/core/ledger/balance.ts';
import { flowSheet } from '../src/core/report/flow/flow.ts';
import { reagentTable } from '../src/core/report/reagents/reagents.ts';
import { exampleFolders, golden, goldenPath, openBenchOf, openExample } from './example-folder.ts';

/**
 * What each plan must give, worked out by hand: theory from the basis in its own units, and the gas that
 * leaves, in litres at 20 °C and 101.325 kPa (24.055 L/mol, ideal gas). Molar masses: CIAAW weights.
 */
const PLANS: Readonly<
  Record<
    string,
    { readonly theory_g: Record<string, number>; readonly gas_L: Record<string, number> }
  >
> = {
  // 1.12 g / 112.172 = 9.985 mmol, × 114.188. Hydride left: 3.965 − 9.985/4 = 1.469 mmol, × 4 H2
  cyclohexanol: { theory_g: { '4-methylcyclohexanol': 1.14 }, gas_L: { hydrogen: 0.141 } },
  // 8.82 g / 88.150 = 100.06 mmol, × 130.187. Acid left: 120.06 − 100.06 acetic, 4.99 sulfonic
  ester: { theory_g: { '3-methylbutyl acetate': 13.03 }, gas_L: { 'carbon dioxide': 0.601 } },
  // 1.36 g / 136.150 = 9.989 mmol, × 260.336. Magnesium left: 22.01 − 21.02 mmol
  grignard: { theory_g: { triphenylmethanol: 2.6 }, gas_L: { hydrogen: 0.024 } },
  // Got back, not made
  separation: {
    theory_g: { 'benzoic acid': 1, 'ethyl 4-aminobenzoate': 1, '9-fluorenone': 1 },
    gas_L: {},
  },
  // 1.48 g / 148.161 = 9.989 mmol, × 150.177. Of 0.36 L (14.97 mmol) of hydrogen 9.99 mmol are taken up
  hydrogenation: { theory_g: { '3-phenylpropanoic acid': 1.5 }, gas_L: { hydrogen: 0.12 } },
  // 1.65 g / 165.148 = 9.991 mmol, × 135.166. 5 mL of 1 M acid: 2.5 mmol of hydrogen
  aminoketone: { theory_g: { '3-aminoacetophenone': 1.35 }, gas_L: { hydrogen: 0.06 } },
};

/** What each record must give: percent of theory by hand from its own figures, and what is found. */
const BENCHES: Readonly<
  Record<
    string,
    {
      readonly percent: Record<string, number | null>;
      readonly findings: readonly string[];
      readonly said?: readonly string[];
    }
  >
> = {
  // (59.311 − 58.412) / (1.124 × 114.188 / 112.172)
  'cyclohexanol/bench-1-plain-run.csv': {
    percent: { '4-methylcyclohexanol': 78.6 },
    findings: [],
  },
  // (62.229 − 61.207) / (1.131 × 114.188 / 112.172)
  'cyclohexanol/bench-2-not-yet-constant.csv': {
    percent: { '4-methylcyclohexanol': 88.8 },
    findings: ['not-constant'],
  },
  // (58.828 − 57.980) / (1.121 × 114.188 / 112.172): the corrected 1.121 g counts, not 1.211 g
  'cyclohexanol/bench-3-struck-and-corrected.csv': {
    percent: { '4-methylcyclohexanol': 74.3 },
    findings: [],
  },
  // (44.21 − 34.18) / (8.84 × 130.187 / 88.150)
  'ester/bench-1-plain-run.csv': { percent: { '3-methylbutyl acetate': 76.8 }, findings: [] },
  'ester/bench-2-tare-missing.csv': {
    percent: { '3-methylbutyl acetate': null },
    findings: ['tare-missing'],
  },
  // (41.762 − 39.871) / (1.364 × 260.336 / 136.150)
  'grignard/bench-1-plain-run.csv': { percent: { triphenylmethanol: 72.5 }, findings: [] },
  // (41.431 − 38.662) / (1.358 × 260.336 / 136.150)
  'grignard/bench-2-wet-over-100-percent.csv': {
    percent: { triphenylmethanol: 106.6 },
    findings: ['yield-over-100'],
  },
  // (40.903 − 40.190) / (1.361 × 260.336 / 136.150)
  'grignard/bench-3-late-entry-and-dropped-crystals.csv': {
    percent: { triphenylmethanol: 27.4 },
    findings: [],
  },
  // 0.851 / 1.003, 0.846 / 1.001, 0.948 / 0.998
  'separation/bench-1-plain-run.csv': {
    percent: { 'benzoic acid': 84.8, 'ethyl 4-aminobenzoate': 84.5, '9-fluorenone': 95.0 },
    findings: [],
  },
  // 0.824 / 0.997, 0.693 / 1.004, 1.061 / 1.000
  'separation/bench-2-decimal-commas-solvent-left.csv': {
    percent: { 'benzoic acid': 82.6, 'ethyl 4-aminobenzoate': 69.0, '9-fluorenone': 106.1 },
    findings: ['yield-over-100'],
  },
  // (60.136 − 58.730) / (1.482 × 150.177 / 148.161)
  'hydrogenation/bench-1-plain-run.csv': {
    percent: { '3-phenylpropanoic acid': 93.6 },
    findings: [],
  },
  // (61.392 − 60.018) / (1.48 × 150.177 / 148.161): a mass in mL does not count, the plan stands in
  'hydrogenation/bench-2-wrong-unit.csv': {
    percent: { '3-phenylpropanoic acid': 91.6 },
    findings: [],
    said: ['entry-unit'],
  },
  // (39.912 − 39.017) / (1.652 × 135.166 / 165.148)
  'aminoketone/bench-1-plain-run.csv': { percent: { '3-aminoacetophenone': 66.2 }, findings: [] },
  // iron: 0.951 / 55.845 = 17.03 mmol, less 2.5 to the acid, × 4/9 = 6.457 mmol, × 135.166 = 0.873 g
  'aminoketone/bench-2-too-little-iron.csv': {
    percent: { '3-aminoacetophenone': 63.8 },
    findings: ['limiting-differs', 'off-target'],
  },
};

const examples = exampleFolders().map(openExample);
const records = examples.flatMap((example) =>
  example.records.map((record) => ({ example, record, name: `${example.folder}/${record}` })),
);

it('every example and every record has its figures here', () => {
  expect(exampleFolders()).toEqual(Object.keys(PLANS).sort());
  expect(records.map(({ name }) => name).sort()).toEqual(Object.keys(BENCHES).sort());
});

describe.each(examples)('$folder', ({ folder, experiment, plan }) => {
  const { theory_g, gas_L } = PLANS[folder]!;

  it('is understood, every word of it', () => {
    expect(experiment.diagnostics).toEqual([]);
    const notes = experiment.notes.filter((note) => note.section === 'Procedure');
    expect(notes.filter((note) => !note.text.startsWith('>'))).toEqual([]);
    expect(experiment.steps.length).toBeGreaterThanOrEqual(12);
  });

  it('is enacted without an error or a warning', () => {
    const said = plan.diagnostics.filter((one) => one.severity !== 'note');
    expect(said.map((one) => `${one.at?.step ?? ''} ${one.code}: ${one.message}`)).toEqual([]);
  });

  it('balances in mass, element and charge', () => {
    expect(checkBalance(plan.postings, plan.substances)).toEqual([]);
  });

  it('gives the gas worked out by hand', () => {
    const given: Record<string, number> = {};
    for (const { substance, volume_L } of plan.gases)
      given[substance] = (given[substance] ?? 0) + volume_L;
    expect(Object.keys(given).sort()).toEqual(Object.keys(gas_L).sort());
    for (const [substance, volume_L] of Object.entries(gas_L))
      expect(given[substance]).toBeCloseTo(volume_L, 2);
  });

  it('brings its products to the balance, whole', () => {
    const nets = plan.observations.filter((one) => one.observation === 'net');
    for (const [name, mass_g] of Object.entries(theory_g)) {
      const { products } = reagentTable(experiment, plan).theory;
      const product = products.find((one) => one.name === name);
      expect(product?.mass_g, name).toBeCloseTo(mass_g, 2);
    }
    // Each product is weighed by itself, and nothing that the plan counts is lost or weighed with it.
    const last = new Map(nets.map((one) => [one.vessel, one.expected_g]));
    for (const [name, mass_g] of Object.entries(theory_g)) {
      const found = [...last.values()].some((net_g) => Math.abs(net_g / mass_g - 1) < 0.01);
      expect(found, `${name}: ${mass_g} g among ${[...last.values()].join(', ')}`).toBe(true);
    }
  });

  it('gives the reagent table and the flow sheet of its goldens', async () => {
    const table = golden(reagentTable(experiment, plan));
    await expect(table).toMatchFileSnapshot(goldenPath(folder, 'reagents'));
    await expect(golden(flowSheet(experiment, plan))).toMatchFileSnapshot(
      goldenPath(folder, 'flow'),
    );
  });
});

describe.each(records)('$name', ({ example, record, name }) => {
  const bench = openBenchOf(example, record);
  const { percent, findings, said = [] } = BENCHES[name]!;

  it('gives the yields worked out by hand', () => {
    const given = bench.report.products.map((one) => [one.name, one.yield?.percent ?? null]);
    for (const [product, percents] of Object.entries(percent)) {
      const found = given.find(([one]) => one === product)?.[1];
      if (percents === null) expect(found, product).toBeNull();
      else expect(found, product).toBeCloseTo(percents, 1);
    }
  });

  it('is judged as its story says', () => {
    const told = bench.report.findings.filter((one) => one.severity !== 'note' || isExpected(one));
    expect(told.map((one) => one.code).sort()).toEqual([...findings].sort());
    expect(bench.diagnostics.map((one) => one.code)).toEqual(said);
    function isExpected(one: { readonly code: string }): boolean {
      return findings.includes(one.code);
    }
  });

  it('balances in mass, element and charge', () => {
    const { postings, substances } = bench.enactment;
    expect(checkBalance(postings, substances)).toEqual([]);
  });

  it('gives the yield report of its golden', async () => {
    const report = golden(bench.report);
    const file = goldenPath(example.folder, record.replace(/\.csv$/, ''));
    await expect(report).toMatchFileSnapshot(file);
  });
});

it('keeps what was struck, and counts what replaced it', () => {
  const example = examples.find(({ folder }) => folder === 'cyclohexanol')!;
  const { run } = openBenchOf(example, 'bench-3-struck-and-corrected.csv');
  expect(run.struck.map(({ entry }) => entry.value)).toEqual([1.211]);
  expect(run.charges.find(({ name }) => name === '4-methylcyclohexanone')?.value).toBe(1.121);
});
