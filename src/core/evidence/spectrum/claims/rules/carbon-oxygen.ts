import { at, shareText } from '../../judge/evidence.ts';
import { maximaWithin, tallestOf } from '../../judge/maxima.ts';
import { holds } from '../../judge/structure-groups.ts';
import type { ClaimFinding } from '../finding.ts';
import type { TableCase } from '../table-case.ts';
import { seenAs, shareAt } from '../table-case.ts';
import type { ReadCase } from './rule.ts';
import { evidenceAt, finding, isRead, placeOf, speaksOf } from './rule.ts';

/** Those of acyclic alcohols and of aryl ethers, and a little to either side. */
const WINDOW = [960, 1330] as const;
const CLEAR_SHARE = 0.15;

const isAlcoholTable = (table: TableCase): boolean =>
  table.product === undefined
    ? table.claims.some(
        (one) =>
          isRead(one) &&
          speaksOf(one, 'o-h') &&
          !one.reading.classes.includes('carboxylic acid') &&
          placeOf(one) > 3150,
      )
    : holds(table.product, 'oh') && table.productRows!.some(isCarbonOxygen);

const isCarbonOxygen = ({ vibration }: { readonly vibration: string }): boolean =>
  vibration === 'C–O stretch';

/** C–C stretches are weak and lie anywhere; a strong band from 1000 to 1300 is C–O where there is O. */
export function coAsCc(one: ReadCase, table: TableCase): ClaimFinding | undefined {
  if (!speaksOf(one, 'c-c') || one.reading.classes.includes('aromatic ring')) return undefined;
  const place = placeOf(one);
  if (place < WINDOW[0] || place > WINDOW[1]) return undefined;
  const rows = (table.productRows ?? []).filter(
    (band) =>
      /C–O|O–C|\)–O/.test(band.vibration) &&
      band.low_percm - 5 <= place &&
      band.high_percm + 5 >= place,
  );
  const expected = table.product === undefined ? isAlcoholTable(table) : rows.length > 0;
  const share = shareAt(table, place);
  if (!expected || share < CLEAR_SHARE) return undefined;
  const sure = rows.some(({ duty }) => duty === 'must') ? 1 : 0.85;
  return finding(one, 'co-as-cc', 'doubts', sure * (0.7 + 0.25 * Math.min(1, share)), {
    says: `The band at ${at(place)} is ${shareText(share)}. C–C stretches are weak; C–O stretches are strong and lie there.`,
    right: 'A C–O stretch fits better.',
    evidence: evidenceAt(one, table, 'C–O stretch, perhaps'),
  });
}

/** An alcohol without its C–O in the table is half an argument: water has an O–H as well. */
export function coNotAssigned(table: TableCase): ClaimFinding | undefined {
  if (!isAlcoholTable(table)) return undefined;
  const named = table.claims.some(
    (one) =>
      isRead(one) &&
      one.reading.said === 'present' &&
      placeOf(one) > 960 &&
      placeOf(one) < 1330 &&
      (one.reading.bonds.some((bond) => bond === 'c-o' || bond === 'co') ||
        (one.reading.bonds.length === 0 &&
          one.reading.classes.some((name) =>
            ['alcohol', 'phenol', 'ester', 'ether'].includes(name),
          ))),
  );
  if (named) return undefined;
  const windows = (table.productRows ?? []).filter(isCarbonOxygen);
  const [low, high] =
    windows.length === 0
      ? [1000, 1260]
      : [
          Math.min(...windows.map(({ low_percm }) => low_percm)),
          Math.max(...windows.map(({ high_percm }) => high_percm)),
        ];
  const band = tallestOf(maximaWithin(table.context.maxima, low, high));
  const clear = band !== undefined && band.height > CLEAR_SHARE * table.context.view.tallest;
  return {
    id: 'co-not-assigned',
    weight: 'notes',
    likelihood: clear ? 0.8 : 0.5,
    says: clear
      ? `An alcohol shows its C–O as well as its O–H. The strong band at ${at(band.position_percm)} is not in the table.`
      : `An alcohol shows its C–O as well as its O–H. The table has none, and the trace has no strong band from ${low} to ${at(high)}.`,
    right: 'Without the C–O, water explains an O–H as well.',
    evidence: clear ? [seenAs(table, 'C–O stretch, perhaps', band)] : [],
  };
}
