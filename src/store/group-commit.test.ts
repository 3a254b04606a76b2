import { describe, expect, it } from 'vitest';
import { groupCommit } from './group-commit.ts';

/** A commit that takes a turn of the event loop, and says what it was given. */
function watched(fails: (calls: readonly number[]) => boolean = () => false, isHopeless = false) {
  const groups: number[][] = [];
  const commits = groupCommit<number, string>(
    async (calls) => {
      groups.push([...calls]);
      await new Promise((resolve) => setTimeout(resolve, 5));
      if (fails(calls)) throw new Error(`no ${calls.join()}`);
      return calls.map((call) => `done ${call}`);
    },
    (call) => call,
    10,
    () => isHopeless,
  );
  return { groups, ...commits };
}

describe('calls that come together', () => {
  it('share a commit, up to its weight', async () => {
    const { add, groups } = watched();
    const answers = await Promise.all([3, 3, 3, 3, 20, 1, 9].map((call) => add(call)));
    expect(answers).toEqual([3, 3, 3, 3, 20, 1, 9].map((call) => `done ${call}`));
    expect(groups).toEqual([[3, 3, 3], [3], [20], [1, 9]]);
  });

  it('wait while a commit runs, and make up the next', async () => {
    const { add, idle, groups } = watched();
    const first = add(1);
    await new Promise((resolve) => setTimeout(resolve, 2));
    const rest = [2, 3].map((call) => add(call));
    await idle();
    expect(groups).toEqual([[1], [2, 3]]);
    expect(await Promise.all([first, ...rest])).toEqual(['done 1', 'done 2', 'done 3']);
  });

  it('are tried alone where a shared commit fails', async () => {
    const { add, groups } = watched((calls) => calls.includes(2));
    const answers = await Promise.allSettled([1, 2, 3].map((call) => add(call)));
    expect(answers.map(({ status }) => status)).toEqual(['fulfilled', 'rejected', 'fulfilled']);
    expect(groups).toEqual([[1, 2, 3], [1], [2], [3]]);
    expect(await add(4)).toBe('done 4');
  });

  it('fail at once where to try again is hopeless', async () => {
    const { add, groups } = watched((calls) => calls.includes(2), true);
    const answers = await Promise.allSettled([1, 2, 3].map((call) => add(call)));
    expect(answers.map(({ status }) => status)).toEqual(['rejected', 'rejected', 'rejected']);
    expect(groups).toEqual([[1, 2, 3]]);
    expect(await add(4)).toBe('done 4');
  });
});
