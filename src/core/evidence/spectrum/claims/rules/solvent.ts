import { at } from '../../judge/evidence.ts';
import type { ContaminantJudgement } from '../../judge/contaminants.ts';
import { MOST_SHARE, judgeContaminants } from '../../judge/contaminants.ts';
import type { ClaimFinding } from '../finding.ts';
import type { TableCase } from '../table-case.ts';
import { reaches, seenAs, slackOf } from '../table-case.ts';
import type { ReadCase } from './rule.ts';
import { finding, listed, placeOf } from './rule.ts';

/** What glass is washed with and products are extracted with, whether the table of reagents has it or not. */
const WASHING = [
  'acetone',
  'diethyl-ether',
  'ethyl-acetate',
  'dichloromethane',
  'ethanol',
] as const;
const REACH_PERCM = 10;
/** Of a solvent that nobody is known to have used. */
const UNASKED = 0.6;
/** Less is not worth a line. */
const LEAST = 0.15;
/** What was used can always be left. */
const USED = 0.4;
/** Where the product should absorb as well. */
const OF_BOTH = 0.55;

/** The band is at the place of a solvent whose other bands are there too. */
export function solventBand(one: ReadCase, table: TableCase): ClaimFinding | undefined {
  const { band } = one.sight;
  const { reading } = one;
  if (band === undefined || reading.said === 'absent' || reading.foreign !== undefined)
    return undefined;
  const place = placeOf(one);
  const found = suspectsOf(table)
    .filter(({ judged }) => judged.id !== 'water' && judged.id !== 'disc-moisture')
    .filter(({ judged }) =>
      judged.evidence.some((mark) => Math.abs(mark.position_percm - place) <= REACH_PERCM),
    )
    .sort((a, b) => b.likelihood - a.likelihood)[0];
  if (found === undefined) return undefined;
  const { judged } = found;
  const likelihood = found.likelihood * (isOwn(one, table) ? OF_BOTH : 1);
  if (likelihood < LEAST) return undefined;
  const places = judged.evidence.map(({ position_percm }) => `${Math.round(position_percm)}`);
  return finding(one, 'solvent-band', 'doubts', likelihood, {
    says: `${judged.name} absorbs at ${at(place)} too, and its other bands are here: ${places.join(', ')} cm⁻¹.`,
    right: `Remove the last of the ${judged.name} and measure again; a band that grows smaller is not of the product.`,
    evidence: [seenAs(table, listed([judged.name]), band), ...judged.evidence],
  });
}

/** Has the product a band of its own there, by the words of the claim? */
const isOwn = (one: ReadCase, table: TableCase): boolean =>
  (table.productRows ?? []).some(
    (band) => one.reading.bandIds.has(band.id) && reaches(band, one, slackOf(table)),
  );

interface Suspect {
  readonly judged: ContaminantJudgement;
  readonly likelihood: number;
}

const kept = new WeakMap<TableCase, readonly Suspect[]>();

/** Those that were used, as the judge has them; and the washing solvents, with more doubt. */
function suspectsOf(table: TableCase): readonly Suspect[] {
  const known = kept.get(table);
  if (known !== undefined) return known;
  const { judgement, product, context } = table;
  const own = (table.productRows ?? []).map(({ low_percm, high_percm, intensity }) => ({
    low_percm,
    high_percm,
    mostShare: MOST_SHARE[intensity],
  }));
  const used = judgement.contaminants.filter(({ verdict }) => verdict !== 'absent');
  const washing = judgeContaminants(context, own, {
    used: WASHING.filter((id) => !judgement.contaminants.some((one) => one.id === id)),
    sample: product === undefined ? [] : [product.smiles],
  }).filter(
    ({ id, verdict }) =>
      WASHING.some((one) => one === id) &&
      verdict === 'present' &&
      !judgement.contaminants.some((one) => one.id === id),
  );
  const suspects = [
    ...used.map((judged) => ({
      judged,
      likelihood: judged.used ? Math.max(USED, judged.probability) : UNASKED * judged.probability,
    })),
    ...washing.map((judged) => ({ judged, likelihood: UNASKED * judged.probability })),
  ].filter(({ judged }) => judged.evidence.length > 1 || judged.used);
  kept.set(table, suspects);
  return suspects;
}
