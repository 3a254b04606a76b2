import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { paintDiagnostics, summaryOf } from '../../src/cli/paint/diagnostics.ts';
import { paintFlow } from '../../src/cli/paint/flow.ts';
import type { FlowPicture } from '../../src/cli/paint/flow-picture.ts';
import { gauge } from '../../src/cli/paint/gauge.ts';
import { PLAIN_INK, inkFor } from '../../src/cli/paint/ink.ts';
import { bar, legend, marked } from '../../src/cli/paint/number.ts';
import { paintTable } from '../../src/cli/paint/table.ts';
import {
  clip,
  count,
  harmless,
  keepAmounts,
  listed,
  padStart,
  widthOf,
  wrap,
} from '../../src/cli/paint/text.ts';
import type { Diagnostic } from '../../src/core/diagnostic.ts';

const page = (width: number, colour = false) => ({ width, ink: inkFor(colour) });

describe('text', () => {
  it('measures what is seen, not what is stored', () => {
    expect(widthOf('\u001b[1mab\u001b[22m')).toBe(2);
    expect(widthOf('5\u202f°C')).toBe(4);
    expect(widthOf('水')).toBe(2);
    expect(padStart('ab', 4)).toBe('  ab');
  });

  it('breaks names after a hyphen and keeps amounts whole', () => {
    expect(wrap('4-methylcyclohexanone', 12)).toEqual(['4-methylcycl', 'ohexanone']);
    expect(wrap('sodium-tetrahydridoborate', 12)).toEqual(['sodium-', 'tetrahydrido', 'borate']);
    expect(wrap('ethanol 10\u202fmL', 8)).toEqual(['ethanol', '10\u202fmL']);
  });

  it('never makes a line that is too wide, and loses no letter', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'grapheme' }),
        fc.integer({ min: 2, max: 60 }),
        (text, width) => {
          const lines = wrap(text, width);
          expect(Math.max(...lines.map(widthOf))).toBeLessThanOrEqual(width);
          expect(lines.join('').replace(/\s/g, '')).toBe(text.replace(/\s/g, ''));
        },
      ),
    );
  });

  it('cuts with an ellipsis', () => {
    expect(clip('separatory funnel', 10)).toBe('separator…');
    expect(clip('flask', 10)).toBe('flask');
  });

  it('keeps a number by its unit', () => {
    expect(keepAmounts('ether 3 × 10 mL at 5 °C')).toBe(
      'ether 3\u00a0×\u00a010\u00a0mL at 5\u00a0°C',
    );
  });

  it('counts and lists', () => {
    expect(count(1, 'remark')).toBe('1 remark');
    expect(count(0, 'remark')).toBe('0 remarks');
    expect(listed(['a', 'b', 'c'])).toBe('a, b and c');
  });

  it('takes the harm out of control characters and keeps places', () => {
    const text = 'a\u001b[2Jb\tc\r\nd\u009b';
    expect(harmless(text)).toBe('a\ufffd[2Jb\tc\r\nd\ufffd');
    expect(harmless(text)).toHaveLength(text.length);
  });
});

describe('numbers', () => {
  it('marks how they are known without colour', () => {
    expect([marked('1 g', 'planned'), marked('1 g', 'assumed'), marked('1 g', 'measured')]).toEqual(
      ['1 g', '~1 g', '•1 g'],
    );
    expect(legend(['planned'], page(80))).toBe('');
    expect(legend(['planned', 'assumed'], page(80))).toContain('~1.12 g assumed');
  });

  it('shows any share that is more than nothing', () => {
    expect(bar(0, 10)).toBe('');
    expect(bar(0.0001, 10)).toBe('▏');
    expect(bar(1, 4)).toBe('████');
    expect(bar(3, 4)).toBe('████');
  });
});

