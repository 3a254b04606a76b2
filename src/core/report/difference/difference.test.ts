import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { documents } from '../../../../test/documents.ts';
import { align } from './align.ts';
import { differenceOf } from './difference.ts';
import { wordRuns } from './words.ts';

const RUNS = Math.ceil(Number(process.env['FUZZ_RUNS'] ?? 300) / 5);
const plain = (text: string) => text.replace(/\u202f/g, ' ');

const TEXT = readFileSync(
  new URL('../../../../examples/cyclohexanol/experiment.md', import.meta.url),
  'utf8',
);
const changed = (from: string, to: string, text = TEXT) => {
  expect(text).toContain(from);
  return text.replace(from, to);
};

describe('the difference of two versions', () => {
  it('tells an amount by its step, in grams, per cent and moles', () => {
    const more = changed('(0.150 g, 3.96 mmol)', '(0.180 g, 4.76 mmol)');
    const found = differenceOf(TEXT, more);
    expect(found.amounts.map((each) => plain(each.sentence))).toEqual([
      'sodium borohydride, step 3: 0.150 g → 0.180 g (+20 %), 3.96 → 4.76 mmol',
    ]);
    expect(found.steps).toMatchObject([{ kind: 'changed', stepBefore: '3', stepAfter: '3' }]);
    // The hydride that is left over gives its hydrogen at the quench
    expect(found.consequences.map((each) => each.kind)).toEqual(['gas']);
  });

  it('says when another reagent limits, and what that does to the theory', () => {
    const less = changed('(0.150 g, 3.96 mmol)', '(0.075 g, 1.98 mmol)');
    const { consequences } = differenceOf(TEXT, less);
    expect(consequences.map((each) => each.kind)).toEqual(['theory', 'limiting', 'gas']);
    // 0.075 g / 37.83 g/mol · 4 · 114.19 g/mol
    expect(consequences[0]!.after_value).toBeCloseTo(0.9056, 3);
    expect(consequences[1]!.sentence).toBe(
      'Sodium borohydride limits now; before, 4-methylcyclohexanone did.',
    );
  });

  it('does not take a step put in front for a change of all the others', () => {
    const more = changed(
      '1. Charge the flask',
      '1. Flush the flask with nitrogen for 5 min.\n2. Charge the flask',
    );
    const { steps, amounts, other } = differenceOf(TEXT, more);
    expect(steps).toMatchObject([{ kind: 'added', stepBefore: null, stepAfter: '1' }]);
    expect([amounts, other]).toEqual([[], []]);
  });

  it('knows a step that was moved from one that went and came', () => {
    const stir = '7. Stir the mixture for 5 min.\n';
    const moved = changed(stir, '').replace('### Extraction\n', `### Extraction\n\n${stir}`);
    expect(differenceOf(TEXT, moved).steps).toEqual([]);
    const tare = '15. Tare the product flask.\n';
    const first = changed(tare, '').replace('1. Charge the flask', `${tare}1. Charge the flask`);
    const { steps, amounts } = differenceOf(TEXT, first);
    expect(steps).toMatchObject([{ kind: 'moved', stepBefore: '15', stepAfter: '1', words: [] }]);
    expect(amounts).toEqual([]);
  });

  it('shows which words of a sentence are others', () => {
    const [step] = differenceOf(TEXT, changed('at 20 °C for 20 min', 'at 20 °C for 30 min')).steps;
    expect(step!.words.filter((run) => run.kind !== 'same')).toEqual([
      { kind: 'removed', text: '20 ' },
      { kind: 'added', text: '30 ' },
    ]);
  });

  it('says how much longer it takes', () => {
    const { consequences } = differenceOf(TEXT, changed('for 20 min', 'for 80 min'));
    expect(consequences).toMatchObject([{ kind: 'duration', unit: 'min' }]);
    expect(consequences[0]!.after_value! - consequences[0]!.before_value!).toBe(60);
  });

  it('lists what is taken for the first time or no longer', () => {
    const without = changed('; rinse the flask with water (10 mL)', '');
    const { amounts } = differenceOf(TEXT, without);
    expect(amounts.map((each) => plain(each.sentence))).toEqual([
      'water, step 8b: 10 mL → not taken',
    ]);
  });

  it.each([
    ['Period: 3 h', 'Period: 4 h', 'the header'],
    ['# 4-Methylcyclohexanol: a ketone', '# Hydride and a ketone', 'the title'],
    ['- funnel: 125 mL', '- funnel: 250 mL', 'the vessels'],
    ['Appearance: colourless liquid', 'Appearance: oily liquid', 'the product'],
    ['weigh it in the hood', 'weigh it in a glove box', 'Safety'],
    ['Hydrogen comes off with foam.', 'Hydrogen comes off slowly.', 'the remarks of the procedure'],
    ['### Quench\n', '### Quench with acid\n', 'the parts of the procedure'],
    ['with hydrogen), extract', 'with hydrogen gas), extract', 'the introduction'],
  ])('finds “%s” → “%s”', (from, to, where) => {
    const { other, steps, amounts } = differenceOf(TEXT, changed(from, to));
    expect(other.map((each) => each.where)).toEqual([where]);
    expect([steps, amounts]).toEqual([[], []]);
  });

  it('says which warnings came', () => {
    const spoilt = changed('with diethyl ether (3 × 10 mL)', 'with diethyl ether');
    const { consequences } = differenceOf(TEXT, spoilt);
    expect(consequences.some(({ kind, before }) => kind === 'finding' && before === null)).toBe(
      true,
    );
  });

  it('takes a text that is only set otherwise for the same', () => {
    const set = TEXT.replace(/\n/g, '\r\n').replace('dropwise over', 'dropwise\r\n   over');
    expect(differenceOf(TEXT, set).sentences).toEqual([]);
  });
});

