import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import fc from 'fast-check';
import type { ExperimentOpened, NewVersion, Version } from '../../../wire/experiment.ts';
import { Refused } from '../../api/request.ts';
import type { Draft, Drafts } from './drafts.ts';
import { makeKeeper } from './keeper.ts';
import type { KeeperTools } from './keeper.ts';
import { startOf, unheard } from './keeping.ts';

const version = (number: number): Version => ({
  number,
  document: String(number).padStart(64, '0'),
  savedAt: '2026-11-24T10:00:00.000Z',
  savedBy: 'Ada',
  name: null,
});

/** A server of one experiment that does what the contract says, and can be cut off. */
function server(first = 'one') {
  const texts = [first];
  let reach: 'open' | 'cut' | 'deaf' = 'open';
  const opened = (): ExperimentOpened => ({
    id: 'experiment',
    title: 'T',
    course: null,
    head: version(texts.length),
    runs: 0,
    putAway: false,
    text: texts.at(-1)!,
  });
  const gone = () => new Refused(0, { code: 'no-network', message: '' });
  const send = async ({ text, base }: NewVersion): Promise<Version> => {
    await Promise.resolve();
    if (reach === 'cut') throw gone();
    if (text !== texts.at(-1)) {
      if (base !== texts.length) throw new Refused(409, { code: 'version-moved', message: '' });
      texts.push(text);
    }
    // Heard, but the answer is lost on the way.
    if (reach === 'deaf') throw gone();
    return version(texts.length);
  };
  return {
    texts,
    send: vi.fn(send),
    newest: async () => {
      await Promise.resolve();
      if (reach !== 'open') throw gone();
      return opened();
    },
    is: (next: typeof reach) => void (reach = next),
  };
}

function memory(): Drafts & { held: Draft | undefined } {
  return {
    held: undefined,
    read() {
      return this.held;
    },
    write(_, draft) {
      this.held = draft;
      return true;
    },
    drop() {
      this.held = undefined;
    },
  };
}

const PAUSE = 1200;

function setUp(first = 'one') {
  const there = server(first);
  const drafts = memory();
  const tools: KeeperTools = {
    drafts,
    send: there.send,
    newest: there.newest,
    pause_ms: PAUSE,
    retry_ms: 5000,
  };
  const start = {
    experiment: 'experiment',
    base: version(1),
    baseText: first,
    text: first,
    cursor: 0,
  };
  return { there, drafts, tools, start, keeper: makeKeeper(start, tools) };
}

beforeEach(() => vi.useFakeTimers());
afterEach(() => vi.useRealTimers());