describe('tables', () => {
  const rows = [
    { name: '4-methylcyclohexanone', mass: '1.12' },
    { name: 'ethanol', mass: '10' },
  ];
  const columns = [
    { head: 'name', cell: (row: { name: string; mass: string }) => row.name, least: 8 },
    {
      head: 'g',
      cell: (row: { name: string; mass: string }) => row.mass,
      align: 'decimal' as const,
    },
  ];

  it('sets decimal points under each other', () => {
    expect(paintTable(rows, columns, page(80)).text.split('\n').slice(2)).toEqual([
      '4-methylcyclohexanone   1.12',
      'ethanol                10',
    ]);
  });

  it('breaks what may be broken before it leaves a column out', () => {
    const { text, leftOut } = paintTable(rows, columns, page(24));
    expect(leftOut).toEqual([]);
    expect(Math.max(...text.split('\n').map(widthOf))).toBeLessThanOrEqual(24);
  });

  it('says which columns were left out', () => {
    const wide = [...columns, { head: 'remark', cell: () => 'x'.repeat(30), spare: 1 }];
    expect(paintTable(rows, wide, page(40)).leftOut).toEqual(['remark']);
  });
});

describe('diagnostics', () => {
  const source = '# T\n\nFilter the flask under vacuum.\n';
  const found: Diagnostic[] = [
    { code: 'a-note', severity: 'note', message: 'Nothing much.' },
    {
      code: 'vessel-empty',
      severity: 'error',
      message: 'The flask holds nothing.',
      hint: 'Charge it first.',
      at: { line: 3, column: 12, length: 5, step: '1' },
    },
  ];

  it('sums up', () => {
    expect(summaryOf([])).toBe('No errors.');
    expect(summaryOf(found)).toBe('1 error. 1 remark.');
  });

  it('shows the words meant, errors first', () => {
    expect(paintDiagnostics(found, source, page(80))).toBe(
      [
        'error  line 3:12, step 1  vessel-empty',
        '  The flask holds nothing.',
        '     3 │ Filter the flask under vacuum.',
        '       │            ^^^^^',
        '  → Charge it first.',
        '',
        'note  a-note',
        '  Nothing much.',
      ].join('\n'),
    );
  });

  it('keeps the words meant in sight on a long line', () => {
    const long = `${'word '.repeat(60)}flask ${'word '.repeat(60)}`;
    const text = paintDiagnostics(
      [{ code: 'x', severity: 'error', message: 'm', at: { line: 1, column: 301, length: 5 } }],
      long,
      page(60),
    );
    const [, , line, caret] = text.split('\n');
    const at = caret!.indexOf('^');
    expect(line!.slice(at, at + 5)).toBe('flask');
    expect(widthOf(line!)).toBeLessThanOrEqual(60);
  });

  it('draws for any place at all', () => {
    fc.assert(
      fc.property(
        fc.string(),
        fc.integer(),
        fc.integer(),
        fc.integer(),
        (text, line, column, length) => {
          paintDiagnostics(
            [{ code: 'x', severity: 'note', message: 'm', at: { line, column, length } }],
            text,
            page(50),
          );
        },
      ),
    );
  });
});

describe('the gauge', () => {
  it.each([
    ['half full of one layer', 0.5, [{ phase: 'organic', share: 1 }], '▕╱╱╱╱    ▏'],
    [
      'two layers, the lower at the left',
      0.5,
      [
        { phase: 'aqueous', share: 0.5 },
        { phase: 'organic', share: 0.5 },
      ],
      '▕≡≡╱╱    ▏',
    ],
    [
      'a trace shows',
      0.5,
      [
        { phase: 'solid', share: 0.001 },
        { phase: 'organic', share: 0.999 },
      ],
      '▕∴╱╱╱    ▏',
    ],
    ['overfull is full', 3, [{ phase: 'aqueous', share: 1 }], '▕≡≡≡≡≡≡≡≡▏'],
    ['empty', 0, [], '▕        ▏'],
    ['no capacity known', undefined, [{ phase: 'aqueous', share: 1 }], '▕≡≡≡≡≡    '],
  ] as const)('%s', (_what, fill, layers, drawn) => {
    expect(gauge(fill, layers, 10)).toBe(drawn);
  });
});