const byText = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);
const byNumber = (a: number, b: number) => a - b;
const texts = documents().map(([, text]) => text);

/** Lines left out, doubled, swapped, and figures changed: what people do to a handout. */
const edited = fc
  .tuple(
    fc.constantFrom(...texts),
    fc.array(fc.tuple(fc.constantFrom('leave', 'swap', 'figure'), fc.nat(), fc.nat()), {
      minLength: 1,
      maxLength: 4,
    }),
  )
  .map(([text, edits]) => {
    const lines = text.split('\n');
    for (const [what, a, b] of edits) {
      const i = a % lines.length;
      const j = b % lines.length;
      if (what === 'leave') lines.splice(i, 1);
      else if (what === 'swap') [lines[i], lines[j]] = [lines[j]!, lines[i]!];
      else lines[i] = lines[i]!.replace(/\d/, String(b % 10));
    }
    return [text, lines.join('\n')] as const;
  });

describe('for every document', () => {
  it('a text does not differ from itself', () => {
    for (const text of texts) {
      const { consequences, amounts, steps, other, sentences } = differenceOf(text, text);
      expect([consequences, amounts, steps, other, sentences]).toEqual([[], [], [], [], []]);
    }
  });

  it('the other way round, what came has gone', () => {
    fc.assert(
      fc.property(edited, ([a, b]) => {
        const there = differenceOf(a, b);
        const back = differenceOf(b, a);
        const texts_ = (each: typeof there, kind: string, side: 'before' | 'after') =>
          each.steps
            .filter((step) => step.kind === kind)
            .map((step) => step[side] ?? '')
            .sort(byText);
        expect(texts_(back, 'added', 'after')).toEqual(texts_(there, 'removed', 'before'));
        expect(texts_(back, 'removed', 'before')).toEqual(texts_(there, 'added', 'after'));
        const values = (each: typeof there, turned: boolean) =>
          each.consequences
            .filter(({ kind }) => kind !== 'finding')
            .map(({ kind, before_value: x, after_value: y }) =>
              turned ? [kind, y, x] : [kind, x, y],
            )
            .map((each) => JSON.stringify(each))
            .sort(byText);
        expect(values(back, true)).toEqual(values(there, false));
        expect(JSON.parse(JSON.stringify(there))).toEqual(there);
      }),
      { numRuns: RUNS },
    );
  });

  it('every sentence of both is accounted for once', () => {
    const words = fc.array(fc.constantFrom('stir', 'heat', 'cool', 'flask', 'ether', '5', '10'), {
      minLength: 1,
      maxLength: 5,
    });
    const list = fc.array(
      words.map((each) => each.join(' ')),
      { maxLength: 8 },
    );
    fc.assert(
      fc.property(list, list, (a, b) => {
        const { pairs, removed, added, moved } = align(a, b);
        expect([...pairs.map((p) => p.before), ...removed].sort(byNumber)).toEqual([...a.keys()]);
        expect([...pairs.map((p) => p.after), ...added].sort(byNumber)).toEqual([...b.keys()]);
        const kept = pairs.filter((_, k) => !moved.has(k)).map((p) => p.before);
        expect(kept).toEqual([...kept].sort(byNumber));
        if (a.join('|') === b.join('|')) expect([moved.size, removed, added]).toEqual([0, [], []]);
      }),
    );
  });

  it('the runs of words give both texts back', () => {
    const text = fc
      .array(fc.constantFrom('stir', 'the', 'flask', 'for', '5', 'min'), { maxLength: 9 })
      .map((words) => words.join(' '));
    fc.assert(
      fc.property(text, text, (a, b) => {
        const runs = wordRuns(a, b);
        const without = (kind: string) =>
          runs
            .filter((run) => run.kind !== kind)
            .map((run) => run.text)
            .join('')
            .split(/\s+/)
            .join('');
        expect(without('added')).toBe(a.split(' ').join(''));
        expect(without('removed')).toBe(b.split(' ').join(''));
      }),
    );
  });
});

it('a remark that only has another number in it is neither new nor settled', () => {
  // Both versions say that the moles do not fit the mass, each with its own figures.
  const a = differenceOf(
    changed('(0.150 g, 3.96 mmol)', '(0.150 g, 7.0 mmol)'),
    changed('(0.150 g, 3.96 mmol)', '(0.150 g, 9.0 mmol)'),
  );
  expect(a.consequences.filter(({ kind }) => kind === 'finding')).toEqual([]);
  const b = differenceOf(TEXT, changed('(0.150 g, 3.96 mmol)', '(0.150 g, 9.0 mmol)'));
  expect(b.consequences.some(({ kind }) => kind === 'finding')).toBe(true);
});
