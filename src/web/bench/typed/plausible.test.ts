import { expect, it } from 'vitest';
import { doubtAbout, doubtAboutNet } from './plausible.ts';

const KETONE = { planned: { value: 1.12 }, low: 0.9, high: 1.4, unit: 'g' };

it.each([
  [1.12, undefined],
  [0.9, undefined],
  [11.2, '10 times the plan.'],
  [0.112, '1/10 of the plan.'],
  [1.5, 'More than the most that is expected, 1.4\u202fg.'],
  [0.8, 'Less than the least that is expected, 0.9\u202fg.'],
  [0, 'Less than the least that is expected, 0.9\u202fg.'],
])('%s g of a ketone', (value, doubt) => {
  expect(doubtAbout(value, KETONE, '.')).toBe(doubt);
});

it('asks in the decimal sign of the laboratory', () => {
  expect(doubtAbout(1.5, KETONE, ',')).toContain('1,4');
});

it('names no multiple of a temperature', () => {
  const limit = { planned: { value: 5 }, high: 5, unit: '°C' };
  expect(doubtAbout(40, limit, '.')).toBe('More than the most that is expected, 5\u202f°C.');
});

it('asks nothing where nothing is expected', () => {
  expect(doubtAbout(99, { unit: 'g' }, '.')).toBeUndefined();
});

it.each([
  [59.3, undefined],
  [58.4, 'Less than the empty vessel, 58.412\u202fg.'],
  [58.42, 'That leaves 0.008\u202fg.'],
  [61.2, 'That leaves 2.788\u202fg; at most 1.37\u202fg is expected.'],
])('%s g of a flask that weighs 58.412 g when empty', (gross, doubt) => {
  const net = { tare_g: 58.412, low_g: 0.0228, high_g: 1.368 };
  expect(doubtAboutNet(gross, net, '.')).toBe(doubt);
});
