import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { BalanceCourse, CourseStage } from '../../core/report/result/course.ts';
import { balanceBar } from './balance-bar.ts';
import { layoutOf, roomForAll, roomOf } from './layout.ts';
import { courseSentence, massOf, stageWords } from './words.ts';

const stage = (fields: Partial<CourseStage>): CourseStage => ({
  kind: 'weighed',
  step: '18',
  vessel: 'product flask',
  start_g: 0,
  product_g: 0,
  over_g: 0,
  gone_g: 0,
  lastDigit_g: 0.001,
  ...fields,
});

const DRY: BalanceCourse = {
  theory_g: 1,
  lostSight: false,
  stages: [
    stage({ kind: 'theory', step: null, vessel: null, product_g: 1, lastDigit_g: null }),
    stage({ weighing: 'crude', product_g: 0.8, gone_g: 0.2 }),
    stage({ weighing: 'isolated', step: '20', product_g: 0.75, gone_g: 0.05 }),
  ],
};

const WET: BalanceCourse = {
  ...DRY,
  stages: [DRY.stages[0]!, stage({ weighing: 'isolated', product_g: 1, over_g: 0.2 })],
};

const WORDS = { name: 'alcohol', recovered: false, decimal: '.' } as const;

test('the sentence says what went and what was weighed', () => {
  expect(courseSentence(DRY, WORDS).replaceAll('\u202f', ' ')).toBe(
    'Of the 1.000 g of alcohol that theory allows, 0.200 g was missing at step 18, ' +
      '0.050 g was missing at step 20, 0.750 g was weighed in the end.',
  );
});

test('more than could be there is said to be more', () => {
  expect(courseSentence(WET, WORDS).replaceAll('\u202f', ' ')).toBe(
    'At step 18 the balance showed 1.200 g, 0.200 g more than could be there; ' +
      'by the ledger 0.200 g of it is not alcohol.',
  );
});

test('what is not weighed yet is at most', () => {
  const due: BalanceCourse = {
    ...DRY,
    stages: [DRY.stages[0]!, stage({ kind: 'due', product_g: 1, lastDigit_g: null })],
  };
  expect(stageWords(due.stages[1]!, due, WORDS).value).toBe('at most 1.000\u202fg');
});

test('masses take the decimals of the balance and the sign of the laboratory', () => {
  const coarse = { ...DRY, stages: DRY.stages.map((each) => ({ ...each, lastDigit_g: 0.01 })) };
  expect(massOf(0.8, coarse, { ...WORDS, decimal: ',' })).toBe('0,80\u202fg');
});

const anyStage = fc.record({
  product_g: fc.double({ min: 0, max: 1.4, noNaN: true }),
  over_g: fc.double({ min: 0, max: 0.5, noNaN: true }),
  gone_g: fc.double({ min: 0, max: 0.3, noNaN: true }),
});

test('bars are to one scale: twice the mass is twice as long', () => {
  fc.assert(
    fc.property(
      fc.array(anyStage, { minLength: 2, maxLength: 6 }),
      fc.integer({ min: 320, max: 1400 }),
      (all, width) => {
        const course = { ...DRY, stages: [DRY.stages[0]!, ...all.map((each) => stage(each))] };
        const { stages } = layoutOf(course, WORDS, width);
        const perGram = stages[0]!.bar.width / course.theory_g;
        for (const { stage: own, bar, over, gone } of stages) {
          expect(bar.width).toBeCloseTo(own.product_g * perGram, 6);
          expect(over.width).toBeCloseTo(own.over_g * perGram, 6);
          expect(gone.width).toBeCloseTo(own.gone_g * perGram, 6);
        }
      },
    ),
  );
});

test('over the theory the bar runs on beyond its end', () => {
  const layout = layoutOf(WET, WORDS, 900);
  const { over } = layout.stages[1]!;
  expect(over.x).toBeCloseTo(layout.theory_x, 6);
  expect(over.width).toBeGreaterThan(20);
  expect(over.x + over.width).toBeLessThanOrEqual(900);
});

test('bars that share their room share their scale', () => {
  const small: BalanceCourse = {
    theory_g: 0.5,
    lostSight: false,
    stages: [stage({ kind: 'theory', product_g: 0.5, lastDigit_g: null })],
  };
  const room = roomForAll([roomOf(DRY, WORDS), roomOf(small, WORDS)]);
  const [large] = layoutOf(DRY, WORDS, 900, room).stages;
  const [half] = layoutOf(small, WORDS, 900, room).stages;
  expect(half!.bar.x).toBe(large!.bar.x);
  expect(half!.bar.width).toBeCloseTo(large!.bar.width / 2, 6);
});

test('the drawing is spoken, escaped, and has no style attribute for a policy to refuse', () => {
  const svg = balanceBar(DRY, { ...WORDS, name: '<b>&', width: 390, idPrefix: 'a b' });
  expect(svg).toContain('role="img" aria-label="Of the 1.000');
  expect(svg).toContain('&lt;b&gt;&amp;');
  expect(svg).not.toContain(' style=');
  expect(svg).toContain('id="a_b-gone"');
});
