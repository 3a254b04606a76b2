import { describe, expect, it } from 'vitest';
import { exampleFolders, openBenchOf, openExample } from '../../../../test/example-folder.ts';
import { theoryReport } from '../theory/theory.ts';
import type { Derivation } from './derivation.ts';
import { whyOf } from './why.ts';

const examples = exampleFolders().map(openExample);
const benches = examples.flatMap((example) =>
  example.records.map((record) => ({
    example,
    bench: openBenchOf(example, record),
    name: `${example.folder}/${record}`,
  })),
);

/** The first line of a symbol. */
function value(found: Derivation, symbol: string): number {
  return found.lines.find((line) => line.symbol === symbol)?.value ?? Number.NaN;
}

/** Each formula worked out apart from the program, with no more than its own lines (n in mmol). */
const SUMS: Readonly<Record<string, (found: Derivation) => number>> = {
  'n = m / M': (f) => (1000 * value(f, 'm')) / value(f, 'M'),
  'n = w · m / M': (f) => (1000 * value(f, 'w') * value(f, 'm')) / value(f, 'M'),
  'n = ρ · V / M': (f) => (1000 * value(f, 'ρ') * value(f, 'V')) / value(f, 'M'),
  'n = w · ρ · V / M': (f) =>
    (1000 * value(f, 'w') * value(f, 'ρ') * value(f, 'V')) / value(f, 'M'),
  'n = c · V': (f) => value(f, 'c') * value(f, 'V'),
  'T = M · ν(P) · n(B) / ν(B)': (f) =>
    (value(f, 'M') * value(f, 'ν(P)') * value(f, 'n(B)')) / value(f, 'ν(B)') / 1000,
  'T = M · Σ ν(P) · n(B) / ν(B)': (f) => {
    const all = (symbol: string) =>
      f.lines.filter((line) => line.symbol === symbol).map((line) => line.value!);
    const [n, of, made] = [all('n(B)'), all('ν(B)'), all('ν(P)')];
    const extents = n.map((each, i) => (made[i]! * each) / of[i]!);
    return (value(f, 'M') * extents.reduce((sum, each) => sum + each, 0)) / 1000;
  },
  'T = M · n(charged)': (f) => (value(f, 'M') * value(f, 'n(B)')) / 1000,
  'Y = 100 · m / T': (f) => (100 * value(f, 'm')) / value(f, 'T'),
};

const NO_SUM = /as written|n\(basis\)|drew|words/;

function followed(found: Derivation): void {
  const sum = SUMS[found.formula];
  if (sum === undefined) {
    expect(found.formula).toMatch(NO_SUM);
    return;
  }
  expect(sum(found) / found.result.value!, `${found.title}: ${found.formula}`).toBeCloseTo(1, 6);
}

describe.each(examples)('$folder', ({ experiment, plan }) => {
  it('every amount of a charge can be followed from its lines', () => {
    for (const charge of plan.charges) {
      const found = whyOf({ of: 'charge', enactment: plan, use: charge.use });
      if (charge.amount_mmol === undefined) {
        expect(found).toBeUndefined();
        continue;
      }
      expect(found!.result.value).toBe(charge.amount_mmol);
      followed(found!);
      expect(JSON.parse(JSON.stringify(found))).toEqual(found);
      const posted_g = found!.postings.reduce((sum, each) => sum + each.mass_g, 0);
      const same = plan.charges.filter(
        (each) => each.step === charge.step && each.material.name === charge.material.name,
      );
      expect(posted_g).toBeCloseTo(
        same.reduce((sum, each) => sum + each.mass_g, 0),
        6,
      );
    }
  });

  it('theory, molar masses and what limits can be followed', () => {
    const theory = theoryReport(experiment, plan);
    for (const product of theory.products.filter((each) => each.mass_g !== null)) {
      const found = whyOf({
        of: 'theory',
        experiment,
        enactment: plan,
        product: product.substance,
      });
      expect(found!.result.value).toBe(product.mass_g);
      followed(found!);
      const mass = whyOf({
        of: 'molarMass',
        enactment: plan,
        substance: product.substance,
      })!;
      const sum = mass.lines.reduce(
        (all, { value: weight, what }) => all + weight! * Number(/ν = (\d+)/.exec(what)![1]),
        0,
      );
      expect(sum).toBeCloseTo(mass.result.value!, 6);
      expect(mass.sources.join()).toMatch(/CIAAW/);
    }
    for (const { reaction, extent_mmol, limiting } of theory.reactions) {
      const found = whyOf({ of: 'limiting', experiment, enactment: plan, reaction })!;
      const least = Math.min(...found.lines.map((line) => line.value ?? Infinity));
      expect(least).toBeCloseTo(extent_mmol, 9);
      expect(found.result.what).toBe(`${limiting!.name} runs out first`);
    }
  });

  it('the volume of each gas is n·R·T/p', () => {
    for (const substance of new Set(plan.gases.map((gas) => gas.substance))) {
      const found = whyOf({ of: 'gas', enactment: plan, substance })!;
      const n = found.lines
        .filter((line) => line.symbol === 'n')
        .reduce((sum, line) => sum + line.value!, 0);
      const volume_mL = (n * value(found, 'R') * value(found, 'T')) / value(found, 'p');
      expect(volume_mL / found.result.value!).toBeCloseTo(1, 9);
    }
  });
});

