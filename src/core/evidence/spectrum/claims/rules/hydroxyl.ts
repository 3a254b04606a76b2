import { timesIn } from '../../../structure.ts';
import { at, shareText } from '../../judge/evidence.ts';
import { maximaWithin, tallestOf } from '../../judge/maxima.ts';
import { holds } from '../../judge/structure-groups.ts';
import type { Peak } from '../../treat/peaks.ts';
import type { ClaimFinding } from '../finding.ts';
import type { TableCase } from '../table-case.ts';
import { groupOf, seenAs, shareAt } from '../table-case.ts';
import type { ReadCase } from './rule.ts';
import { evidenceAt, finding, placeOf, speaksOf, written } from './rule.ts';

const inStretch = (one: ReadCase, low: number, high: number): boolean =>
  placeOf(one) >= low && placeOf(one) <= high;

const has = (table: TableCase, group: 'oh' | 'nh' | 'acid' | 'carbonyl'): boolean | undefined =>
  table.product === undefined ? undefined : holds(table.product, group);

/** Alcohols that associate absorb strongly; common practice. */
const FAINT_SHARE = 0.05;
const FAINT_UNBONDED_SHARE = 0.02;

/** O–H of an alcohol is wide and strong, unless it is free. */
export function faintHydroxyl(one: ReadCase, table: TableCase): ClaimFinding | undefined {
  if (!speaksOf(one, 'o-h') || !inStretch(one, 3100, 3700)) return undefined;
  if (one.sight.hidden !== undefined) return undefined;
  const { state } = table.context;
  const least = state === 'gas' || state === 'solution' ? FAINT_UNBONDED_SHARE : FAINT_SHARE;
  const { share } = one.sight;
  if (share >= least) return undefined;
  return finding(one, 'faint-hydroxyl', 'doubts', 0.55 + 0.3 * (1 - share / least), {
    says: `What absorbs at ${written(one)} is ${shareText(Math.max(0, share))}. The O–H of an alcohol is wide and strong.`,
    right: 'A trace of water, or the overtone of a C=O, can look like this.',
    evidence: evidenceAt(one, table, 'weak band'),
  });
}

const isPhenol = ({ product }: TableCase): boolean =>
  product !== undefined && timesIn(product, 'phenol') > 0;

/** Water stretches at 3400 and bends at 1640; an alcohol shows its C–O as well. */
export function waterAsAlcohol(one: ReadCase, table: TableCase): ClaimFinding | undefined {
  if (!speaksOf(one, 'o-h') || !inStretch(one, 3200, 3620)) return undefined;
  if (one.reading.classes.includes('carboxylic acid')) return undefined;
  const { context } = table;
  const bend = waterBend(table);
  if (bend === undefined) return waterAlone(one, table);
  if (one.sight.share < 0.03) return undefined;
  const carbonOxygen = tallestOf(
    maximaWithin(context.maxima, 1000, isPhenol(table) ? 1310 : 1260).filter(
      ({ prominence, height }) => prominence > 0.15 * height,
    ),
  );
  const share = carbonOxygen === undefined ? 0 : carbonOxygen.height / context.view.tallest;
  const otherwise = (table.productRows ?? []).some(
    (band) =>
      band.duty === 'must' &&
      band.vibration !== 'H–O–H bend' &&
      band.low_percm <= bend.position_percm &&
      band.high_percm >= bend.position_percm,
  );
  const noAlcohol = has(table, 'oh') === false;
  if (share > 0.3 && !noAlcohol) return undefined;
  const likelihood = (share < 0.2 ? 0.86 : noAlcohol ? 0.75 : 0.6) * (otherwise ? 0.6 : 1);
  return finding(one, 'water-as-alcohol', 'doubts', likelihood, {
    says:
      `Beside ${written(one)} there is a band at ${at(bend.position_percm)}, as water has` +
      (share < 0.2 ? ', and no strong C–O between 1000 and 1260 cm⁻¹.' : '.'),
    right:
      'Dry the sample (and the windows or the KBr) and measure again before claiming an alcohol.',
    evidence: [
      ...evidenceAt(one, table, 'O–H stretch, water perhaps'),
      seenAs(table, 'H–O–H bend, perhaps', bend),
    ],
  });
}

/** Its bend, a shoulder on a ring's 1600 perhaps. */
const waterBend = ({ peaks, quality }: TableCase): Peak | undefined =>
  peaks
    .filter(
      ({ position_percm: p, prominence }) =>
        p > 1618 && p < 1662 && prominence > 0.02 * quality.highest,
    )
    .sort((a, b) => b.prominence - a.prominence)[0];

const WIDE_PERCM = 100;

/** Hidden its bend may be; where the product has no O–H or N–H, water is the first guess. */
function waterAlone(one: ReadCase, table: TableCase): ClaimFinding | undefined {
  const { band } = one.sight;
  if (band === undefined || band.width_percm < WIDE_PERCM || one.sight.share < 0.03)
    return undefined;
  if (has(table, 'oh') !== false || has(table, 'nh') !== false || has(table, 'acid') !== false)
    return undefined;
  const fromStart = table.startingMaterials.some((facts) => holds(facts, 'oh'));
  return finding(one, 'water-as-alcohol', 'doubts', fromStart ? 0.4 : 0.6, {
    says: `The product has no O–H, and water absorbs at ${at(band.position_percm)} as widely.`,
    right: 'Dry the sample (and the windows or the KBr) and measure again.',
    evidence: evidenceAt(one, table, 'O–H stretch, water perhaps'),
  });
}

