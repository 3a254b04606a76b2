import { expect, it } from 'vitest';
import { fitted, photoOf } from './shrink.ts';

it.each([
  [4000, 3000, 2000, 1500],
  [3000, 4000, 1500, 2000],
  [1200, 800, 1200, 800],
])('%s × %s fits as %s × %s', (width, height, fitWidth, fitHeight) => {
  expect(fitted(width, height)).toEqual({ width: fitWidth, height: fitHeight });
});

it('leaves a small photo as it is, and a large one that cannot be drawn', async () => {
  const small = new Blob(['abc'], { type: 'image/png' });
  expect(await photoOf(small)).toMatchObject({ mediaType: 'image/png' });
  const large = new Blob([new Uint8Array(3 * 1024 * 1024)], { type: 'image/heic' });
  const photo = await photoOf(large);
  expect(photo.mediaType).toBe('image/heic');
  expect(photo.bytes.byteLength).toBe(large.size);
});