describe('keeping a text', () => {
  it('keeps it on the device at once and as a version after a pause', async () => {
    const { there, drafts, keeper } = setUp();
    keeper.changed('one t', 5);
    expect(drafts.held).toMatchObject({ text: 'one t', base: { number: 1 }, cursor: 5 });
    await vi.advanceTimersByTimeAsync(PAUSE - 10);
    keeper.changed('one two', 7);
    await vi.advanceTimersByTimeAsync(PAUSE - 10);
    expect(there.texts).toEqual(['one']);
    await vi.advanceTimersByTimeAsync(20);
    expect(there.texts).toEqual(['one', 'one two']);
    expect(keeper.now()).toMatchObject({ base: { number: 2 }, keeping: { kind: 'kept' } });
    expect(drafts.held).toBeUndefined();
  });

  it('sends what was typed while a save was under way after it, never two at a time', async () => {
    const { there, drafts, keeper } = setUp();
    keeper.changed('a', 1);
    const first = keeper.sendNow();
    keeper.changed('ab', 2);
    await first;
    expect(there.send).toHaveBeenCalledTimes(1);
    expect(drafts.held).toMatchObject({ text: 'ab', base: { number: 2 } });
    await vi.advanceTimersByTimeAsync(PAUSE);
    expect(there.texts).toEqual(['one', 'a', 'ab']);
  });

  it('waits for the network and goes on when it is back', async () => {
    const { there, drafts, keeper } = setUp();
    there.is('cut');
    keeper.changed('two', 3);
    await vi.advanceTimersByTimeAsync(PAUSE);
    expect(keeper.now().keeping.kind).toBe('noNetwork');
    expect(drafts.held?.text).toBe('two');
    there.is('open');
    await vi.advanceTimersByTimeAsync(5000);
    expect(there.texts).toEqual(['one', 'two']);
    expect(keeper.now().keeping.kind).toBe('kept');
  });

  it('knows its own version again when the answer was lost on the way', async () => {
    const { there, keeper } = setUp();
    there.is('deaf');
    keeper.changed('two', 3);
    await vi.advanceTimersByTimeAsync(PAUSE);
    there.is('open');
    keeper.changed('two and', 7);
    await vi.advanceTimersByTimeAsync(PAUSE);
    // The newest is ours, yet not what is sent now: that much the person is not asked about.
    await vi.advanceTimersByTimeAsync(PAUSE);
    expect(there.texts).toEqual(['one', 'two', 'two and']);
    expect(keeper.now().keeping.kind).toBe('kept');
  });

  it('asks when someone saved meanwhile, and keeps both', async () => {
    const { there, drafts, keeper } = setUp();
    there.texts.push('theirs');
    keeper.changed('mine', 4);
    await vi.advanceTimersByTimeAsync(PAUSE);
    expect(keeper.now().keeping).toMatchObject({ kind: 'moved', theirs: { text: 'theirs' } });
    keeper.changed('mine too', 8);
    await vi.advanceTimersByTimeAsync(10 * PAUSE);
    expect(there.texts).toEqual(['one', 'theirs']);
    expect(drafts.held).toMatchObject({ text: 'mine too', base: { number: 1 } });
    await keeper.keepMine();
    expect(there.texts).toEqual(['one', 'theirs', 'mine too']);
    expect(keeper.now()).toMatchObject({ base: { number: 3 }, keeping: { kind: 'kept' } });
  });

  it('goes on from theirs when asked to', async () => {
    const { there, drafts, keeper } = setUp();
    there.texts.push('theirs');
    keeper.changed('mine', 4);
    await vi.advanceTimersByTimeAsync(PAUSE);
    keeper.takeTheirs();
    expect(keeper.now()).toMatchObject({ base: { number: 2 }, keeping: { kind: 'kept' } });
    expect(drafts.held).toBeUndefined();
    keeper.changed('theirs and mine', 4);
    await vi.advanceTimersByTimeAsync(PAUSE);
    expect(there.texts).toEqual(['one', 'theirs', 'theirs and mine']);
  });

  it('makes no version of a text that came back to what it was', async () => {
    const { there, drafts, keeper } = setUp();
    keeper.changed('onex', 4);
    keeper.changed('one', 3);
    await vi.advanceTimersByTimeAsync(PAUSE);
    expect(there.send).not.toHaveBeenCalled();
    expect(keeper.now().keeping.kind).toBe('kept');
    expect(drafts.held).toBeUndefined();
  });

  it('says when not even the device can keep it', () => {
    const { drafts, keeper } = setUp();
    drafts.write = () => false;
    keeper.changed('two', 3);
    expect(keeper.now().onDevice).toBe(false);
  });
});

describe('whatever happens', () => {
  const event = fc.oneof(
    fc.record({ kind: fc.constant('type' as const), text: fc.string({ maxLength: 4 }) }),
    fc.record({ kind: fc.constant('wait' as const), ms: fc.integer({ min: 1, max: 8000 }) }),
    fc.record({
      kind: fc.constant('reach' as const),
      reach: fc.constantFrom('open' as const, 'cut' as const, 'deaf' as const),
    }),
    fc.record({ kind: fc.constant('reload' as const) }),
  );

  it('ends with the last text typed as the newest version, and none of one person moved', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(event, { maxLength: 30 }), async (events) => {
        const { there, drafts, tools, start, keeper: first } = setUp();
        let keeper = first;
        let typed = 'one';
        const reload = () => {
          keeper.stop();
          const head = { number: there.texts.length, text: there.texts.at(-1)! };
          const begin = startOf(head, drafts.held);
          expect(begin.kind).not.toBe('moved');
          expect(begin.text).toBe(typed);
          keeper = makeKeeper(
            {
              ...start,
              base: version(head.number),
              baseText: head.text,
              text: begin.text,
              ...unheard(head.number, drafts.held),
            },
            tools,
          );
        };
        for (const each of events) {
          if (each.kind === 'type') keeper.changed((typed = each.text), 0);
          else if (each.kind === 'wait') await vi.advanceTimersByTimeAsync(each.ms);
          else if (each.kind === 'reach') there.is(each.reach);
          else reload();
          expect(keeper.now().keeping.kind).not.toBe('moved');
        }
        there.is('open');
        await vi.advanceTimersByTimeAsync(60_000);
        expect(there.texts.at(-1)).toBe(typed);
        expect(keeper.now().keeping.kind).toBe('kept');
        keeper.stop();
      }),
      { numRuns: 200 },
    );
  });
});

describe('opening with a draft', () => {
  const head = { number: 3, text: 'three' };
  it.each([
    ['no draft', undefined, 'fresh'],
    ['the same text', { text: 'three', base: version(2), cursor: 0 }, 'fresh'],
    ['typed on the newest', { text: 'three!', base: version(3), cursor: 0 }, 'goOn'],
    [
      'its save arrived unheard',
      { text: 'three!', base: version(2), sent: 'three', cursor: 0 },
      'goOn',
    ],
    ['someone saved meanwhile', { text: 'mine', base: version(2), cursor: 0 }, 'moved'],
  ])('%s', (_, draft, kind) => {
    expect(startOf(head, draft).kind).toBe(kind);
  });
});
