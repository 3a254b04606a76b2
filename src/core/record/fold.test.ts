import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BenchEntry } from './entry.ts';
import { foldRecord } from './fold.ts';
import { benzoicAcid } from './testing/toy.ts';

const EXPERIMENT = benzoicAcid();
const RUNS = Number(process.env['FUZZ_RUNS'] ?? 500);

let clock = 0;
function entry(id: string, parts: Partial<BenchEntry>): BenchEntry {
  clock += 1;
  const at = new Date(1_750_000_000_000 + clock * 1000).toISOString();
  return { id, at, by: 'R.', kind: 'observation', ...parts };
}

function whole(): BenchEntry[] {
  return [
    entry('a', { kind: 'charge', step: '1', item: 'sodium benzoate', value: 1.4382, unit: 'g' }),
    entry('b', { kind: 'charge', step: '2', value: 6.1, unit: 'mL' }),
    entry('c', { kind: 'tare', vessel: 'dish', value: 44.2188, unit: 'g' }),
    entry('d', { kind: 'gross', vessel: 'dish', value: 45.3401, unit: 'g', n: 1 }),
    entry('e', { kind: 'gross', vessel: 'dish', value: 45.3391, unit: 'g', n: 2 }),
    entry('f', { kind: 'observation', step: '2', text: 'White solid at once.' }),
    entry('g', { kind: 'meltingRange', value: 121.5, high: 122.3, unit: '°C' }),
  ];
}

describe('the fold of a bench record', () => {
  it('finds charges, and the net from the last gross and the tare', () => {
    const run = foldRecord(whole(), EXPERIMENT);
    expect(run.diagnostics).toEqual([]);
    expect(run.charges.map(({ use, kind, value }) => ({ use, kind, value }))).toEqual([
      { use: '1.1', kind: 'mass', value: 1.4382 },
      { use: '2.1', kind: 'volume', value: 6.1 },
    ]);
    // 45.3391 - 44.2188 = 1.1203
    expect(run.nets).toMatchObject([{ step: '5', vessel: 'dish', net_g: 1.1203 }]);
    expect(run.nets[0]!.gross).toHaveLength(2);
    expect(run.meltingRanges).toMatchObject([{ value: 121.5, high: 122.3 }]);
    expect(run.observations).toHaveLength(1);
  });

  const ONE_ENTRY: [string, Partial<BenchEntry>, string, RegExp][] = [
    [
      'a mass in mL',
      { kind: 'tare', vessel: 'dish', value: 4, unit: 'mL' },
      'entry-unit',
      /a mass/,
    ],
    [
      'a solid by volume',
      { kind: 'charge', step: '1', item: 'sodium benzoate', value: 4, unit: 'mL' },
      'entry-unit',
      /a mass/,
    ],
    ['no unit', { kind: 'net', vessel: 'dish', value: 4 }, 'entry-unit', /unit/],
    ['no value', { kind: 'net', vessel: 'dish', unit: 'g' }, 'entry-empty', /a mass/],
    [
      'less than nothing',
      { kind: 'net', vessel: 'dish', value: -1, unit: 'g' },
      'entry-negative',
      /changed places/,
    ],
    [
      'an unknown step',
      { kind: 'charge', step: '11', item: 'water', value: 20, unit: 'mL' },
      'entry-unplaced',
      /"1"/,
    ],
    [
      'a mistyped material',
      { kind: 'charge', step: '1', item: 'sodium bezoate', value: 1, unit: 'g' },
      'entry-unplaced',
      /"sodium benzoate"/,
    ],
    [
      'a material of another step',
      { kind: 'charge', step: '2', item: 'sodium benzoate', value: 1, unit: 'g' },
      'entry-unplaced',
      /step 1/,
    ],
    [
      'a material that is not said, of two',
      { kind: 'charge', step: '1', value: 1, unit: 'g' },
      'entry-unplaced',
      /"sodium benzoate" or "water"/,
    ],
    [
      'a mistyped vessel',
      { kind: 'tare', vessel: 'dihs', value: 44, unit: 'g' },
      'entry-unplaced',
      /"dish"/,
    ],
    [
      'a vessel that no step weighs',
      { kind: 'gross', vessel: 'beaker', value: 44, unit: 'g' },
      'entry-unplaced',
      /step/,
    ],
    ['a correction of nothing', { kind: 'correction', value: 1 }, 'correction-dangling', /struck/],
    [
      'a correction of what is not there',
      { kind: 'correction', corrects: 'zz', value: 1 },
      'correction-dangling',
      /missing/,
    ],
    [
      'a correction of itself',
      { kind: 'net', vessel: 'dish', corrects: 'x', value: 1, unit: 'g' },
      'correction-circular',
      /which value/,
    ],
    [
      'an assay above 100 %',
      { kind: 'lot', step: '1', item: 'sodium benzoate', value: 102, unit: '%' },
      'entry-unit',
      /%/,
    ],
  ];
  it.each(ONE_ENTRY)('says what is wrong: %s', (_name, parts, code, hint) => {
    const run = foldRecord([entry('x', parts)], EXPERIMENT);
    expect(run.diagnostics.map((each) => each.code)).toEqual([code]);
    expect(run.diagnostics[0]!.hint).toMatch(hint);
    expect(run.entries).toHaveLength(1);
  });

  it('takes a name that occurs once without its step, and never guesses another', () => {
    const run = foldRecord(
      [entry('x', { kind: 'charge', item: '2 M Hydrochloric acid', value: 6, unit: 'mL' })],
      EXPERIMENT,
    );
    expect(run.charges).toMatchObject([{ use: '2.1', value: 6 }]);
  });

  it('weighs a charge by difference', () => {
    const run = foldRecord(
      [
        entry('x', { kind: 'gross', step: '1', item: 'sodium benzoate', value: 9.4412, unit: 'g' }),
        entry('y', { kind: 'tare', step: '1', item: 'sodium benzoate', value: 8003, unit: 'mg' }),
      ],
      EXPERIMENT,
    );
    // 9.4412 - 8.003 = 1.4382
    expect(run.charges).toMatchObject([{ use: '1.1', value: 1.4382 }]);
    expect(run.charges[0]!.terms.map((term) => term.sign)).toEqual([1, -1]);
  });

  it('adds what was taken twice and says so', () => {
    const run = foldRecord(
      [
        entry('x', { kind: 'charge', step: '1', item: 'sodium benzoate', value: 1.3, unit: 'g' }),
        entry('y', { kind: 'charge', step: '1', item: 'sodium benzoate', value: 0.14, unit: 'g' }),
      ],
      EXPERIMENT,
    );
    expect(run.charges).toMatchObject([{ value: 1.44 }]);
    expect(run.diagnostics).toMatchObject([{ code: 'charge-repeated', severity: 'note' }]);
  });

  it('keeps what was made with another version, once said', () => {
    const run = foldRecord(
      whole().map((each): BenchEntry => ({ ...each, document: 'old' })),
      EXPERIMENT,
      'new',
    );
    expect(run.diagnostics).toMatchObject([{ code: 'entry-other-version' }]);
    expect(run.diagnostics[0]!.message).toMatch(/^7 entries/);
    expect(run.charges).toHaveLength(2);
  });

  it('asks about a gross without a tare, and about a net that is subtracted wrongly', () => {
    const noTare = foldRecord(
      whole().filter((each) => each.kind !== 'tare'),
      EXPERIMENT,
    );
    expect(noTare.nets).toEqual([]);
    expect(noTare.tareMissing).toMatchObject([{ step: '5', vessel: 'dish' }]);
    const net = entry('n', { kind: 'net', vessel: 'dish', value: 1.2103, unit: 'g' });
    const run = foldRecord([...whole(), net], EXPERIMENT);
    expect(run.diagnostics).toMatchObject([{ code: 'net-disagrees' }]);
    expect(run.nets[0]!.net_g).toBe(1.1203);
  });
});

