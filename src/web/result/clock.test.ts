import { expect, test } from 'vitest';
import { dayAndHour, daysOf, isDated } from './clock.ts';

test('an hour without an offset stays as it was written', () => {
  expect(dayAndHour('2025-10-14T13:42:00')).toEqual({ day: '2025-10-14', hour: '13:42' });
  expect(dayAndHour('2025-10-14')).toEqual({ day: '2025-10-14', hour: '' });
});

test('an hour with an offset is told where the reader is', () => {
  const here = new Date('2025-10-14T11:42:00Z');
  const { hour } = dayAndHour('2025-10-14T13:42:00+02:00');
  expect(Number(hour.slice(0, 2))).toBe(here.getHours());
});

test('days are told once, in order; lines that nobody dated have none', () => {
  const instants = ['2025-11-11T14:00:00', '2025-11-04T13:00:00', '2025-11-11T15:00:00'];
  expect(daysOf([...instants, '1970-01-01T00:00:01.000Z'])).toEqual(['2025-11-04', '2025-11-11']);
  expect(isDated('1970-01-01T00:00:01.000Z')).toBe(false);
});
