import { expect, it, vi } from 'vitest';
import { afterPaint } from './after-paint.ts';
import type { Keeper } from './keeper.ts';

/** A keeper that writes down what it is asked, and a frame that comes when it is told to. */
function kept() {
  const asked: string[] = [];
  const deed = (name: string) => () => void asked.push(name);
  const keeper: Keeper = {
    now: vi.fn<Keeper['now']>(),
    subscribe: vi.fn<Keeper['subscribe']>(),
    changed: (text, cursor) => void asked.push(`${text} ${cursor}`),
    sendNow: (last) => Promise.resolve(void asked.push(last === true ? 'send last' : 'send')),
    settled: () => Promise.resolve(void asked.push('settled')),
    keepMine: () => Promise.resolve(deed('mine')()),
    takeTheirs: deed('theirs'),
    renamed: deed('renamed'),
    stop: deed('stop'),
  };
  const frames: (() => void)[] = [];
  const late = afterPaint(keeper, (then) => void frames.push(then));
  return { asked, late, paint: () => frames.splice(0).forEach((then) => then()) };
}

it('tells the keeper of the newest text once the frame is painted', () => {
  const { asked, late, paint } = kept();
  late.changed('a', 1);
  late.changed('ab', 2);
  expect(asked).toEqual([]);
  paint();
  expect(asked).toEqual(['ab 2']);
  late.changed('abc', 3);
  paint();
  expect(asked).toEqual(['ab 2', 'abc 3']);
});

it('tells it at once when the page is left before the frame, and not a second time', () => {
  const { asked, late, paint } = kept();
  late.changed('a', 1);
  late.flush();
  expect(asked).toEqual(['a 1']);
  paint();
  late.flush();
  expect(asked).toEqual(['a 1']);
});

it('does nothing else before what was typed', async () => {
  const { asked, late } = kept();
  late.changed('a', 1);
  await late.sendNow(true);
  late.changed('b', 1);
  await late.settled();
  late.changed('c', 1);
  late.takeTheirs();
  late.changed('d', 1);
  late.stop();
  expect(asked).toEqual(['a 1', 'send last', 'b 1', 'settled', 'c 1', 'theirs', 'd 1', 'stop']);
});
