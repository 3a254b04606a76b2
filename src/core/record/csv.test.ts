import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { printCsvRecord, readCsvRecord } from './csv.ts';
import type { BenchEntry } from './entry.ts';
import { shortestDecimals } from './entry.ts';
import { printJsonRecord, readJsonRecord } from './json.ts';
import { ENTRY_KINDS } from './schema.ts';

const RUNS = Number(process.env['FUZZ_RUNS'] ?? 1000);

describe('a record as a table', () => {
  it('is read from what someone writes by hand', () => {
    const { entries, diagnostics } = readCsvRecord(
      [
        'Kind,Step,Item,Vessel,Value,Unit',
        'charge,1,sodium benzoate,,1.4380,g',
        'tare,,,dish,44.2188 g,',
        'melting range,,,,121.5–122.3 °C,',
        'observation,2,,,,',
        '',
      ].join('\n'),
      { by: 'R.' },
    );
    expect(diagnostics).toEqual([]);
    expect(entries).toEqual([
      {
        id: 'row 2',
        at: '1970-01-01T00:00:00.000Z',
        by: 'R.',
        kind: 'charge',
        step: '1',
        item: 'sodium benzoate',
        value: 1.438,
        decimals: 4,
        unit: 'g',
      },
      {
        id: 'row 3',
        at: '1970-01-01T00:00:01.000Z',
        by: 'R.',
        kind: 'tare',
        vessel: 'dish',
        value: 44.2188,
        unit: 'g',
      },
      {
        id: 'row 4',
        at: '1970-01-01T00:00:02.000Z',
        by: 'R.',
        kind: 'meltingRange',
        value: 121.5,
        high: 122.3,
        unit: '°C',
      },
      { id: 'row 5', at: '1970-01-01T00:00:03.000Z', by: 'R.', kind: 'observation', step: '2' },
    ]);
  });

  it.each([
    ['semicolons and decimal commas', 'kind;value;unit\nnet;1,120;g'],
    ['tabs', 'kind\tvalue\tunit\r\nnet\t1.120\tg\r\n'],
    ['a mark at the start', '\uFEFFkind,value,unit\rnet,1.120,g'],
    ['quotes', '"kind","value"\n"net","1.120 g"'],
    ['a quoted decimal comma', 'kind,value\nnet,"1,12 g"'],
  ])('takes %s', (_name, text) => {
    const { entries, diagnostics } = readCsvRecord(text);
    expect(diagnostics).toEqual([]);
    expect(entries).toMatchObject([{ kind: 'net', value: 1.12, unit: 'g' }]);
  });

  it.each([
    ['no number', 'net,abc,g', /no number/],
    ['two units', 'net,1 g,mg', /unit "g" and the unit "mg"/],
    ['thousands or decimals', 'net,"1,120",g', /thousands/],
    ['an unknown kind', 'grss,1,g', /unknown kind "grss"/],
    ['too many cells', 'net,1,g,2', /more cells/],
    ['an endless number', 'net,1e999,g', /no number/],
  ])('keeps the text of a row that it cannot read: %s', (_name, row, message) => {
    const { entries, diagnostics } = readCsvRecord(`kind,value,unit\n${row}\nnet,2,g`);
    expect(entries).toHaveLength(1);
    expect(diagnostics).toMatchObject([{ code: 'record-unreadable', text: row, at: { line: 2 } }]);
    expect(diagnostics[0]!.message).toMatch(message);
  });

  it('says when a column or the whole heading is not known', () => {
    expect(readCsvRecord('kind,vesel\nnet,x').diagnostics).toMatchObject([
      { code: 'record-column', hint: 'Perhaps "vessel".' },
    ]);
    expect(readCsvRecord('1,2\n3,4').diagnostics).toMatchObject([{ code: 'record-headings' }]);
    expect(readCsvRecord('').entries).toEqual([]);
  });

  it('refuses what is too large', () => {
    const rows = 'net\n'.repeat(20_001);
    expect(readCsvRecord(`kind\n${rows}`).diagnostics).toMatchObject([
      { code: 'record-too-large' },
    ]);
    expect(readCsvRecord('x'.repeat(5_000_001)).diagnostics[0]!.code).toBe('record-too-large');
    expect(readJsonRecord('x'.repeat(5_000_001)).diagnostics[0]!.code).toBe('record-too-large');
  });

  it('writes no cell that a spreadsheet would run', () => {
    const entry: BenchEntry = {
      id: '1',
      at: '2026-02-03',
      by: '@R',
      kind: 'observation',
      text: '=1+1',
    };
    const text = printCsvRecord([entry]);
    expect(text).toContain(",'=1+1\r\n");
    expect(readCsvRecord(text).entries).toEqual([entry]);
  });
});

