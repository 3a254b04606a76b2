import { create } from 'qrcode';
import { expect, it } from 'vitest';
import { codeOf } from './code.ts';

it('draws every dark square and no other', () => {
  const text = 'http://192.0.2.7:7420/sign-in#abcdefghijklmnop';
  const { modules } = create(text, { errorCorrectionLevel: 'M' });
  const { path, side } = codeOf(text);
  expect(side).toBe(modules.size);
  const drawn = new Set<number>();
  for (const [, x, y, run] of path.matchAll(/M(\d+) (\d+)h(\d+)v1h-\d+z/g))
    for (let i = 0; i < Number(run); i++) drawn.add(Number(y) * side + Number(x) + i);
  const dark = [...modules.data].flatMap((square, i) => (square === 0 ? [] : [i]));
  expect([...drawn].sort((a, b) => a - b)).toEqual(dark);
});
