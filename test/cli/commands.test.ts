import { describe, expect, it } from 'vitest';
import { widthOf } from '../../src/cli/paint/text.ts';
import { BENZOIC, BENZOIC_BENCH, runOn } from './fake-io.ts';

const files = { 'benzoic.md': BENZOIC, 'bench.csv': BENZOIC_BENCH };
const run = (...argv: string[]) => runOn({ files }, ...argv);
/** Thin and no-break spaces as plain ones, so that a test can be read. */
const plain = (text: string) => text.replace(/[\u00a0\u202f]/g, ' ');

describe('check', () => {
  it('answers first, then remarks, and ends with 0', async () => {
    const { exit, out, err } = await run('check', 'benzoic.md');
    expect([exit, err]).toEqual([0, '']);
    const [summary, answer, time, title] = plain(out).split('\n');
    expect(summary).toMatch(/^No errors\./);
    // 1.44 g / 144.105 g/mol = 9.993 mmol; × 122.123 g/mol = 1.220 g
    expect(answer).toBe(
      'Makes at most 1.22 g (9.99 mmol) of benzoic acid; sodium benzoate limits (9.99 mmol).',
    );
    expect(time).toMatch(/^Takes about 30 min, of which about 20 min is assumed: 4 steps/);
    expect(title).toMatch(/^Benzoic acid from sodium benzoate · version [0-9a-f]{8}$/);
  });

  it('ends with 1 where something is wrong, and shows where', async () => {
    const text = BENZOIC.replace('water 20 mL', 'water 20 ML');
    const { exit, out } = await runOn({ files: { x: text } }, 'check', 'x');
    expect(exit).toBe(1);
    expect(out).toMatch(/^\d errors?\./);
    expect(out).toContain('10 │ 1. Charge the beaker with sodium benzoate 1.44 g and water 20 ML.');
    expect(out).toContain('^');
  });

  it('gives data to programs', async () => {
    const { out } = await run('check', 'benzoic.md', '--json');
    const data = JSON.parse(out) as { document: { version: string }; diagnostics: unknown[] };
    expect(data.document.version).toMatch(/^[0-9a-f]{64}$/);
    expect(Array.isArray(data.diagnostics)).toBe(true);
  });
});

describe('reagents', () => {
  it('says in a word which limits', async () => {
    const { exit, out } = await run('reagents', 'benzoic.md');
    expect(exit).toBe(0);
    expect(out).toMatch(/sodium benzoate +reactant.* 1\.44 .* 9\.99 +1\.00 +limits/);
    // 6 mL × 2 mol/L = 12.0 mmol, against 9.993 mmol: 20 % over
    expect(out).toMatch(/2.M hydrochloric acid .* 12 +1\.2 +20 % over/);
    expect(out).toMatch(/benzoic acid +product +122\.12 +1\.22 +9\.99/);
  });

  it('takes what a bench weighed', async () => {
    const { out } = await run('reagents', 'benzoic.md', '--record', 'bench.csv');
    expect(out).toMatch(/sodium benzoate .*•1\.441/);
    expect(out).toContain('•1.12 g measured');
  });
});

describe('flow', () => {
  it('shows the arrows, the gauges and the weighing', async () => {
    const { exit, out } = await run('flow', 'benzoic.md');
    expect(exit).toBe(0);
    expect(plain(out)).toMatch(/sodium benzoate 1\.44 g · 9\.99 mmol ─+►│/);
    expect(out).toMatch(/▕≡+ +▏/);
    expect(plain(out)).toContain('~1.22 g at most');
    const bench = await run('flow', 'benzoic.md', '--record', 'bench.csv');
    expect(plain(bench.out)).toContain('•1.0873 g');
  });
});

describe('yield', () => {
  it('says the answer in its first line', async () => {
    const { exit, out } = await run('yield', 'benzoic.md', '--record', 'bench.csv');
    expect(exit).toBe(0);
    // theory 1.4412 / 144.105 × 122.123 = 1.22135 g; 1.0873 / 1.22135 = 89.02 %
    expect(plain(out).split('\n')[0]).toMatch(
      /^1\.0873 g of benzoic acid: 89\.0\d? ± .* % of theory/,
    );
    const order = ['Theory:', 'Where 1.22', 'What makes the uncertainty', 'Assumed'];
    const places = order.map((text) => plain(out).indexOf(text));
    expect(places).toEqual(places.toSorted((a, b) => a - b));
    expect(places[0]).toBeGreaterThan(0);
  });

  it.each([
    ['without a record', [], 'A yield needs what a bench weighed.'],
    ['a record that is not there', ['--record', 'none.csv'], 'There is no file none.csv.'],
    ['both from the standard input', ['--record', '-'], 'standard input'],
  ])('%s is wrong usage', async (what, more, message) => {
    const file = what.startsWith('both') ? '-' : 'benzoic.md';
    const { exit, err } = await run('yield', file, ...more);
    expect(exit).toBe(2);
    expect(err).toContain(message);
  });

  it.each([
    ['no headings', '1.4412,g\n', /columns/],
    ['nothing in it', 'kind,step,item,value,unit\n', /no entries/],
    ['not JSON', '{"entries": [', /JSON/],
  ])('a record with %s is refused in plain words', async (_what, text, message) => {
    const machine = { files: { ...files, r: text } };
    const { exit, err } = await runOn(machine, 'yield', 'benzoic.md', '--record', 'r');
    expect(exit).toBe(2);
    expect(err).toMatch(message);
  });

  it('reads a record from the standard input, and as JSON', async () => {
    const entries = [
      {
        id: 'a',
        at: '2026-01-12T10:00:00Z',
        by: 'R',
        kind: 'charge',
        step: '1',
        item: 'sodium benzoate',
        value: 1.4412,
        unit: 'g',
      },
      {
        id: 'b',
        at: '2026-01-12T11:00:00Z',
        by: 'R',
        kind: 'net',
        step: '5',
        value: 1.0873,
        unit: 'g',
      },
    ];
    const machine = { files, stdin: JSON.stringify({ entries }) };
    const { exit, out } = await runOn(machine, 'yield', 'benzoic.md', '--record', '-');
    expect(exit).toBe(0);
    expect(plain(out)).toContain('1.0873 g of benzoic acid: 89.0');
  });
});

