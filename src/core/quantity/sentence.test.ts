import { expect, it } from 'vitest';
import { sentenceStart } from './sentence.ts';

it.each([
  ['4-methylcyclohexanone limits', '4-Methylcyclohexanone limits'],
  ['N,N-dimethylaniline', 'N,N-Dimethylaniline'],
  ['1,3-diphenylpropan-1-one', '1,3-Diphenylpropan-1-one'],
  ['tert-butanol', 'tert-Butanol'],
  ['trans-cinnamic acid', 'trans-Cinnamic acid'],
  ['p-toluenesulfonic acid', 'p-Toluenesulfonic acid'],
  ['(E)-3-iodoprop-2-enoic acid', '(E)-3-Iodoprop-2-enoic acid'],
  ['6H-benzo[c]chromen-6-one', '6H-Benzo[c]chromen-6-one'],
  ['di-n-butyl ether', 'Di-n-butyl ether'],
  ['the amount is negative', 'The amount is negative'],
  ['a drop is 0.05 mL', 'A drop is 0.05 mL'],
  ['reaction 1 does not run', 'Reaction 1 does not run'],
  ['pH 7 is asked for', 'pH 7 is asked for'],
  ['mp 46 °C', 'mp 46 °C'],
  ['1 M hydrochloric acid', '1 M hydrochloric acid'],
  ['5 mL/min is a rate', '5 mL/min is a rate'],
  ['NaBH4 limits', 'NaBH4 limits'],
  ['“half” of what?', '“half” of what?'],
  ['', ''],
])('%s begins a sentence as %s', (text, wanted) => {
  expect(sentenceStart(text)).toBe(wanted);
});
