import { expect, test } from 'vitest';
import { budgetPicture } from './budget.ts';

const DOTS = [
  { what: 'tare of the <dish>', share: 0.75, text: '75 %', measured: true },
  { what: 'acid, step 2', share: 0.25, text: '25 %', measured: false },
];
const circles = (svg: string) =>
  [...svg.matchAll(/<circle cx="([\d.]+)".*?fill="([^"]+)"/g)].map(([, x, fill]) => ({
    x: Number(x),
    fill,
  }));

test('dots lie on one scale, a ring where it is not measured', () => {
  const svg = budgetPicture(DOTS, { width: 800, label: 'Shares' });
  const [first, second] = circles(svg);
  const start = second!.x - (first!.x - second!.x) / 2;
  expect((first!.x - start) / (second!.x - start)).toBeCloseTo(3, 2);
  expect(first!.fill).toBe('var(--ink)');
  expect(second!.fill).toBe('var(--paper)');
  expect(svg).toContain('stroke-dasharray');
});

test('names are escaped and stand over the dots in a narrow place', () => {
  const wide = budgetPicture(DOTS, { width: 800, label: 'Shares' });
  const narrow = budgetPicture(DOTS, { width: 360, label: 'Shares' });
  const height = (svg: string) => Number(/height="(\d+)"/.exec(svg)![1]);
  expect(narrow).toContain('tare of the &lt;dish&gt;');
  expect(height(narrow)).toBeGreaterThan(height(wide));
  expect(narrow).not.toContain(' style=');
});