describe('corrections', () => {
  const first = entry('1', { kind: 'net', vessel: 'dish', value: 1, unit: 'g' });
  const second = entry('2', { kind: 'correction', corrects: '1', value: 2 });
  const netOf = (...entries: BenchEntry[]) => foldRecord(entries, EXPERIMENT).nets[0]?.net_g;

  it('replaces, and takes over what it leaves out', () => {
    const run = foldRecord([first, second], EXPERIMENT);
    expect(run.nets).toMatchObject([{ vessel: 'dish', net_g: 2 }]);
    expect(run.struck).toEqual([{ entry: first, by: '2', replacedBy: '2' }]);
    expect(run.entries).toHaveLength(2);
  });
  it('replaces a correction', () => {
    expect(netOf(first, second, entry('3', { kind: 'correction', corrects: '2', value: 3 }))).toBe(
      3,
    );
  });
  it('withdraws an entry', () => {
    const gone = entry('3', { kind: 'correction', corrects: '1', text: 'wrong dish' });
    expect(netOf(first, gone)).toBeUndefined();
  });
  it('brings back what a withdrawn correction had struck', () => {
    const gone = entry('3', { kind: 'correction', corrects: '2', text: 'was right at first' });
    expect(netOf(first, second, gone)).toBe(1);
  });
  it('lets the later of two corrections stand', () => {
    const third = entry('3', { kind: 'correction', corrects: '1', value: 3 });
    const run = foldRecord([first, third, second], EXPERIMENT);
    expect(run.nets[0]!.net_g).toBe(3);
    expect(run.diagnostics).toMatchObject([{ code: 'correction-twice' }]);
    expect(run.struck.map((each) => each.entry.id)).toEqual(['1', '2']);
  });
  it('keeps the photographs of an observation, also where its words are corrected', () => {
    const attachments = ['a'.repeat(64)];
    const seen = entry('1', { text: 'pink', attachments });
    const words = entry('2', { kind: 'correction', corrects: '1', text: 'red' });
    expect(foldRecord([seen], EXPERIMENT).observations).toEqual([seen]);
    const [corrected] = foldRecord([seen, words], EXPERIMENT).observations;
    expect(corrected).toMatchObject({ text: 'red', attachments });
  });

  it('takes a photograph that is added later for a correction, not for a withdrawal', () => {
    const weighed = entry('1', { kind: 'net', step: '5', vessel: 'dish', value: 1.1, unit: 'g' });
    const slip = entry('2', {
      kind: 'correction',
      corrects: '1',
      attachments: ['b'.repeat(64)],
    });
    const run = foldRecord([weighed, slip], EXPERIMENT);
    expect(run.nets.map((net) => net.net_g)).toEqual([1.1]);
    expect(run.struck).toMatchObject([{ by: '2', replacedBy: '2' }]);
  });

  it('corrects words', () => {
    const seen = entry('1', { kind: 'observation', text: 'pink' });
    const run = foldRecord(
      [seen, entry('2', { kind: 'correction', corrects: '1', text: 'red' })],
      EXPERIMENT,
    );
    expect(run.observations.map((each) => each.text)).toEqual(['red']);
  });
  it('follows a chain of thousands without a stack', () => {
    const chain = [first];
    for (let i = 2; i <= 20_000; i++) {
      chain.push(entry(String(i), { kind: 'correction', corrects: String(i - 1), value: i }));
    }
    expect(netOf(...chain)).toBe(20_000);
  });
});

