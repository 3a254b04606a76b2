import { describe, expect, it } from 'vitest';
import { readExperiment } from '../read.ts';

const read = (procedure: string) => readExperiment(`# T\n\n## Procedure\n${procedure}\n`);

describe('how sentences become steps', () => {
  it.each([
    [
      'a sentence a line, without numbers',
      'Charge the flask with water 5 mL.\nStir the flask for 5 min.\nCool the flask in ice.',
      ['1', '2', '3'],
    ],
    [
      'the last of them half typed',
      'Charge the flask with water 5 mL.\nStir the flask for 5 min.\nCool the flask',
      ['1', '2', '3'],
    ],
    [
      'a paragraph whose sentences run over the line',
      'Charge the flask with\nwater 5 mL. Stir the flask for 5 min.\nCool the flask in ice.',
      ['1', '1b', '1c'],
    ],
    [
      'lines under a number',
      '1. Charge the flask with water 5 mL.\n   Stir the flask for 5 min.\n2. Cool the flask in ice.',
      ['1', '1b', '2'],
    ],
  ])('%s', (_what, procedure, ids) => {
    expect(read(procedure).steps.map(({ id }) => id)).toEqual(ids);
  });
});

describe('a sentence that no verb explains', () => {
  const said = (sentence: string) =>
    read(`1. ${sentence}`)
      .diagnostics.filter(({ code }) => code === 'sentence-not-understood')
      .map(({ severity, message }) => `${severity} ${message}`);

  it('is an error where it writes amounts of known materials, each of which is named', () => {
    const [one] = said(
      'In a 100 mL round-bottom flask reduce benzil 2.10 g in ethanol 15 mL with zinc powder 2.0 g.',
    );
    expect(one).toMatch(/^error /);
    for (const lost of ['benzil 2.10 g', 'ethanol 15 mL', 'zinc powder 2.0 g'])
      expect(one).toContain(lost);
  });

  it('is a warning where it writes none', () => {
    expect(said('Persuade the flask of better things.')[0]).toMatch(/^warning /);
  });

  it('keeps what a mistyped verb was meant to be', () => {
    const { diagnostics } = read('1. Chrage the flask with methanol 5 mL.');
    expect(diagnostics.find(({ fix }) => fix !== undefined)).toMatchObject({
      severity: 'error',
      fix: 'Charge the flask with methanol 5 mL',
    });
  });
});

it('an example of an amount is a volume for a liquid and a mass for a solid', () => {
  const hints = read('1. Charge the flask with ether.\n2. Add benzil.').diagnostics.flatMap(
    ({ code, hint }) => (code === 'amount-missing' ? [hint] : []),
  );
  expect(hints[0]).toContain('“ether 5 mL”');
  expect(hints[1]).toContain('“benzil 1.0 g”');
});
