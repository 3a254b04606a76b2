import { expect, it } from 'vitest';
import { slicesOf } from './slices.ts';

const part = (key: string, y: number, step?: string) => ({
  key,
  y,
  svg: `<g>${key}</g>`,
  ...(step !== undefined && { step }),
});

const slices = slicesOf({
  width: 100,
  height: 90,
  viewBox: '0 0 200 180',
  defs: '<pattern/>',
  title: 'T',
  answer: '',
  parts: [
    part('head', 0),
    part('selected', 40),
    part('life flask 1', 50),
    part('step 1', 40, '1'),
    part('step 2', 90, '2'),
    part('foot', 150),
  ],
});

it('cuts between rows and leaves nothing out', () => {
  expect(slices.map(({ key, viewBox }) => [key, viewBox])).toEqual([
    ['head', '0 0 200 40'],
    ['step 1', '0 40 200 50'],
    ['step 2', '0 90 200 60'],
    ['foot', '0 150 200 30'],
  ]);
});

it('draws each row once, what runs through in all, and no selection', () => {
  const inside = (words: string) => slices.filter(({ svg }) => svg.includes(words)).length;
  expect([inside('step 1<'), inside('step 2<'), inside('life flask'), inside('selected')]).toEqual([
    1, 1, 4, 0,
  ]);
  expect(slices[0]?.svg).toContain('<pattern/>');
});