describe('two entries under one id', () => {
  const one = entry('1', { kind: 'net', vessel: 'dish', value: 1, unit: 'g' });
  it('are one if they say the same', () => {
    const run = foldRecord([one, { ...one }], EXPERIMENT);
    expect(run.entries).toHaveLength(1);
    expect(run.diagnostics).toEqual([]);
  });
  it('are kept apart if they do not', () => {
    const run = foldRecord([{ ...one, value: 2 }, one], EXPERIMENT);
    expect(run.entries).toHaveLength(2);
    expect(run.conflicts).toMatchObject([{ id: '1' }]);
    expect(run.diagnostics).toMatchObject([{ code: 'entry-conflict', severity: 'error' }]);
  });
});

describe('any order of arrival', () => {
  const ids = fc.constantFrom('a', 'b', 'c', 'd', 'e', 'f');
  const entries = fc.array(
    fc.record(
      {
        id: ids,
        at: fc.constantFrom('2026-02-03T10:00:00Z', '2026-02-03T11:00:00+01:00', '2026-02-03'),
        by: fc.constant('R.'),
        kind: fc.constantFrom('charge', 'tare', 'gross', 'net', 'observation', 'correction'),
        step: fc.constantFrom('1', '2', '5', 'Step 5', '9'),
        item: fc.constantFrom('water', 'sodium benzoate', 'sodium benzoat'),
        vessel: fc.constantFrom('dish', 'the beaker', 'dihs'),
        value: fc.constantFrom(-1, 0, 1, 2.5, 44.2),
        unit: fc.constantFrom('g', 'mg', 'mL', 'furlong'),
        corrects: ids,
        text: fc.constantFrom('', 'white'),
        n: fc.constantFrom(1, 2),
        document: fc.constantFrom('old', 'new'),
      },
      { requiredKeys: ['id', 'at', 'by', 'kind'] },
    ),
    { maxLength: 12 },
  ) as fc.Arbitrary<BenchEntry[]>;

  it('gives the same fold, and so does every doubling', () => {
    const shuffled = entries.chain((list) =>
      fc.tuple(
        fc.constant(list),
        fc.shuffledSubarray([...list, ...list], { minLength: 0 }),
        fc.shuffledSubarray(list, { minLength: list.length }),
      ),
    );
    fc.assert(
      fc.property(shuffled, ([list, extra, permuted]) => {
        const expected = foldRecord(list, EXPERIMENT, 'new');
        expect(foldRecord([...permuted, ...extra], EXPERIMENT, 'new')).toEqual(expected);
      }),
      { numRuns: RUNS },
    );
  });

  it('loses nothing: each entry is in the fold', () => {
    fc.assert(
      fc.property(entries, (list) => {
        const run = foldRecord(list, EXPERIMENT);
        for (const each of list) expect(run.entries).toContainEqual(each);
      }),
      { numRuns: RUNS },
    );
  });
});

describe('evidence', () => {
  const infrared = { technique: 'infrared', of: 'product', state: 'atr' } as const;
  const measured = (id: string, more: Partial<BenchEntry>) =>
    entry(id, { kind: 'evidence', ...more });

  it('is kept in order, and a correction puts another in its place', () => {
    const second = { ...infrared, state: 'film' } as const;
    const run = foldRecord(
      [
        measured('e1', { evidence: infrared }),
        measured('e2', { evidence: second }),
        measured('c1', { kind: 'correction', corrects: 'e1', evidence: second }),
      ],
      EXPERIMENT,
    );
    expect(run.evidence.map(({ evidence }) => evidence)).toEqual([second, second]);
    expect(run.struck.map(({ entry: { id } }) => id)).toEqual(['e1']);
  });

  it('without a measurement it is said', () => {
    expect(foldRecord([measured('e1', {})], EXPERIMENT).diagnostics).toMatchObject([
      { code: 'entry-empty', entry: 'e1' },
    ]);
  });
});
