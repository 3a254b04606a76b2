import { standardUncertainty } from '../../quantity/uncertain.ts';
import { COVERAGE, fixed, plusMinus } from '../melting/compare.ts';
import type { Statement } from '../statement.ts';
import type { Found } from './found.ts';
import { LIMITS } from './found.ts';
import { enantiomerShares } from './specific.ts';

/** The excess, where the rotation is comparable and large enough to be read. */
export function excessStatement(found: Found): Statement | undefined {
  const { excess, name, obstacle, expected, tooDilute } = found;
  const u = standardUncertainty(excess);
  const size = Math.abs(excess.value);
  const wrong = size > 100 + COVERAGE * u;
  if (obstacle !== undefined || wrong || tooDilute) return undefined;
  const [major, minor] = enantiomerShares(excess.value);
  const whose = excess.value < 0 ? `the enantiomer of ${name}` : name;
  const pureEnough = excess.value + COVERAGE * u >= 100;
  return {
    id: 'rotation-excess',
    technique: 'rotation',
    about: 'purity',
    substance: name,
    what: 'Enantiomeric excess, from the rotation',
    measured: `${plusMinus(size, u)} % of ${whose}`,
    expected: `100 %, ${expected}`,
    agreement: pureEnough ? 'agrees' : 'disagrees',
    weight: 'weak',
    says: pureEnough
      ? `The rotation shows no sign of the other enantiomer, to within ${fixed(COVERAGE * u, 0)} %.`
      : `The rotation is that of ${fixed(major, 0)} parts of ${whose} to ${fixed(minor, 0)} of its mirror image, if nothing else is there.`,
    limits: `${LIMITS} Rotation need not be proportional to the excess (Horeau). It says nothing of chemical purity.`,
    derivation: [
      {
        label: 'Enantiomeric excess',
        formula: '100·[α]/[α] of the pure enantiomer',
        value: `${plusMinus(excess.value, u)} %`,
        source: 'literature value good to 2 %: common practice',
      },
      {
        label: 'Ratio of the enantiomers',
        formula: '(100 + ee)/2 : (100 − ee)/2',
        value: `${fixed(major, 1)} : ${fixed(minor, 1)}`,
      },
    ],
  };
}
