import { timesIn } from '../../../structure.ts';
import { at } from '../../judge/evidence.ts';
import type { ClaimFinding } from '../finding.ts';
import type { TableCase } from '../table-case.ts';
import { groupOf } from '../table-case.ts';
import type { ReadCase } from './rule.ts';
import { evidenceAt, finding, placeOf, speaksOf } from './rule.ts';

/** Small rings and halogens lift the C–H of sp³ carbon above 3000. */
const LIFTED = ['cyclopropane-ch', 'epoxide-ch', 'halo-ch', 'trihalo-ch'] as const;
const BORDER_PERCM = 3000;

export function above3000AsAlkane(one: ReadCase, table: TableCase): ClaimFinding | undefined {
  if (!speaksOf(one, 'alkyl-ch') || one.reading.bonds.includes('unsaturated-ch')) return undefined;
  const place = placeOf(one);
  const clear = BORDER_PERCM + 2 + 2 * table.spectrum.positionU_percm;
  if (place < clear || place > 3150 || one.low_percm < BORDER_PERCM - 20) return undefined;
  const { product } = table;
  if (product !== undefined && LIFTED.some((pattern) => timesIn(product, pattern) > 0))
    return undefined;
  const unsaturated =
    product === undefined || timesIn(product, 'aryl-ch') > 0 || timesIn(product, 'alkene-ch') > 0;
  return finding(one, 'above-3000-as-alkane', 'doubts', unsaturated ? 0.88 : 0.7, {
    says: `The band at ${at(place)} lies above 3000 cm⁻¹; C–H of sp³ carbon absorbs below.`,
    right: unsaturated
      ? 'C–H of an aromatic ring or a C=C absorbs there.'
      : 'The product has no aromatic or alkene C–H: something else is in the sample, or the scale is off.',
    evidence: evidenceAt(one, table, 'C–H stretch'),
  });
}

/** An aldehyde shows its C–H near 2720, and often a second near 2820. */
export function aldehydeWithoutCh(one: ReadCase, table: TableCase): ClaimFinding | undefined {
  if (!one.reading.classes.includes('aldehyde') || one.reading.said === 'absent') return undefined;
  const place = placeOf(one);
  const ofCarbonyl = place > 1620 && place < 1880;
  const ofCh = place > 2650 && place < 2900;
  if (!ofCarbonyl && !ofCh) return undefined;
  const judged = groupOf(table, 'aldehyde-ch');
  const isThere = table.peaks.some(
    ({ position_percm: p, prominence }) =>
      p > 2690 && p < 2765 && prominence > 0.015 * table.quality.highest,
  );
  if (isThere || (judged.verdict === 'cannotTell' && judged.probability > 0.3)) return undefined;
  return finding(one, 'aldehyde-without-ch', 'doubts', 0.9 * (1 - judged.probability), {
    says: 'No band stands near 2720 cm⁻¹, where an aldehyde shows its C–H.',
    right: 'Without it the C=O can be of a ketone, an ester or an acid as well.',
    evidence: groupOf(table, 'carbonyl').evidence,
  });
}
