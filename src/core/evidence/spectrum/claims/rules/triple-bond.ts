import { at } from '../../judge/evidence.ts';
import type { ClaimFinding } from '../finding.ts';
import type { TableCase } from '../table-case.ts';
import type { Bond } from '../bond-words.ts';
import type { ReadCase } from './rule.ts';
import { evidenceAt, finding, placeOf, speaksOf, written } from './rule.ts';

/** CO₂ of the air: 2349 cm⁻¹, its two branches at 2361 and 2337. */
export function airAsTripleBond(one: ReadCase, table: TableCase): ClaimFinding | undefined {
  if (!speaksOf(one, 'c#n', 'c#c', 'cn', 'cumulated')) return undefined;
  const place = placeOf(one);
  if (place < 2295 || place > 2395) return undefined;
  const known = table.quality.carbonDioxide !== undefined;
  const near = Math.abs(place - 2349) < 20;
  return finding(one, 'air-as-triple-bond', 'doubts', known ? 0.95 : near ? 0.9 : 0.7, {
    says: `CO₂ of the air absorbs at 2349 cm⁻¹, in two humps; C≡N lies between 2200 and 2280 cm⁻¹, C≡C between 2100 and 2260.`,
    right: 'Measure the background again, and leave this band out.',
    evidence: evidenceAt(one, table, 'CO₂ of the air'),
  });
}

/** What a bond is made of besides C, H and O. */
const NEEDED: Readonly<Partial<Record<Bond, string>>> = {
  'c#n': 'N',
  no2: 'N',
  'n-h': 'N',
  'c-n': 'N',
  'c=n': 'N',
  's=o': 'S',
  's-h': 'S',
  'c-s': 'S',
  'c=s': 'S',
  'p=o': 'P',
  'p-h': 'P',
  'si-o': 'Si',
  'si-h': 'Si',
  'b-h': 'B',
  'c-cl': 'Cl',
  'c-br': 'Br',
  'c-i': 'I',
  'c-f': 'F',
};

/** A bond of an element that no substance of the experiment holds. */
export function elementMissing(one: ReadCase, table: TableCase): ClaimFinding | undefined {
  const { elements } = table;
  const { reading } = one;
  if (elements === undefined || reading.said === 'absent' || reading.foreign !== undefined)
    return undefined;
  const missing = reading.bonds.map((bond) => NEEDED[bond]);
  if (missing.length === 0 || !missing.every((one) => one !== undefined && !elements.has(one)))
    return undefined;
  const symbol = missing[0]!;
  return finding(one, 'element-missing', 'contradicts', 0.94, {
    says: `“${one.claim.group}” needs ${symbol}, and no substance of this reaction holds any.`,
    right: `See what else absorbs at ${at(placeOf(one))}.`,
    evidence: evidenceAt(one, table, written(one)),
  });
}