describe.each(benches)('$name', ({ example, bench }) => {
  const { run, enactment, report } = bench;

  it('yield and uncertainty can be followed, and every charge that was measured', () => {
    for (const product of report.products) {
      const asked = { report, product: product.substance, run, enactment };
      const found = whyOf({ of: 'yield', ...asked });
      expect(found === undefined).toBe(product.yield === null);
      if (found === undefined) continue;
      followed(found);
      const read = found.lines
        .filter(({ symbol }) => symbol === '+' || symbol === '−')
        .reduce((sum, line) => sum + (line.symbol === '+' ? 1 : -1) * line.value!, 0);
      expect(read).toBeCloseTo(product.net_g!, 9);
      const U = whyOf({ of: 'uncertainty', ...asked })!;
      expect(U.result.value).toBeCloseTo(value(U, 'k') * value(U, 'u'), 9);
      const shares = U.lines.filter(({ symbol }) => symbol === 'share');
      expect(shares.reduce((sum, line) => sum + line.value!, 0)).toBeCloseTo(100, 6);
      expect(U.sources[0]).toMatch(/JCGM 100:2008/);
      for (const line of shares)
        if (line.basis === 'measured') expect(line.source ?? '').not.toBe('');
    }
    for (const charge of run.charges) {
      const use = charge.use;
      const found = whyOf({ of: 'charge', enactment, use, run });
      if (found === undefined) continue;
      followed(found);
      const first = found.lines.find(({ symbol }) => symbol === '+');
      expect(first?.basis).toBe('measured');
    }
    expect(example.plan.kind).toBe('plan');
  });
});

describe('a bench that measured only what it got', () => {
  it('does not show a planned theory as measured', () => {
    const example = openExample('cyclohexanol');
    const { run, enactment, report } = openBenchOf(example, 'bench-1-plain-run.csv');
    const { experiment, plan } = example;
    const product = experiment.products[0]!.substance.id;
    const T = (of: typeof plan) =>
      whyOf({ of: 'theory', experiment, enactment: of, product })!.result.basis;
    expect([T(enactment), T(plan)]).toEqual(['measured', 'planned']);
    const asked = { of: 'yield', report, run } as const;
    expect(whyOf({ ...asked, enactment })!.result.basis).toBe('measured');
    expect(whyOf({ ...asked, enactment: plan })!.result.basis).toBe('planned');
  });
});

describe('one derivation, read aloud', () => {
  const example = openExample('cyclohexanol');
  const plain = (text: string) => text.replace(/\u202f/g, ' ');

  it('has the mass and the molar mass, with their sources', () => {
    const found = whyOf({ of: 'charge', enactment: example.plan, use: '3.1' })!;
    expect(found.formula).toBe('n = m / M');
    expect(found.lines.map((line) => [line.symbol, plain(line.text), line.basis])).toEqual([
      ['m', '0.150 g', 'planned'],
      ['M', '37.832 g/mol', 'table'],
    ]);
    expect(plain(found.result.text)).toBe('3.9649 mmol');
    expect(found.postings).toMatchObject([{ step: '3', from: 'the stock', to: 'flask' }]);
  });

  it('names a density once, and cites what was published and no file', () => {
    const byVolume = example.plan.charges.find(
      ({ measuredAs, material, amount_mmol }) =>
        measuredAs === 'volume' && material.density_g_mL !== undefined && amount_mmol !== undefined,
    )!;
    const found = whyOf({ of: 'charge', enactment: example.plan, use: byVolume.use })!;
    expect(found.lines.map(({ symbol }) => symbol)).toContain('ρ');
    expect(found.said.join()).not.toMatch(/density/);
    const told = [...found.sources, ...found.lines.map(({ source }) => source)].join();
    expect(told).toMatch(/CIAAW 2021/);
    expect(told).not.toMatch(/github|@|recalled/);
  });

  it('shows in the ledger what was weighed as it was weighed', () => {
    const { run, enactment } = openBenchOf(example, 'bench-1-plain-run.csv');
    const weighed = run.charges.filter(({ kind, terms }) => kind === 'mass' && terms.length === 1);
    expect(weighed.length).toBeGreaterThan(0);
    for (const { use, value, terms } of weighed) {
      const found = whyOf({ of: 'charge', enactment, use, run })!;
      const decimals = Math.round(-Math.log10(terms[0]!.reading.lastDigit));
      expect(found.postings.map(({ text }) => plain(text))).toEqual([
        `${value.toFixed(decimals)} g`,
      ]);
    }
  });

  it('gives the mass of a yield with the digits of its balance', () => {
    const { report, run, enactment } = openBenchOf(example, 'bench-1-plain-run.csv');
    const found = whyOf({ of: 'yield', report, run, enactment })!;
    const text = (symbol: string) =>
      plain(found.lines.find((line) => line.symbol === symbol)?.text ?? '');
    expect([text('m'), text('+'), text('−')]).toEqual(['0.899 g', '59.311 g', '58.412 g']);
  });

  it('says what limits and by how much', () => {
    const { experiment, plan } = example;
    const found = whyOf({
      of: 'limiting',
      experiment,
      enactment: plan,
      reaction: 'reduction',
    })!;
    expect(found.lines.map((line) => plain(line.what))).toContain(
      '4-methylcyclohexanone: 9.9847 mmol / 4',
    );
  });
});
