import { describe, expect, it } from 'vitest';
import { openBenchOf, openExample } from '../../../test/example-folder.ts';
import { tableWith } from '../../core/chemistry/substance.ts';
import { enact } from '../../core/enact/enact.ts';
import { DEFAULT_POLICY } from '../../core/enact/policy.ts';
import { programOf } from '../../core/enact/program.ts';
import { actualsOf } from '../../core/record/actuals.ts';
import { readExperiment } from '../../core/experiment/read.ts';
import { flowSheet } from '../../core/report/flow/flow.ts';
import { flowSheetPicture } from './flow-sheet.ts';
import { flowWords } from './words.ts';

const plain = (text: string) => text.replace(/[\u202f\u00a0]/g, ' ');

const experiment = readExperiment(
  [
    '# Benzoic acid',
    '## Reaction',
    'sodium benzoate + HCl -> benzoic acid + NaCl',
    '## Vessels',
    '- beaker: 100 mL beaker',
    '## Procedure',
    '1. Charge the beaker with sodium benzoate 1.40 g and water 15 mL.',
    '2. Add 2 M hydrochloric acid 6.0 mL to the beaker.',
    '3. Stir the beaker for 5 min.',
    '4. Add water 2 × 10 mL to the beaker.',
  ].join('\n\n'),
);

describe('the amounts on a flow sheet', () => {
  const plan = enact(programOf(experiment), tableWith(experiment.substances));
  const told = [...flowWords(plan, experiment).charges].map(([key, { text }]) => [
    key.replace(/^\d+\|/, ''),
    plain(text),
  ]);

  it('stand as they are written, with moles of as many figures', () => {
    expect(told).toEqual([
      ['sodium benzoate', '1.40 g · 9.72 mmol'],
      ['water', '15 mL'],
      ['2 M hydrochloric acid', '6.0 mL · 12 mmol'],
      ['water', '2 × 10 mL'],
    ]);
  });
});

describe('a bench on its flow sheet', () => {
  const example = openExample('cyclohexanol');
  const { run } = openBenchOf(example, 'bench-1-plain-run.csv');
  const { program, table } = example;
  const enactment = enact(program, table, DEFAULT_POLICY, actualsOf(run));
  const words = flowWords(enactment, example.experiment, run);

  it('has weighings and charges with the digits that were read', () => {
    for (const charge of run.charges.filter(({ terms }) => terms.length === 1)) {
      const { entry } = charge.terms[0]!.reading;
      const shown = words.charges.get(`${charge.step}|${charge.name}`)?.text ?? '';
      expect(plain(shown)).toMatch(
        new RegExp(`^0*${String(entry.value).replace('.', '\\.')}0* m?[gL]`),
      );
    }
    const net = run.nets.at(-1)!;
    const weighed = words.weighings.get(net.step)?.find(({ vessel }) => vessel === net.vessel);
    expect(weighed?.basis).toBe('measured');
    const last = Math.max(...net.terms.map(({ reading }) => reading.lastDigit));
    expect(plain(weighed!.text)).toBe(`${net.net_g.toFixed(Math.round(-Math.log10(last)))} g`);
  });

  it('says how long it takes as the answer of the experiment does', () => {
    const svg = flowSheetPicture(flowSheet(example.experiment, enactment), {
      words,
      answer: 'So.',
    });
    expect(svg).toMatch(/steps · about \d/);
  });
});