/** The O–H of an acid dimer runs from 3300 to 2500, under the C–H bands. */
export function acidHydroxylAsCh(one: ReadCase, table: TableCase): ClaimFinding | undefined {
  if (!speaksOf(one, 'c-h', 'alkyl-ch', 'unsaturated-ch')) return undefined;
  const { low_percm, high_percm, shape } = one;
  if (high_percm < 2450 || low_percm > 3350) return undefined;
  const judged = groupOf(table, 'acid').probability;
  const known = has(table, 'acid');
  const chance = known === true ? Math.max(0.7, judged) : known === false ? 0.3 * judged : judged;
  const wide = high_percm - low_percm >= 250 || /\bbr(?:oad)?\b|wide/.test(shape);
  const place = placeOf(one);
  const outside = high_percm - low_percm < 250 && (place < 2800 || place > 3110);
  if (chance < 0.4 || !(wide || outside)) return undefined;
  return finding(one, 'acid-hydroxyl-as-ch', 'doubts', 0.95 * chance, {
    says:
      `From 3300 to 2500 cm⁻¹ the trace is raised throughout, as by the O–H of a carboxylic acid; ` +
      `C–H bands are narrow and lie between 2800 and 3100 cm⁻¹.`,
    right: 'The wide part is the O–H stretch of the acid; C–H stands on it as narrow tips.',
    evidence: groupOf(table, 'acid').evidence,
  });
}

/** N–H is narrower than O–H, weaker, and double where there are two. */
export function nhOhSwapped(one: ReadCase, table: TableCase): ClaimFinding | undefined {
  const saysNh = speaksOf(one, 'n-h');
  const saysOh = speaksOf(one, 'o-h');
  if (saysNh === saysOh || !inStretch(one, 3050, 3700)) return undefined;
  if (one.sight.band === undefined && !one.sight.covered) return undefined;
  const [said, other] = saysNh ? (['nh', 'oh'] as const) : (['oh', 'nh'] as const);
  const [own, rival] = [groupOf(table, said), groupOf(table, other)];
  // An overtone or water is neither
  let chance = rival.probability * (1 - own.probability);
  const { product, elements } = table;
  if (product !== undefined) {
    const [holdsOwn, holdsRival] = [holds(product, said), holds(product, other)];
    if (holdsRival && !holdsOwn) chance = Math.max(chance, 0.75);
    if (holdsOwn && !holdsRival) chance *= 0.25;
    if (holdsOwn && holdsRival) chance *= 0.5;
  }
  if (other === 'nh' && elements !== undefined && !elements.has('N')) return undefined;
  if (said === 'nh' && elements !== undefined && !elements.has('N'))
    chance = Math.max(chance, 0.85);
  if (chance < 0.3) return undefined;
  const band = one.sight.band;
  return finding(one, 'nh-oh-swapped', 'doubts', chance, {
    says: `${band === undefined ? `At ${written(one)} the trace is raised over a wide stretch.` : `The band at ${at(band.position_percm)} is ${Math.round(band.width_percm)} cm⁻¹ wide.`} ${saysNh ? WIDE : NARROW}`,
    right: saysNh ? 'An O–H stretch fits better.' : 'An N–H stretch fits better.',
    evidence: [...evidenceAt(one, table, 'O–H or N–H stretch'), ...rival.evidence],
  });
}

const WIDE = 'An N–H band is narrower, and double where there is an NH₂; O–H is wide and single.';
const NARROW =
  'An O–H band is wider and single; N–H is narrower, and double where there is an NH₂.';

/** Twice a C=O, less the anharmonicity of about 20 cm⁻¹. */
const ANHARMONIC_PERCM = 22;
const OVERTONE_REACH_PERCM = 40;

const offOf = (one: ReadCase, carbonyl_percm: number): number =>
  Math.abs(placeOf(one) - 2 * carbonyl_percm + ANHARMONIC_PERCM);

/** The first overtone of a strong C=O lies near 3400–3500, small and narrow. */
export function overtoneAsHydroxyl(one: ReadCase, table: TableCase): ClaimFinding | undefined {
  if (!speaksOf(one, 'o-h', 'n-h') || !inStretch(one, 3250, 3720)) return undefined;
  if (one.sight.band === undefined) return undefined;
  const { context } = table;
  const carbonyl = maximaWithin(context.maxima, 1640, 1880)
    .filter(({ height }) => height >= 0.4 * context.view.tallest)
    .map((one) => seenAs(table, 'C=O stretch', one))
    .sort((a, b) => offOf(one, a.position_percm) - offOf(one, b.position_percm))[0];
  if (carbonyl === undefined || groupOf(table, 'carbonyl').probability < 0.5) return undefined;
  const off = offOf(one, carbonyl.position_percm);
  const width = one.sight.band.width_percm;
  const share = shareAt(table, placeOf(one));
  if (off > OVERTONE_REACH_PERCM || share > 0.15 * carbonyl.share || width > 110) return undefined;
  const expected = has(table, 'oh') === true;
  const likelihood = (expected ? 0.45 : 0.9) * (1 - 0.3 * (off / OVERTONE_REACH_PERCM));
  return finding(one, 'overtone-as-hydroxyl', 'doubts', likelihood, {
    says:
      `${at(placeOf(one))} is twice the C=O at ${at(carbonyl.position_percm)}, less a little, and ` +
      `the band is small: the overtone of the C=O lies there.`,
    right: 'Leave it out, or call it the overtone of the C=O.',
    evidence: [...evidenceAt(one, table, 'overtone of the C=O, perhaps'), carbonyl],
  });
}
