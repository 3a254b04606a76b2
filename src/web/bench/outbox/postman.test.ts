import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { startPostman } from './postman.ts';
import type { Sent } from './send.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

const unlocked = (work: () => Promise<void>) => work();

it('tries again with growing pauses, and at once when it is woken', async () => {
  let answer: Sent = { kind: 'later' };
  const at: number[] = [];
  const begun = Date.now();
  const send = async () => {
    at.push((Date.now() - begun) / 1000);
    return answer;
  };
  const told = vi.fn();
  const { wake, stop } = startPostman(send, told, unlocked);
  wake();
  await vi.advanceTimersByTimeAsync(20_000);
  expect(at).toEqual([0, 1, 3, 7, 15]);
  answer = { kind: 'all' };
  wake();
  await vi.advanceTimersByTimeAsync(600_000);
  expect(at).toEqual([0, 1, 3, 7, 15, 20]);
  expect(told).toHaveBeenLastCalledWith({ kind: 'all' });
  stop();
});

it('sends one round at a time, and one more for what came meanwhile', async () => {
  let running = 0;
  let most = 0;
  let rounds = 0;
  const send = async (): Promise<Sent> => {
    rounds += 1;
    most = Math.max(most, (running += 1));
    await new Promise((done) => setTimeout(done, 100));
    running -= 1;
    return { kind: 'all' };
  };
  const { wake } = startPostman(send, () => {}, unlocked);
  wake();
  wake();
  await vi.advanceTimersByTimeAsync(50);
  wake();
  await vi.advanceTimersByTimeAsync(1_000);
  expect(most).toBe(1);
  expect(rounds).toBe(2);
});

it('goes on after an error of its own', async () => {
  let calls = 0;
  const send = async (): Promise<Sent> => {
    calls += 1;
    if (calls === 1) throw new Error('the disk');
    return { kind: 'all' };
  };
  startPostman(send, () => {}, unlocked).wake();
  await vi.advanceTimersByTimeAsync(5_000);
  expect(calls).toBe(2);
});

it('sends no more once it was stopped', async () => {
  const send = vi.fn(async (): Promise<Sent> => ({ kind: 'later' }));
  const { wake, stop } = startPostman(send, () => {}, unlocked);
  wake();
  await vi.advanceTimersByTimeAsync(0);
  stop();
  wake();
  await vi.advanceTimersByTimeAsync(60_000);
  expect(send).toHaveBeenCalledTimes(1);
});
