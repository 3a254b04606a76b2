import fc from 'fast-check';
import { readFileSync, readdirSync } from 'node:fs';
import { expect, test } from 'vitest';
import { tableWith } from '../../chemistry/substance.ts';
import { enact } from '../../enact/enact.ts';
import { programOf } from '../../enact/program.ts';
import { readExperiment } from '../../experiment/read.ts';
import { actualsOf } from '../../record/actuals.ts';
import { readCsvRecord } from '../../record/csv.ts';
import { foldRecord } from '../../record/fold.ts';
import { materialBalance } from '../balance/balance.ts';
import { balanceCourse } from './course.ts';
import { runResult } from './result.ts';

const EXAMPLES = new URL('../../../../examples/', import.meta.url);

function courseOf(example: string, record: string) {
  const experiment = readExperiment(
    readFileSync(new URL(`${example}/experiment.md`, EXAMPLES), 'utf8'),
  );
  const table = tableWith(experiment.substances);
  const program = programOf(experiment);
  const plan = enact(program, table);
  const run = foldRecord(readCsvRecord(record).entries, experiment);
  const enactment = enact(program, table, undefined, actualsOf(run));
  const { report } = runResult(
    { experiment, program, table, plan, diagnostics: [] },
    { run, enactment, diagnostics: [] },
  );
  const [product] = report.products;
  const balance = materialBalance(experiment, enactment, product?.substance)!;
  return { course: balanceCourse(experiment, enactment, balance, product), balance, product };
}

const recordOf = (example: string, bench: string) => {
  const file = readdirSync(new URL(`${example}/`, EXAMPLES)).find((name) =>
    name.startsWith(`bench-${bench}`),
  )!;
  return readFileSync(new URL(`${example}/${file}`, EXAMPLES), 'utf8');
};

test('a plain run goes down by what each weighing finds missing', () => {
  const { course } = courseOf('cyclohexanol', recordOf('cyclohexanol', '1'));
  expect(course.stages.map(({ kind, weighing, step }) => [kind, weighing, step])).toEqual([
    ['theory', undefined, null],
    ['weighed', 'earlier', '18'],
    ['weighed', 'isolated', '19b'],
  ]);
  expect(course.stages.map(({ product_g }) => product_g)).toEqual([
    expect.closeTo(1.1442, 4),
    0.926,
    0.899,
  ]);
  expect(course.stages[2]!.gone_g).toBeCloseTo(0.027, 6);
  expect(course.lostSight).toBe(false);
});

test('what weighs more than could be there stands over the product, not in it', () => {
  const { course } = courseOf('grignard', recordOf('grignard', '2'));
  const [, crude, product] = course.stages;
  expect(crude!.product_g + crude!.over_g).toBeCloseTo(3.227, 6);
  expect(crude!.product_g).toBeLessThanOrEqual(course.theory_g + 1e-9);
  expect(product!.over_g).toBeGreaterThan(0.5);
  // What went between two wet weighings is their difference.
  expect(product!.gone_g).toBeCloseTo(3.227 - 2.769, 6);
});

test('an acid that was a salt in between is not used on', () => {
  const { course } = courseOf('separation', recordOf('separation', '1'));
  expect(course.stages.map(({ kind }) => kind)).toEqual(['theory', 'weighed']);
});

test('a weighing without its tare is due, at most what the ledger has', () => {
  const { course } = courseOf('ester', recordOf('ester', '2'));
  const due = course.stages.at(-1)!;
  expect(due).toMatchObject({ kind: 'due', step: '20', vessel: 'receiver' });
  expect(due.product_g).toBeCloseTo(course.theory_g, 9);
});

test('whatever was weighed, a dry course ends where the theory less all that went stands', () => {
  const mass = fc.double({ min: 0.05, max: 1.1, noNaN: true });
  fc.assert(
    fc.property(mass, mass, (first, share) => {
      const second = (first * share) / 1.1;
      const record = [
        'kind,step,item,vessel,value,unit',
        `net,18,,product flask,${first.toFixed(4)},g`,
        `net,19b,,product flask,${second.toFixed(4)},g`,
      ].join('\n');
      const { course, product } = courseOf('cyclohexanol', record);
      const gone_g = course.stages.reduce((sum, stage) => sum + stage.gone_g, 0);
      const last = course.stages.at(-1)!;
      expect(last.product_g).toBeCloseTo(product!.net_g!, 9);
      // A loss under half a per cent of the theory is not told apart.
      expect(Math.abs(course.theory_g - gone_g - last.product_g)).toBeLessThan(
        0.0101 * course.theory_g,
      );
    }),
    { numRuns: 30 },
  );
});
