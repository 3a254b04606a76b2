import { describe, expect, it } from 'vitest';
import type { Diagnostic } from '../../core/diagnostic.ts';
import { findingsAt, lineStarts, rangeOf } from './place.ts';

const text = 'ab\ncdef\n\ngh';
const starts = lineStarts(text);

describe('places in a text', () => {
  it('finds where lines begin', () => {
    expect(starts).toEqual([0, 3, 8, 9]);
  });

  it.each([
    [
      { line: 1, column: 1, length: 2 },
      { from: 0, to: 2 },
    ],
    [
      { line: 2, column: 2, length: 3 },
      { from: 4, to: 7 },
    ],
    [
      { line: 4, column: 1 },
      { from: 9, to: 9 },
    ],
    [
      { line: 4, column: 1, length: 90 },
      { from: 9, to: 11 },
    ],
    [
      { line: 3, column: 40, length: 1 },
      { from: 8, to: 9 },
    ],
  ])('%o is %o', (place, range) => {
    expect(rangeOf(place, starts, text.length)).toEqual(range);
  });

  it('knows nothing of a line that is not there', () => {
    expect(rangeOf({ line: 9, column: 1 }, starts, text.length)).toBeUndefined();
    expect(rangeOf(undefined, starts, text.length)).toBeUndefined();
  });

  it('names the finding around the cursor before others of its line', () => {
    const finding = (code: string, line: number, column: number): Diagnostic => ({
      code,
      severity: 'note',
      message: code,
      at: { line, column, length: 1 },
    });
    const findings = [finding('left', 2, 1), finding('right', 2, 4), finding('other', 1, 1)];
    const codes = (offset: number) =>
      findingsAt(findings, starts, text.length, offset).map(({ code }) => code);
    expect(codes(3)).toEqual(['left', 'right']);
    expect(codes(7)).toEqual(['right', 'left']);
    expect(codes(9)).toEqual([]);
  });
});