describe('JSON', () => {
  it.each([
    ['no JSON', '{', 0, /no JSON/],
    ['no list', '{"a": 1}', 0, /no list/],
    ['an entry without a kind', '[{"id":"1","at":"2026-02-03","by":""}]', 0, /"kind"/],
    [
      'a field that is not known',
      '[{"id":"1","at":"2026-02-03","by":"","kind":"net","x":1}]',
      0,
      /no entry/,
    ],
    [
      'an attachment that is no hash',
      '[{"id":"1","at":"2026-02-03","by":"","kind":"observation","attachments":["photo.jpg"]}]',
      0,
      /"attachments/,
    ],
    [
      'more attachments than are kept',
      JSON.stringify([
        {
          id: '1',
          at: '2026-02-03',
          by: '',
          kind: 'observation',
          attachments: Array.from({ length: 9 }, () => 'a'.repeat(64)),
        },
      ]),
      0,
      /"attachments/,
    ],
    ['a time that is none', '[{"id":"1","at":"Tuesday","by":"","kind":"net"}]', 0, /"at"/],
  ])('refuses %s', (_name, text, count, message) => {
    const { entries, diagnostics } = readJsonRecord(text);
    expect(entries).toHaveLength(count);
    expect(diagnostics).toMatchObject([{ code: 'record-unreadable' }]);
    expect(diagnostics[0]!.message).toMatch(message);
  });
});

describe('attachments', () => {
  const first = 'a'.repeat(64);
  const second = '0'.repeat(63) + 'f';

  it('stand in a column of their own, parted by spaces', () => {
    const table = `kind,step,text,photos\nobservation,2,pink,${first}  ${second}`;
    const { entries, diagnostics } = readCsvRecord(table);
    expect(diagnostics).toEqual([]);
    expect(entries[0]!.attachments).toEqual([first, second]);
  });

  it('a row whose hash is cut off comes back with its text', () => {
    const { entries, diagnostics } = readCsvRecord(
      `kind,step,attachments\nobservation,2,${first.slice(1)}`,
    );
    expect(entries).toEqual([]);
    expect(diagnostics).toMatchObject([{ code: 'record-unreadable' }]);
  });
});

describe('there and back', () => {
  const words = fc.string({ unit: 'binary', minLength: 1, maxLength: 12 });
  const number = fc.oneof(
    fc.double({ noNaN: true, noDefaultInfinity: true }).map((x) => x + 0),
    fc.integer({ min: -99999, max: 99999 }).map((x) => x / 1000),
  );
  const entry = fc
    .record(
      {
        id: words,
        at: fc.constantFrom('2026-02-03T10:00:00Z', '2026-02-03T10:00:00.5+01:00', '2026-02-03'),
        by: fc.string({ unit: 'grapheme', maxLength: 5 }),
        kind: fc.constantFrom(...ENTRY_KINDS),
        document: words,
        bench: words,
        step: words,
        use: words,
        item: words,
        vessel: words,
        value: number,
        high: number,
        unit: words,
        instrument: words,
        n: fc.integer({ min: 1, max: 99 }),
        corrects: words,
        text: words,
        attachments: fc.array(fc.stringMatching(/^[0-9a-f]{64}$/), { minLength: 1, maxLength: 8 }),
        evidence: fc.record(
          {
            technique: fc.constant('infrared' as const),
            of: fc.constantFrom('product' as const, 'reference' as const),
            state: fc.constantFrom('film' as const, 'atr' as const),
          },
          { requiredKeys: ['technique', 'of'] },
        ),
        zeros: fc.integer({ min: 1, max: 3 }),
      },
      { requiredKeys: ['id', 'at', 'by', 'kind'] },
    )
    .map(({ zeros, high, value, ...rest }): BenchEntry => {
      if (value === undefined) return rest;
      const decimals = shortestDecimals(value) + (zeros ?? 0);
      const trailing = zeros !== undefined && decimals <= 12 && Math.abs(value) < 1e15;
      return {
        ...rest,
        value,
        ...(high === undefined ? {} : { high }),
        ...(trailing ? { decimals } : {}),
      };
    });

  it('a table gives back the entries', () => {
    fc.assert(
      fc.property(fc.array(entry, { maxLength: 4 }), (entries) => {
        const back = readCsvRecord(printCsvRecord(entries));
        expect(back.diagnostics).toEqual([]);
        expect(back.entries).toEqual(entries);
      }),
      { numRuns: RUNS },
    );
  });

  it('JSON gives back the entries', () => {
    fc.assert(
      fc.property(fc.array(entry, { maxLength: 4 }), (entries) => {
        expect(readJsonRecord(printJsonRecord(entries)).entries).toEqual(entries);
      }),
      { numRuns: RUNS },
    );
  });

  it('nothing that is read crashes or hangs', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        readCsvRecord(text);
        readCsvRecord(`kind,value,unit,text\n${text}`);
        readJsonRecord(text);
      }),
      { numRuns: RUNS },
    );
  });
});
