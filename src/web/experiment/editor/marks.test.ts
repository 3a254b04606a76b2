import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { readExperiment } from '../../../core/experiment/read.ts';
import { marksIn } from './marks.ts';

const marked = (text: string) =>
  marksIn({ text, steps: readExperiment(text).steps }, 0, text.length).map(
    ({ from, to, kind }) => [kind, text.slice(from, to)] as const,
  );

const DOCUMENT = `# Title

## Vessels

- flask: 50 mL round-bottom flask

## Procedure

### Start

1. Charge the flask with ethanol (10 mL, 171 mmol).
> Careful.
2. Heat the flask at 60 °C for 10 min.
`;

describe('marks of the text', () => {
  it('weighs headings, numbers, verbs and amounts as they were read', () => {
    expect(marked(DOCUMENT)).toEqual([
      ['title', '# Title'],
      ['heading', '## Vessels'],
      ['bullet', '-'],
      ['heading', '## Procedure'],
      ['part', '### Start'],
      ['number', '1.'],
      ['verb', 'Charge'],
      ['amount', '10 mL'],
      ['amount', '171 mmol'],
      ['remark', '> Careful.'],
      ['number', '2.'],
      ['verb', 'Heat'],
      ['amount', '60 °C'],
      ['amount', '10 min'],
    ]);
  });

  it('never overlap and lie in the text, whatever stands there', () => {
    const piece = fc.constantFrom(...DOCUMENT.split(/(?<=\s)/), '10 mL ', '\n', '1. ', '# ', 'é ');
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 60 }), (pieces) => {
        const text = pieces.join('');
        const marks = marksIn({ text, steps: readExperiment(text).steps }, 0, text.length);
        marks.forEach((mark, i) => {
          expect(mark.to).toBeGreaterThan(mark.from);
          expect(mark.to).toBeLessThanOrEqual(text.length);
          if (i > 0) expect(mark.from).toBeGreaterThanOrEqual(marks[i - 1]!.to);
        });
      }),
      { numRuns: 100 },
    );
  });
});
