import { describe, expect, it } from 'vitest';
import { readExperiment } from './read.ts';

/** The vessel that each step fills or works on, in turn. */
function vesselsOf(procedure: string, declared = ''): string[] {
  const { steps } = readExperiment(`# T\n\n${declared}## Procedure\n${procedure}\n`);
  return steps.map(({ slots }) => slots.into ?? slots.on?.[0]?.vessel ?? '');
}

const CHARGE = 'Charge a flask with benzil 2.10 g and ethanol 15 mL.';
const PRODUCT_FLASK = '## Vessels\n- product flask: 50 mL round-bottom flask, tared\n\n';

describe('which vessel a phrase means', () => {
  it.each([
    [
      '“a flask” is not the one weighed empty before',
      `1. Weigh the empty product flask.\n2. ${CHARGE}`,
      ['product flask', 'flask'],
    ],
    [
      'the empty flask is meant again by its own name',
      `1. Weigh the empty product flask.\n2. ${CHARGE}\n3. Filter into the product flask.`,
      ['product flask', 'flask', 'product flask'],
    ],
    [
      'a tared flask is told apart in words',
      `1. ${CHARGE}\n2. Filter off the solid into a tared flask.\n3. Evaporate, and weigh the flask.`,
      ['flask', 'tared flask', 'tared flask', 'tared flask'],
    ],
    [
      'both can be called by their names',
      `1. ${CHARGE}\n2. Filter off the solid into a tared flask.\n3. Weigh the tared flask.`,
      ['flask', 'tared flask', 'tared flask'],
    ],
    [
      'a second one of another size',
      '1. Charge a 100 mL flask with water 5 mL.\n2. Transfer the mixture to a 50 mL flask.\n3. Add water 5 mL to the second flask.\n4. Stir the 100 mL flask.',
      ['flask', 'second flask', 'second flask', 'flask'],
    ],
  ])('%s', (_what, procedure, expected) => {
    expect(vesselsOf(procedure)).toEqual(expected);
  });

  it('“a flask” is not the tared flask that is declared', () => {
    expect(vesselsOf(`1. ${CHARGE}`, PRODUCT_FLASK)).toEqual(['flask']);
    expect(vesselsOf('1. Charge a tared flask with benzil 2.10 g.', PRODUCT_FLASK)).toEqual([
      'product flask',
    ]);
  });

  it('a deed is no vessel: “and weigh the flask”', () => {
    const sentence = 'Evaporate to constant mass and weigh the flask.';
    expect(
      vesselsOf(`1. Charge a round-bottomed flask with ethanol 5 mL.\n2. ${sentence}`),
    ).toEqual(['round-bottomed flask', 'round-bottomed flask', 'round-bottomed flask']);
  });

  it('no two vessels share a name, and the name is what everything calls it by', () => {
    const again = Array.from(
      { length: 12 },
      (_, i) => `${i + 2}. Transfer it to a ${i + 10} mL flask.`,
    );
    const { vessels } = readExperiment(
      `# T\n\n## Procedure\n1. ${CHARGE}\n${again.join('\n')}\n14. Filter into a tared flask.\n15. Filter into a tared flask.\n`,
    );
    expect(vessels.length).toBeGreaterThan(13);
    expect(new Set(vessels.map(({ name }) => name)).size).toBe(vessels.length);
    expect(vessels.map(({ id }) => id)).toEqual(vessels.map(({ name }) => name));
  });
});
