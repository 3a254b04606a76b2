import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import type { Part, PatchStep } from './patch.ts';
import { patchOf } from './patch.ts';

/** What a browser does with the steps. */
function patched(from: readonly Part[], steps: readonly PatchStep[]): Part[] {
  let parts = [...from];
  const find = (key: string) => parts.find((part) => part.key === key);
  const place = (part: Part, before: string | null) => {
    parts = parts.filter(({ key }) => key !== part.key);
    const at = before === null ? parts.length : parts.findIndex(({ key }) => key === before);
    expect(at).toBeGreaterThanOrEqual(0);
    parts.splice(at, 0, part);
  };
  for (const step of steps) {
    if (step.kind === 'remove') parts = parts.filter(({ key }) => key !== step.key);
    if (step.kind === 'put') place(step.part, step.before);
    if (step.kind === 'move') place(find(step.key)!, step.before);
    if (step.kind === 'shift')
      parts = parts.map((part) => (part.key === step.key ? { ...part, y: step.y } : part));
  }
  return parts;
}

const part = (key: string, svg = `<${key}/>`, y = 0): Part => ({ key, svg, y });
const list = (keys: string) => keys.split('').map((key) => part(key));
const told = (steps: readonly PatchStep[]) =>
  steps.map((step) => `${step.kind} ${step.kind === 'put' ? step.part.key : step.key}`);

describe('patching a drawing', () => {
  it.each([
    ['nothing', 'abc', 'abc', []],
    ['one more', 'ac', 'abc', ['put b']],
    ['one less', 'abc', 'ac', ['remove b']],
    ['one to the end', 'abc', 'bca', ['move a']],
  ])('%s', (_, from, to, steps) => {
    expect(told(patchOf(list(from), list(to)))).toEqual(steps);
  });

  it('draws only what changed anew; what stands below is shifted', () => {
    const from = [part('a'), part('b'), part('c', 'c', 10)];
    const to = [part('a'), part('b', 'new'), part('c', 'c', 30)];
    expect(told(patchOf(from, to))).toEqual(['shift c', 'put b']);
  });

  it('always arrives at the drawing wanted', () => {
    const drawing = fc
      .uniqueArray(fc.constantFrom('a', 'b', 'c', 'd', 'e', 'f', 'g', 'h'), { maxLength: 8 })
      .chain((keys) =>
        fc.tuple(
          ...keys.map((key) =>
            fc
              .tuple(fc.constantFrom(1, 2), fc.constantFrom(0, 20))
              .map(([n, y]) => part(key, `${key}${n}`, y)),
          ),
        ),
      );
    fc.assert(
      fc.property(drawing, drawing, (from, to) => {
        expect(patched(from, patchOf(from, to))).toEqual(to);
      }),
    );
  });
});
