import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { keepAmounts, textWidth, wrapText, wrapWithin } from './measure.ts';

const STYLE = { size: 12 };

describe('widths', () => {
  it('go with the size, and more for a heavy cut', () => {
    expect(textWidth('flask', { size: 24 })).toBeCloseTo(2 * textWidth('flask', STYLE), 9);
    expect(textWidth('flask', { ...STYLE, bold: true })).toBeGreaterThan(textWidth('flask', STYLE));
    expect(textWidth('', STYLE)).toBe(0);
  });

  it('sets a wide letter wider than a narrow one', () => {
    expect(textWidth('W', STYLE)).toBeGreaterThan(2 * textWidth('i', STYLE));
  });
});

describe('wrapping', () => {
  it('never runs over the width, and loses no letter', () => {
    const width = fc.integer({ min: 30, max: 300 });
    fc.assert(
      fc.property(fc.string({ maxLength: 120 }), width, (text, room) => {
        const lines = wrapText(text, room, STYLE);
        for (const line of lines)
          if (Array.from(line).length > 1)
            expect(textWidth(line, STYLE)).toBeLessThanOrEqual(room + 1e-9);
        const letters = (each: string) => each.replace(/[ \t\n·]/g, '');
        expect(letters(lines.join(''))).toBe(letters(text));
      }),
    );
  });

  it('parts a long name after a hyphen', () => {
    expect(wrapText('4-methylcyclohexanone', 100, STYLE)[0]).not.toMatch(/^4-$/);
    expect(wrapText('4-(dimethylamino)-benzaldehyde', 130, STYLE)).toEqual([
      '4-(dimethylamino)-',
      'benzaldehyde',
    ]);
  });

  it('leaves no dot at the end of a line', () => {
    expect(wrapText('1.12\u202fg · 9.98\u202fmmol', 70, STYLE)).toEqual([
      '1.12\u202fg',
      '9.98\u202fmmol',
    ]);
  });

  it('ends what is cut in an ellipsis', () => {
    const lines = wrapWithin('one two three four five six seven', 60, 2, STYLE);
    expect(lines).toHaveLength(2);
    expect(lines[1]).toMatch(/…$/);
    expect(textWidth(lines[1]!, STYLE)).toBeLessThanOrEqual(60);
  });

  it('keeps a number and its unit on one line', () => {
    expect(keepAmounts('3 × 10 mL of ether')).toBe('3\u00a0×\u00a010\u00a0mL of ether');
  });
});