describe('ledger', () => {
  it('lists postings and says that they balance', async () => {
    const { exit, out } = await run('ledger', 'benzoic.md');
    expect(exit).toBe(0);
    expect(out).toContain('It balances: mass, each element and charge.');
    expect(out).toMatch(
      /1 +stock\/sodium benzoate +vessel\/beaker\/\w+ +sodium benzoate +9\.993 +1\.4400/,
    );
  });

  it('narrows to a step or an account', async () => {
    const step = JSON.parse((await run('ledger', 'benzoic.md', '--step', '2', '--json')).out) as {
      postings: { step: string }[];
    };
    expect(new Set(step.postings.map((p) => p.step))).toEqual(new Set(['2']));
    const { out } = await run('ledger', 'benzoic.md', '--accounts', '--account', 'stock');
    expect(out).toMatch(/stock\/water +water/);
    expect(out).not.toContain('vessel/');
    expect((await run('ledger', 'benzoic.md', '--step', '99')).exit).toBe(2);
  });
});

describe('chemistry at large', () => {
  it.each([
    // Chang, Chemistry: permanganate with hydrochloric acid; from memory
    [
      'KMnO4 + HCl -> KCl + MnCl2 + Cl2 + H2O',
      0,
      '2 KMnO4 + 16 HCl -> 2 KCl + 2 MnCl2 + 5 Cl2 + 8 H2O',
    ],
    [
      'Cr2O7^2- + Fe2+ + H+ -> Cr3+ + Fe3+ + H2O',
      0,
      'Cr2O7^2- + 6 Fe2+ + 14 H+ -> 2 Cr3+ + 6 Fe3+ + 7 H2O',
    ],
    ['2 H2 + O2 -> 2 H2O', 0, 'It balances as written.'],
    ['Na -> K', 1, 'Only the left side has sodium'],
    ['H2O2 + KMnO4 + H2SO4 -> O2 + MnSO4 + K2SO4 + H2O', 1, '2 independent reactions'],
  ])('balance %s', async (equation, exit, words) => {
    const answer = await run('balance', equation);
    expect(answer.exit).toBe(exit);
    expect(answer.out).toContain(words);
  });

  it.each([
    // Molar masses from the CIAAW abridged atomic weights of 2021
    [['mass', 'NaBH4'], 0, 'sodium borohydride, BH4Na: 37.83 g/mol'],
    [['mass', 'benzoic', 'acid'], 0, 'benzoic acid, C7H6O2: 122.12 g/mol'],
    [['mass', 'CC1CCC(=O)CC1'], 0, '112.17 g/mol'],
    [['mass', 'CO', '--as', 'smiles'], 0, '32.04 g/mol'],
    [['find', 'NaBH4'], 0, 'sodium borohydride'],
    [['find', '1', 'M', 'hydrochloric', 'acid'], 0, 'hydrogen chloride'],
    [['find', 'naphthol'], 1, 'may mean'],
    [['find', 'cyclohexanon'], 1, 'cyclohexanone'],
    [['verbs'], 0, 'filter'],
    [['verbs', 'extract'], 0, 'Extract'],
  ])('%s', async (argv, exit, words) => {
    const answer = await run(...argv);
    expect(answer.exit).toBe(exit);
    expect(answer.out).toContain(words);
  });

  it.each([
    [['mass', 'xylene'], 'o-xylene'],
    [['mass', 'benzoic acd'], 'Near: benzoic acid'],
    [['mass', 'Xx2'], 'Xx2'],
    [['mass', 'NaCl', '--as', 'colour'], '--as takes'],
    [['balance', 'Na + Cl2'], 'As in'],
    [['balance', 'Qq + Cl2 -> NaCl'], 'Qq'],
    [['verbs', 'extrct'], 'extract'],
  ])('%s is refused with a hint', async (argv, words) => {
    const { exit, out, err } = await run(...argv);
    expect([exit, out]).toEqual([2, '']);
    expect(err).toContain(words);
  });
});

describe('every page', () => {
  const pages = [
    ['check', 'benzoic.md'],
    ['reagents', 'benzoic.md'],
    ['flow', 'benzoic.md'],
    ['yield', 'benzoic.md', '--record', 'bench.csv'],
    ['overview', 'benzoic.md', '--record', 'bench.csv'],
    ['ledger', 'benzoic.md', '--accounts'],
    ['find', 'cyclohexanol'],
    ['mass', 'NaBH4'],
    ['verbs'],
  ];

  it.each(pages)('%s %s keeps to its width, plain or styled', async (...argv) => {
    for (const width of [72, 80, 100, 160])
      for (const colour of [false, true]) {
        const { out } = await runOn({ files, width, colour }, ...argv);
        const widest = Math.max(...out.split('\n').map(widthOf));
        expect(widest, `${argv.join(' ')} at ${width}`).toBeLessThanOrEqual(width);
        expect(out.includes('\u001b')).toBe(colour);
      }
  });

  it.each(pages)('%s %s gives JSON', async (...argv) => {
    const { out } = await run(...argv, '--json');
    expect(() => JSON.parse(out) as unknown).not.toThrow();
  });
});
