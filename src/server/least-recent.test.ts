import { describe, expect, it } from 'vitest';
import { leastRecent } from './least-recent.ts';

describe('a memory with an end', () => {
  it('lets go of what was asked for longest ago', () => {
    const memory = leastRecent<number>(2, 100);
    memory.set('a', 1, 1);
    memory.set('b', 2, 1);
    memory.get('a');
    memory.set('c', 3, 1);
    expect(['a', 'b', 'c'].map(memory.get)).toEqual([1, undefined, 3]);
  });

  it('counts sizes, and those of a value that is set again once', () => {
    const memory = leastRecent<string>(10, 10);
    memory.set('a', 'first', 6);
    memory.set('a', 'second', 4);
    memory.set('b', 'other', 6);
    expect(['a', 'b'].map(memory.get)).toEqual(['second', 'other']);
    memory.set('c', 'third', 1);
    expect(['a', 'b', 'c'].map(memory.get)).toEqual([undefined, 'other', 'third']);
  });

  it('does not keep what is larger than the whole', () => {
    const memory = leastRecent<string>(10, 10);
    memory.set('a', 'small', 1);
    memory.set('b', 'large', 11);
    expect(['a', 'b'].map(memory.get)).toEqual(['small', undefined]);
  });
});
