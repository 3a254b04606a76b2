import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { documents } from '../../../../test/documents.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import { readExperiment } from '../read.ts';
import { applyFix } from './apply-fix.ts';

const RUNS = Number(process.env['FUZZ_RUNS'] ?? 300);

const document = (sentence: string) => `# Trial

## Reaction
benzoic acid + methanol -> methyl benzoate + water

## Vessels
- product flask: 100 mL round-bottom flask
- receiver: 50 mL conical flask

## Procedure
1. ${sentence}

## Product
methyl benzoate
`;

function fixed(text: string, diagnostic: Diagnostic): string {
  const edit = applyFix(text, diagnostic);
  if (!edit.ok) throw new Error(edit.why);
  return edit.text;
}

describe('a fix', () => {
  it.each([
    [
      'material-unknown',
      'Charge the product flask with benzoic acod (1.2 g, 10 mmol).',
      'Charge the product flask with benzoic acid (1.2 g, 10 mmol).',
    ],
    [
      'material-unknown',
      'Add ethanol 10 to the product flask.',
      'Add ethanol 10 mL to the product flask.',
    ],
    [
      'material-unknown',
      'Charge the product flask with benzoic acid 1.2.',
      'Charge the product flask with benzoic acid 1.2 g.',
    ],
    [
      'vessel-undeclared',
      'Charge the prodct flask with methanol 5 mL.',
      'Charge the product flask with methanol 5 mL.',
    ],
    [
      'amount-unreadable',
      'Add ethanol 10 ML to the product flask.',
      'Add ethanol 10 mL to the product flask.',
    ],
    ['words-not-understood', 'Heat the product flask to 60.', 'Heat the product flask to 60 °C.'],
    ['words-not-understood', 'Cool the product flask to 5 C.', 'Cool the product flask to 5 °C.'],
    [
      'words-not-understood',
      'Stir the product flask for 10.',
      'Stir the product flask for 10 min.',
    ],
    [
      'sentence-not-understood',
      'Chrage the product flask with methanol 5 mL.',
      'Charge the product flask with methanol 5 mL.',
    ],
  ])('settles %s: %s', (code, slip, meant) => {
    const text = document(slip);
    const found = readExperiment(text).diagnostics.find((each) => each.code === code)!;
    const after = fixed(text, found);
    expect(after).toBe(document(meant));
    expect(readExperiment(after).diagnostics).toEqual([]);
  });

  it('settles a name in the equation and in the product', () => {
    let text = document('Stir the receiver for 5 min.')
      .replace('benzoic acid', 'benzoic acod')
      .replace('Product\nmethyl benzoate', 'Product\nmethyl benzoat');
    for (let i = 0; i < 2; i++) {
      const found = readExperiment(text).diagnostics.find((each) => each.fix !== undefined)!;
      expect(found.code).toBe('substance-unknown');
      text = fixed(text, found);
    }
    expect(text).toBe(document('Stir the receiver for 5 min.'));
  });

  it.each([
    ['two names are as near', 'Add xylen 5 mL to the product flask.'],
    ['the strength would be lost', 'Add 2 M hydrochlori acid 5 mL to the product flask.'],
    ['the gas has no unit to guess', 'Bubble carbon dioxide 5 through the product flask.'],
    ['the word is another', 'Add unobtainium 5 g to the product flask.'],
  ])('is not offered where %s', (_why, sentence) => {
    for (const each of readExperiment(document(sentence)).diagnostics)
      expect(each.fix).toBeUndefined();
  });

  it('is refused where there is none, or where the text has become shorter', () => {
    const at = { line: 99, column: 1, length: 3 };
    const one = { code: 'x', severity: 'note', message: '' } as const;
    expect(applyFix('a', { ...one, at })).toMatchObject({ ok: false });
    expect(applyFix('a', { ...one, at, fix: 'b' })).toMatchObject({ ok: false });
    expect(applyFix('a', { ...one, at: { ...at, line: 1 }, fix: 'b' })).toMatchObject({
      ok: false,
    });
  });
});

/** A letter left out, doubled, or two of them swapped. */
const SLIPS: readonly ((word: string, at: number) => string)[] = [
  (word, at) => word.slice(0, at) + word.slice(at + 1),
  (word, at) => word.slice(0, at) + word[at] + word.slice(at),
  (word, at) => word.slice(0, at) + (word[at + 1] ?? '') + (word[at] ?? '') + word.slice(at + 2),
];

const texts = documents().map(([, text]) => text);

/** Words of the procedure with their places. */
function wordsOf(text: string): { readonly at: number; readonly word: string }[] {
  const from = text.search(/^## (?:Procedure|Method)/m);
  const to = text.indexOf('\n## ', from + 3);
  const procedure = text.slice(from, to < 0 ? undefined : to);
  return [...procedure.matchAll(/\p{L}{4,}/gu)].map(({ index, 0: word }) => ({
    at: from + index,
    word,
  }));
}

describe('in every document', () => {
  it('each fix that is offered for a slip removes its diagnostic', () => {
    let offered = 0;
    fc.assert(
      fc.property(
        fc.constantFrom(...texts),
        fc.nat(),
        fc.nat(),
        fc.constantFrom(...SLIPS),
        (text, which, where, slip) => {
          const words = wordsOf(text);
          const { at, word } = words[which % words.length]!;
          const wrong = slip(word, where % (word.length - 1));
          const spoilt = text.slice(0, at) + wrong + text.slice(at + word.length);
          for (const diagnostic of readExperiment(spoilt).diagnostics) {
            if (diagnostic.fix === undefined) continue;
            offered++;
            const edit = applyFix(spoilt, diagnostic);
            if (!edit.ok) throw new Error(edit.why);
            const left = readExperiment(edit.text).diagnostics.filter(
              ({ code, at: place }) =>
                code === diagnostic.code &&
                place?.line === diagnostic.at!.line &&
                place.column === diagnostic.at!.column,
            );
            expect(left).toEqual([]);
          }
        },
      ),
      { numRuns: RUNS },
    );
    expect(offered).toBeGreaterThan(RUNS / 20);
  });
});
