import type { IrBand } from '../../judge/bands.ts';
import { at } from '../../judge/evidence.ts';
import type { ClaimFinding } from '../finding.ts';
import type { TableCase } from '../table-case.ts';
import { reaches, shareAt, slackOf, startingRows } from '../table-case.ts';
import type { ReadCase } from './rule.ts';
import { evidenceAt, finding, listed, placeOf, written } from './rule.ts';
import { windowsOf } from './place.ts';

const isPlain = ({ reading }: ReadCase): boolean =>
  reading.said === 'present' && reading.foreign === undefined && reading.bandIds.size > 0;

/** The words that a row of the band table goes by; three at most. */
export function namesAt(rows: readonly IrBand[], one: ReadCase, slack: number): string[] {
  const place = placeOf(one);
  const here = { low_percm: place, high_percm: place };
  const core = rows.filter(
    (row) => row.coreLow_percm - slack <= place && row.coreHigh_percm + slack >= place,
  );
  const found = core.length > 0 ? core : rows.filter((row) => reaches(row, here, slack));
  return [...new Set(found.map(({ vibration }) => vibration))].slice(0, 3);
}

/** There is a band, but the group that is named absorbs elsewhere. */
export function otherWindow(one: ReadCase, table: TableCase): ClaimFinding | undefined {
  if (!isPlain(one) || (one.sight.band === undefined && !one.sight.covered)) return undefined;
  const windows = windowsOf(one, table);
  const slack = slackOf(table);
  if (windows.some((band) => reaches(band, one, slack))) return undefined;
  const [low, high] = [
    Math.min(...windows.map(({ low_percm }) => low_percm)),
    Math.max(...windows.map(({ high_percm }) => high_percm)),
  ];
  const place = placeOf(one);
  const off = Math.min(
    ...windows.map((band) => Math.max(band.low_percm - place, place - band.high_percm)),
  );
  const rest = namesAt(table.productRows ?? [], one, slack);
  // Below 1500 a few cm⁻¹ outside is no more than windows are worth
  const hardly = off < 12 && place < 1500;
  const likelihood = off > 30 ? 0.6 : hardly ? 0.3 : 0.4;
  return finding(one, 'other-window', off > 30 ? 'contradicts' : 'doubts', likelihood, {
    says: `A band stands at ${at(place)}, but “${one.claim.group}” absorbs ${
      windows.length === 1 || high - low < 400 ? `between ${low} and ${at(high)}` : 'elsewhere'
    }.`,
    right: rest.length === 0 ? undefined : `The product absorbs there by its ${listed(rest)}.`,
    evidence: evidenceAt(one, table, 'the band that is there'),
  });
}

/** The group is in the words, and not in the structure of the product. */
export function notInProduct(one: ReadCase, table: TableCase): ClaimFinding | undefined {
  const { productRows } = table;
  const { reading } = one;
  if (!isPlain(one) || productRows === undefined) return undefined;
  if (productRows.some(({ id }) => reading.bandIds.has(id))) return undefined;
  // No row at all for such bonds between heavy atoms
  if (reading.bonds.length > 0 && reading.bonds.every((bond) => bond === 'c-c')) return undefined;
  const slack = slackOf(table);
  if (productRows.some(({ id }) => reading.bondBandIds.has(id))) {
    const ofBond = productRows.filter(({ id }) => reading.bondBandIds.has(id));
    const fits = ofBond.some((band) => reaches(band, one, slack));
    if (reading.classes.length === 0) return undefined;
    return finding(one, 'other-class', 'doubts', fits ? 0.5 : 0.55, {
      says: `The product has this bond, but not as part of “${reading.classes.join(', ')}”.`,
      right: fits ? 'The band fits the product; only the class is another.' : undefined,
      evidence: evidenceAt(one, table, 'the band that is there'),
    });
  }
  const fromStart = startingRows(table).some((rows) =>
    rows.some((band) => reading.bandIds.has(band.id) && reaches(band, one, slack)),
  );
  const rest = namesAt(productRows, one, slack);
  return finding(one, 'not-in-product', 'doubts', 0.56, {
    says: `The structure of the product has no group that “${one.claim.group}” names.`,
    right: fromStart
      ? 'The starting material has it: some may be left in the sample.'
      : rest.length === 0
        ? undefined
        : `The product absorbs there by its ${listed(rest)}.`,
    evidence: evidenceAt(one, table, 'the band that is there'),
  });
}

/** "No C=O": is there none? */
export function saidAbsent(one: ReadCase, table: TableCase): ClaimFinding | undefined {
  const { reading, sight } = one;
  if (reading.said !== 'absent' || reading.foreign === 'startingMaterial') return undefined;
  if (sight.band === undefined || sight.hidden !== undefined) return undefined;
  const share = shareAt(table, sight.band.position_percm);
  if (share < 0.04) return undefined;
  const byProduct = (table.productRows ?? []).some(
    (band) => !reading.bandIds.has(band.id) && reaches(band, one, 0) && band.duty === 'must',
  );
  return finding(one, 'said-absent', byProduct ? 'doubts' : 'contradicts', byProduct ? 0.4 : 0.8, {
    says: `The trace has a band at ${at(sight.band.position_percm)}, where the table says that there is none.`,
    right: byProduct ? 'The product has another band there.' : undefined,
    evidence: evidenceAt(one, table, 'the band that is there'),
  });
}

export function saturatedBand(one: ReadCase, table: TableCase): ClaimFinding | undefined {
  if (!one.sight.saturated || one.reading.said === 'absent') return undefined;
  return finding(one, 'saturated-band', 'notes', 0.7, {
    says: `The band at ${written(one)} let next to no light through: its exact place, height and shape are lost.`,
    right: 'Measure a thinner film or a more dilute disc.',
    evidence: evidenceAt(one, table, 'saturated band'),
  });
}
