import { describe, expect, it } from 'vitest';
import { readExperiment } from '../../experiment/read.ts';
import { enact } from '../enact.ts';
import { TABLE } from '../fixture.ts';
import { programOf } from '../program.ts';

const ETHER = 'ethyl acetate 20 mL';
const BASE = 'Wash the organic layer with saturated sodium hydrogencarbonate';

function notes(...sentences: readonly string[]): string[] {
  const text = sentences.map((sentence, i) => `${i + 1}. ${sentence}`).join('\n');
  const { diagnostics } = enact(programOf(readExperiment(`# T\n\n## Procedure\n${text}\n`)), TABLE);
  return diagnostics.flatMap(({ code, at }) =>
    code === 'gas-not-counted' ? [at?.step ?? ''] : [],
  );
}

describe('an organic layer that is washed with a carbonate', () => {
  const acid = [
    'Charge the flask with acetic acid 3 mL and water 20 mL.',
    `Extract the flask with ${ETHER}.`,
  ];
  it.each([
    ['has met acid that the ledger left in the water', [...acid, `${BASE} 10 mL.`], ['3']],
    ['is said of once', [...acid, `${BASE} 10 mL.`, `${BASE} 10 mL.`], ['3']],
    ['is only washed with water', [...acid, 'Wash the organic layer with water 10 mL.'], []],
    [
      'has met a hydride that acid destroyed, and is washed with brine',
      [
        'Charge the flask with sodium borohydride 0.15 g and ethanol 10 mL.',
        'Quench the flask with 1 M hydrochloric acid 10 mL.',
        `Extract the flask with ${ETHER}.`,
        'Wash the organic layer with saturated aqueous sodium chloride 10 mL.',
      ],
      [],
    ],
    [
      'has met no acid',
      ['Charge the flask with water 20 mL.', `Extract the flask with ${ETHER}.`, `${BASE} 10 mL.`],
      [],
    ],
    [
      'holds the acid, so that the gas is counted',
      [`Charge the funnel with ${ETHER} and acetic acid 1 mL.`, `${BASE} 20 mL.`],
      [],
    ],
  ])('%s', (_what, sentences, steps) => {
    expect(notes(...sentences)).toEqual(steps);
  });
});
