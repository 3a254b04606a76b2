import { COVERAGE, fixed } from '../melting/compare.ts';
import type { Statement } from '../statement.ts';
import type { Subject } from '../subject.ts';
import { indexAt, shareByIndex } from './index-at.ts';
import type { Expected, Reading } from './reading.ts';
import { at, expectedIndex, uWithLiterature } from './reading.ts';
import type { RefractionEntered } from './schema.ts';

/** Two liquids nearer than this in index tell nothing of their proportion (judgement). */
const NEAREST = 0.01;
/** Of linear mixing, in the share: judgement. */
const MIXING_U = 0.05;

/** Between product and one other liquid: how much of the product, if nothing else is there. */
export function proportion(
  entered: RefractionEntered,
  reading: Reading,
  product: Subject,
  expected: Expected,
  other: Subject,
): Statement | undefined {
  const theirs = expectedIndex(other);
  if (theirs === undefined) return undefined;
  const second = indexAt(theirs.index, theirs.T_C, expected.T_C);
  if (Math.abs(second - expected.index) < NEAREST) return undefined;
  const n = at(reading, expected.T_C, entered);
  const u = Math.hypot(uWithLiterature(n) / Math.abs(expected.index - second), MIXING_U);
  const share = shareByIndex(n.value, expected.index, second);
  // Outside the two it is no mixture of them.
  if (share > 1 || share < -COVERAGE * u) return undefined;
  const text = `${fixed(100 * Math.max(0, share), 0)} ± ${fixed(100 * COVERAGE * u, 0)} %`;
  const names = `${product.substance.name} and ${other.substance.name}`;
  return {
    id: `refractive-mixture-${other.substance.id}`,
    technique: 'refractiveIndex',
    about: 'purity',
    substance: other.substance.name,
    what: `Proportion of ${names}`,
    measured: text,
    expected: '',
    agreement: 'cannotTell',
    weight: 'weak',
    says: `If the sample holds only ${names}, about ${fixed(100 * Math.max(0, share), 0)} % of it is ${product.substance.name}.`,
    limits:
      'A rough figure: the index of a mixture is only nearly linear, between a share by volume and one by moles, and a third substance spoils it. It corrects no yield.',
    derivation: [
      {
        label: `Share of ${product.substance.name}`,
        formula: '(n − n₂)/(n₁ − n₂)',
        value: `(${fixed(n.value, 4)} − ${fixed(second, 4)})/(${fixed(expected.index, 4)} − ${fixed(second, 4)}) = ${text}`,
        source: 'linear mixing: common practice',
      },
    ],
  };
}
