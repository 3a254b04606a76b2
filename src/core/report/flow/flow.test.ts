import { describe, expect, it } from 'vitest';
import { exampleFolders, openBenchOf, openExample } from '../../../../test/example-folder.ts';
import { tableWith } from '../../chemistry/substance.ts';
import { enact } from '../../enact/enact.ts';
import { DEFAULT_POLICY } from '../../enact/policy.ts';
import { programOf } from '../../enact/program.ts';
import { readExperiment } from '../../experiment/read.ts';
import { actualsOf } from '../../record/actuals.ts';
import { flowSheet } from './flow.ts';

const benches = exampleFolders().flatMap((folder) => {
  const example = openExample(folder);
  return example.records.map((record) => {
    const { run } = openBenchOf(example, record);
    const { program, table } = example;
    const enactment = enact(program, table, DEFAULT_POLICY, actualsOf(run));
    return {
      name: `${folder}/${record}`,
      enactment,
      sheet: flowSheet(example.experiment, enactment),
    };
  });
});

describe.each(benches)('the flow sheet of $name', ({ enactment, sheet }) => {
  const passages = sheet.rows.flatMap((row) => row.passages);

  it('calls measured only what was on a balance or in a cylinder', () => {
    for (const { from, basis } of passages)
      if (basis === 'measured') expect(from.kind).toBe('stock');
    const weighed = enactment.charges.filter(({ basis }) => basis === 'measured');
    expect(passages.filter(({ basis }) => basis === 'measured').length).toBeGreaterThanOrEqual(
      weighed.length > 0 ? 1 : 0,
    );
  });

  it('gives a solid that is moved its mass and no volume', () => {
    for (const { label, volume_mL, amount } of passages)
      if (label === 'solid') expect([volume_mL, /m?g$/.test(amount)]).toEqual([null, true]);
  });
});

it('takes from the stock as many figures as are written', () => {
  const experiment = readExperiment(
    [
      '# Benzoic acid',
      '## Vessels',
      '- beaker: 100 mL beaker',
      '## Procedure',
      '1. Charge the beaker with sodium benzoate 1.40 g and water 15 mL.',
      '2. Add 2 M hydrochloric acid 6.0 mL to the beaker.',
      '3. Add water 3 × 5 mL to the beaker.',
    ].join('\n\n'),
  );
  const sheet = flowSheet(
    experiment,
    enact(programOf(experiment), tableWith(experiment.substances)),
  );
  const amounts = sheet.rows.flatMap(({ passages }) =>
    passages.flatMap(({ from, amount }) => (from.kind === 'stock' ? [amount] : [])),
  );
  const plain = amounts.map((each) => each.replace('\u202f', ' '));
  expect(plain.slice(0, 3)).toEqual(['1.40 g', '15 mL', '6.0 mL']);
  expect(new Set(plain.slice(3)).size).toBe(1);
  expect(['5 mL', '15 mL']).toContain(plain[3]);
});