describe('the flow sheet', () => {
  const picture: FlowPicture = {
    columns: [
      { id: 'flask', name: 'flask', note: '50 mL' },
      { id: 'funnel', name: 'funnel', note: '125 mL' },
    ],
    rows: [
      {
        step: '1',
        label: 'Charge the flask with ethanol 10 mL',
        time: '0 min',
        passages: [{ to: 'flask', label: 'ethanol', amount: '10 mL', basis: 'planned' }],
        states: [
          { vessel: 'flask', amount: '10 mL', fill: 0.2, layers: [{ phase: 'organic', share: 1 }] },
        ],
      },
      {
        step: '2',
        label: 'Transfer the flask to the funnel',
        time: '2 min',
        passages: [
          { from: 'flask', to: 'funnel', label: 'everything', amount: '10 mL', basis: 'assumed' },
        ],
        states: [
          { vessel: 'flask', amount: '', fill: 0, layers: [] },
          {
            vessel: 'funnel',
            amount: '10 mL',
            fill: 0.08,
            layers: [{ phase: 'organic', share: 1 }],
          },
        ],
      },
      {
        step: '3',
        label: 'Discard the contents',
        time: '3 min',
        passages: [
          {
            from: 'funnel',
            leaves: 'waste',
            label: 'everything',
            amount: '10 mL',
            basis: 'planned',
          },
        ],
        states: [{ vessel: 'funnel', amount: '', fill: 0, layers: [] }],
      },
    ],
  };

  it('runs arrows between stock, vessels and what leaves', () => {
    const text = paintFlow(picture, page(100));
    expect(text).toMatch(/ethanol 10 mL ─+►│/);
    expect(text).toMatch(/everything ~10 mL +├╌+▻│/);
    expect(text).toMatch(/everything 10 mL +├─+► waste/);
    expect(text).toContain('~1.12 g assumed');
    expect(Math.max(...text.split('\n').map(widthOf))).toBeLessThanOrEqual(100);
  });

  it('lets vessels that come one after another share a lane, and names each where it begins', () => {
    const ids = Array.from({ length: 12 }, (_, i) => `vessel ${i + 1}`);
    const layers = [{ phase: 'aqueous', share: 1 }] as const;
    const many: FlowPicture = {
      columns: ids.map((id) => ({ id, name: id, note: '' })),
      rows: ids.map((id, i) => ({
        step: String(i + 1),
        label: `Pour into ${id}`,
        time: `${i} min`,
        passages: [
          i === 0
            ? { to: id, label: 'water', amount: '5 mL', basis: 'planned' }
            : { from: ids[i - 1]!, to: id, label: 'all', amount: '5 mL', basis: 'planned' },
        ],
        states: [{ vessel: id, amount: '5 mL', layers }],
      })),
    };
    const text = paintFlow(many, page(100));
    expect(text).toMatch(/Vessels, named .*… Leaves/);
    for (const id of ids) expect(text.split(id).length).toBeGreaterThanOrEqual(3);
    expect(Math.max(...text.split('\n').map(widthOf))).toBeLessThanOrEqual(100);
    expect(text.match(/►│/g)?.length).toBeGreaterThan(5);
  });

  it('is a list where the page is narrow', () => {
    const text = paintFlow(picture, page(60));
    expect(text).toContain('flask ╌▻ funnel: everything ~10 mL');
    expect(text).toContain('funnel ─► waste: everything 10 mL');
    expect(Math.max(...text.split('\n').map(widthOf))).toBeLessThanOrEqual(60);
  });

  it('is the same with styles as without', () => {
    // eslint-disable-next-line no-control-regex -- the escape is what is meant
    const bare = paintFlow(picture, page(100, true)).replace(/\u001b\[[0-9;]*m/g, '');
    expect(bare).toBe(paintFlow(picture, { width: 100, ink: PLAIN_INK }));
  });
});
