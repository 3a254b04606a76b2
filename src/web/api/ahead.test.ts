import { afterEach, expect, it, vi } from 'vitest';
import { askAhead, takeAhead } from './ahead.ts';

const answered = (status: number, body: unknown) =>
  vi.stubGlobal('fetch', () => Promise.resolve(Response.json(body, { status })));

afterEach(() => {
  vi.unstubAllGlobals();
  vi.restoreAllMocks();
});

it('gives what was asked ahead once, and nothing that was not', async () => {
  answered(200, { name: 'one' });
  void askAhead('/api/one');
  expect(takeAhead('/api/other')).toBeUndefined();
  await expect(takeAhead('/api/one')).resolves.toEqual({ name: 'one' });
  expect(takeAhead('/api/one')).toBeUndefined();
});

it('keeps no refusal for later', async () => {
  answered(401, { code: 'signed-out', message: 'Sign in.' });
  await expect(askAhead('/api/one')).rejects.toThrow('Sign in.');
  expect(takeAhead('/api/one')).toBeUndefined();
});

it('gives no answer that has grown old', () => {
  answered(200, {});
  void askAhead('/api/one');
  const later = performance.now() + 6000;
  vi.spyOn(performance, 'now').mockReturnValue(later);
  expect(takeAhead('/api/one')).toBeUndefined();
});
