import { timesIn } from '../../../structure.ts';
import { at, shareText } from '../../judge/evidence.ts';
import type { ClaimFinding } from '../finding.ts';
import type { TableCase } from '../table-case.ts';
import { groupOf, reaches, shareAt, slackOf } from '../table-case.ts';
import type { ReadCase } from './rule.ts';
import { evidenceAt, finding, placeOf, speaksOf } from './rule.ts';

const isCarbonyl = (one: ReadCase): boolean =>
  speaksOf(one, 'c=o') ||
  (speaksOf(one, 'co') && placeOf(one) > 1500) ||
  (one.reading.bonds.length === 0 &&
    one.reading.foreign === undefined &&
    one.reading.said === 'present' &&
    one.reading.classes.some((name) => CARBONYL_CLASSES.includes(name)) &&
    placeOf(one) > 1500 &&
    placeOf(one) < 2050);

const CARBONYL_CLASSES = ['ketone', 'aldehyde', 'ester', 'lactone', 'carboxylic acid', 'amide'];

/** Does the product have a C=O that absorbs there? Undefined where its structure is not known. */
function expectedAt(one: ReadCase, table: TableCase): boolean | undefined {
  const place = placeOf(one);
  return table.productRows?.some(
    (band) =>
      band.vibration.startsWith('C=O') &&
      band.duty === 'must' &&
      reaches(band, { low_percm: place, high_percm: place }, slackOf(table)),
  );
}

/** Rings, C=C, water and N–H absorb from 1580 to 1680, less strongly than a C=O does. */
export function weak1600AsCarbonyl(one: ReadCase, table: TableCase): ClaimFinding | undefined {
  const place = placeOf(one);
  if (!isCarbonyl(one) || one.sight.band === undefined) return undefined;
  if (place < 1570 || place > 1685) return undefined;
  const share = shareAt(table, place);
  const expected = expectedAt(one, table);
  const low = place < 1632;
  if (expected === true || share > (low ? 0.75 : 0.45)) return undefined;
  const likelihood = (low ? 0.9 : 0.78) * (expected === false ? 1 : 0.9);
  return finding(one, 'weak-1600-as-carbonyl', 'doubts', likelihood, {
    says: `The band at ${at(place)} is ${shareText(share)}: low and weak for a C=O.`,
    right: low
      ? 'An aromatic ring absorbs near 1600 cm⁻¹; so does the bend of an NH₂.'
      : 'A C=C or water absorbs near 1640 cm⁻¹.',
    evidence: evidenceAt(one, table, low ? 'ring, perhaps' : 'C=C or water, perhaps'),
  });
}

/** Overtones and combinations of the ring C–H: a weak row of bands from 1650 to 2000. */
export function combinationAsCarbonyl(one: ReadCase, table: TableCase): ClaimFinding | undefined {
  const place = placeOf(one);
  if (!isCarbonyl(one) || one.sight.band === undefined) return undefined;
  if (place < 1650 || place > 2010) return undefined;
  const share = shareAt(table, place);
  const ring =
    [table.product, ...table.startingMaterials].some(
      (facts) => facts !== undefined && timesIn(facts, 'benzene-ring') > 0,
    ) || groupOf(table, 'aryl').probability > 0.5;
  const tooHigh = place > 1880;
  if (share > 0.15 || (!ring && !tooHigh) || expectedAt(one, table) === true) return undefined;
  const likelihood =
    (tooHigh ? 0.92 : 0.85) * (ring ? 1 : 0.6) * (1 - 2 * Math.max(0, share - 0.08));
  return finding(one, 'combination-as-carbonyl', 'doubts', likelihood, {
    says: `The band at ${at(place)} is ${shareText(share)}. Aromatic rings show a row of such weak overtones from 1650 to 2000 cm⁻¹; a C=O is among the strongest bands of a trace.`,
    right: 'Call it an overtone of the ring, or leave it out.',
    evidence: evidenceAt(one, table, 'overtone of the ring, perhaps'),
  });
}
