import { expect, test } from 'vitest';
import { documents } from '../../../test/documents.ts';
import { completeAt } from './complete.ts';
import { readExperiment } from './read.ts';

const DOCUMENT = `# Trial

## Reaction
benzoic acid + meth|

## Substances
- hopping oil: SMILES CCCCCCCC; liquid

## Vessels
- flask: 100 mL round-bottom flask
- funnel: 125 mL separatory funnel

## Procedure
`;

/** The document ends where the bar stands. */
function optionsFor(typed: string): string[] {
  const text = `${DOCUMENT.replace('|', 'anol')}1. ${typed}`;
  return completeAt(text, text.length).options.map((option) => option.text);
}

test.each([
  ['', 'Charge '],
  ['Ch', 'Charge '],
  ['Stir the flask for 5 min. Ex', 'Extract '],
  ['Extract ', 'the funnel'],
  ['Extract the aq', 'the aqueous layer'],
  ['Transfer the mixture to ', 'the funnel'],
  ['Transfer the mixture to the fu', 'the funnel'],
  ['Charge the flask with ', 'hopping oil'],
  ['Charge the flask with cyclohexano', 'cyclohexanol'],
  ['Charge the flask with ethanol 10 mL and hopp', 'hopping oil'],
  ['Add 10 mL of etha', '10 mL of ethanol'],
  ['Add ethanol 10', 'mL'],
  ['Stir the flask for ', '10 min'],
  ['Stir the flask f', 'for'],
  ['Cool the flask in ', 'an ice bath'],
  ['Discard the aqueous layer to ', 'the aqueous waste'],
])('after “%s” comes “%s”', (typed, option) => {
  expect(optionsFor(typed)).toContain(option);
});

test('the declared substances come first', () => {
  expect(optionsFor('Add hop')[0]).toBe('hopping oil');
});

test('headings that are not there yet', () => {
  const text = `${DOCUMENT.replace('|', 'anol')}\n## P`;
  const { from, options } = completeAt(text, text.length);
  expect(options.map(({ text: option }) => option)).toEqual(['## Product']);
  expect(text.slice(from)).toBe('## P');
});

test('substances in an equation', () => {
  const at = DOCUMENT.indexOf('|');
  const { from, options } = completeAt(DOCUMENT.replace('|', ''), at);
  expect(DOCUMENT.slice(from, at)).toBe('meth');
  expect(options.map(({ text }) => text)).toContain('methanol');
});

test('an option takes the place of what was typed', () => {
  const text = `${DOCUMENT.replace('|', 'anol')}1. Transfer the mixture to the fu`;
  const { from, to, options } = completeAt(text, text.length);
  expect(`${text.slice(0, from)}${options[0]!.text}${text.slice(to)}`).toMatch(/to the funnel$/);
});

test.each(documents())(
  '%s can be typed: nothing throws, what stands before stays',
  (_path, text) => {
    const whole = readExperiment(text);
    const line = (at: number) => text.lastIndexOf('\n', at - 1) + 1;
    for (let at = 0; at <= text.length; at += 37) {
      const half = readExperiment(text.slice(0, at));
      const list = completeAt(text.slice(0, at), at);
      expect(list.from).toBeLessThanOrEqual(list.to);
      // Steps of the items that are finished: the last item may be half typed, and a product below decides roles
      const finished = whole.steps.filter(
        (step) => step.span.end < line(at) && text.slice(step.span.end, at).includes('\n'),
      );
      const kept = half.steps.slice(0, finished.length);
      expect(kept.map(({ id, verb, text: words }) => [id, verb, words])).toEqual(
        finished.map(({ id, verb, text: words }) => [id, verb, words]),
      );
      const sure = finished.slice(0, -1);
      expect(
        half.steps
          .slice(0, sure.length)
          .map(({ slots }) => JSON.stringify({ ...slots, keep: undefined })),
      ).toEqual(sure.map(({ slots }) => JSON.stringify({ ...slots, keep: undefined })));
    }
  },
);
