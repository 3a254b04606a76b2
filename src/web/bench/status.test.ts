import { expect, it } from 'vitest';
import type { BenchState } from './outbox/bench.ts';
import { entry, RUN } from './outbox/testing.ts';
import { statusText } from './status.ts';

const refusal = { code: 'entry-differs', message: 'Another entry was kept.' };
const waiting = (count: number, refused = 0): BenchState['waiting'] =>
  Array.from({ length: count + refused }, (_, i) => ({
    run: RUN,
    id: `e${i}`,
    entry: entry(`e${i}`),
    ...(i < refused && { refusal }),
  }));

it.each<[Partial<BenchState>, string]>([
  [{ way: 'open' }, 'All kept'],
  [{ way: 'open', waiting: waiting(3) }, '3 to send'],
  [{ way: 'lost', waiting: waiting(3) }, 'No network, 3 to send'],
  [{ way: 'lost' }, 'No network'],
  [{ way: 'lost', refusal: { ...refusal, status: 507 } }, 'Not kept yet'],
  [{ way: 'untried' }, ''],
  [{ way: 'untried', waiting: waiting(1) }, '1 to send'],
  [{ way: 'open', waiting: waiting(1, 2) }, '1 to send, 2 not taken'],
  [
    { way: 'not-let-in', refusal: { ...refusal, status: 401 }, waiting: waiting(1) },
    'Not signed in, 1 to send',
  ],
])('%j', (state, text) => {
  const all: BenchState = {
    read: true,
    way: 'open',
    held: [],
    waiting: [],
    files: [],
    elsewhere: [],
    ...state,
  };
  expect(statusText(all)).toBe(text);
});
