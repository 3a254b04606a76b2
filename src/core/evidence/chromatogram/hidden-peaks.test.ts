import { expect, describe, test } from 'vitest';
import { makeSubstance } from '../../chemistry/substance.ts';
import { standardUncertainty } from '../../quantity/uncertain.ts';
import type { Statement } from '../statement.ts';
import type { Subject, SubjectRole, Subjects } from '../subject.ts';
import { judgeChromatogram } from './judge.ts';
import { namePeaks } from './named.ts';
import type { ChromatogramEntered, ChromatogramPeak } from './schema.ts';
import { areaShare } from './shares.ts';

function subject(role: SubjectRole, name: string, smiles: string): Subject {
  const made = makeSubstance({ name, smiles });
  if (!made.ok) throw new Error(made.message);
  return { role, substance: made.substance, literature: {} };
}

const SUBJECTS: Subjects = {
  product: subject('product', '4-methylcyclohexanone', 'CC1CCC(=O)CC1'),
  others: [subject('startingMaterial', '4-methylcyclohexanol', 'CC1CCC(O)CC1')],
};

const run = (
  peaks: readonly ChromatogramPeak[],
  rest: Partial<ChromatogramEntered> = {},
): ChromatogramEntered => ({
  technique: 'chromatogram',
  method: 'gc',
  detector: 'fid',
  peaks,
  ...rest,
});

const peak = (retention_min: number, area: number, rest: Partial<ChromatogramPeak> = {}) => ({
  retention_min,
  area,
  ...rest,
});

const find = (entered: ChromatogramEntered, id: string): Statement =>
  judgeChromatogram(entered, SUBJECTS).statements.find((statement) => statement.id === id)!;

const PRODUCT = { name: '4-methylcyclohexanone' };

describe('a starting material that would not be seen', () => {
  const times = (retention_min: number) => [
    { name: '4-methylcyclohexanone', retention_min: 5.2 },
    { name: '4-methylcyclohexanol', retention_min },
  ];
  test.each<[string, ChromatogramEntered]>([
    [
      'under the solvent',
      run([peak(2, 1e6, { role: 'solvent' }), peak(5.2, 1000)], { standards: times(2.02) }),
    ],
    ['before the count begins', run([peak(5.2, 1000)], { standards: times(1.1), from_min: 3 })],
    [
      'under the product, which the person has named',
      run([peak(5.2, 1000, { name: '4-methylcyclohexanone' })], { standards: times(5.21) }),
    ],
  ])('%s', (_, entered) => {
    expect(find(entered, 'starting-material-1').agreement).toBe('cannotTell');
  });
});

describe('peaks that are not of the sample', () => {
  const internalStandard = {
    name: 'decane',
    standard_mg: 20,
    sample_mg: 30,
    analyte: '4-Methylcyclohexanone',
    calibration: [{ analyte_mg: 20, standard_mg: 20, analyteArea: 800, standardArea: 1000 }],
  };
  const both = [peak(3, 1000, { name: 'Decane' }), peak(5.2, 1150, PRODUCT)];

  test('an internal standard that only has its name is not counted', () => {
    expect(find(run(both, { internalStandard }), 'area-share').measured).toMatch(/^100 %/);
  });

  test('the share by internal standard is of the product by its own name', () => {
    const { purity } = find(run(both, { internalStandard }), 'internal-standard');
    expect(purity?.of).toBe('4-methylcyclohexanone');
    // 1150/1000 × 20 mg/0.8 of 30 mg
    expect(purity?.share).toBeCloseTo(0.9583, 4);
  });

  test('a share above 1 within its uncertainty is 1', () => {
    const more = [peak(3, 1000, { name: 'decane' }), peak(5.2, 1210, PRODUCT)];
    expect(find(run(more, { internalStandard }), 'internal-standard').purity?.share).toBe(1);
  });

  test('a solvent of the experiment that is counted is told', () => {
    const ether = subject('solvent', 'diethyl ether', 'CCOCC');
    const entered = run([peak(2, 1e4, { name: 'diethyl ether' }), peak(5.2, 1000, PRODUCT)]);
    const { diagnostics } = judgeChromatogram(entered, {
      ...SUBJECTS,
      others: [...SUBJECTS.others, ether],
    });
    expect(diagnostics.map(({ code }) => code)).toContain('peak-of-solvent-counted');
  });
});

test('the share of a small peak is no better than its baseline', () => {
  const entered = run([peak(5.2, 995), peak(9, 5)]);
  const { counted } = namePeaks(entered);
  const u = standardUncertainty(areaShare(entered, [counted[1]!], counted));
  // 0.1 % of the largest peak
  expect(u).toBeGreaterThan(0.00095);
  expect(u).toBeLessThan(0.0012);
});
