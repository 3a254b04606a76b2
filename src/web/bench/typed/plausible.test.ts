import { expect, it } from 'vitest';
import { questionAbout, questionAboutNet } from './plausible.ts';

const KETONE = { planned: { value: 1.12 }, low: 0.9, high: 1.4, unit: 'g' };

it.each([
  [1.12, undefined],
  [0.9, undefined],
  [11.2, '10 times the plan. Keep it?'],
  [0.112, '1/10 of the plan. Keep it?'],
  [1.5, 'More than the most that is expected, 1.4\u202fg. Keep it?'],
  [0.8, 'Less than the least that is expected, 0.9\u202fg. Keep it?'],
  [0, 'Less than the least that is expected, 0.9\u202fg. Keep it?'],
])('%s g of a ketone', (value, question) => {
  expect(questionAbout(value, KETONE, '.')).toBe(question);
});

it('asks in the decimal sign of the laboratory', () => {
  expect(questionAbout(1.5, KETONE, ',')).toContain('1,4');
});

it('asks nothing where nothing is expected', () => {
  expect(questionAbout(99, { unit: 'g' }, '.')).toBeUndefined();
});

it.each([
  [59.3, undefined],
  [58.4, 'Less than the empty vessel, 58.412\u202fg. Keep it?'],
  [58.42, 'That leaves 0.008\u202fg. Keep it?'],
  [61.2, 'That leaves 2.788\u202fg; at most 1.37\u202fg is expected. Keep it?'],
])('%s g of a flask that weighs 58.412 g when empty', (gross, question) => {
  const net = { tare_g: 58.412, low_g: 0.0228, high_g: 1.368 };
  expect(questionAboutNet(gross, net, '.')).toBe(question);
});
