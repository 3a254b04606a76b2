import type { BandEvidence } from '../../judge/group-judgement.ts';
import type { ClaimFinding, ClaimFindingId } from '../finding.ts';
import type { GroupRead } from '../read-group.ts';
import type { ClaimCase, TableCase } from '../table-case.ts';
import { seenAs } from '../table-case.ts';
import type { Bond } from '../bond-words.ts';

/** A claim whose words are known; only such ones are asked about. */
export type ReadCase = ClaimCase & { readonly reading: GroupRead };

/** One possible slip of one line, or nothing. */
export type ClaimRule = (one: ReadCase, table: TableCase) => ClaimFinding | undefined;
/** What can be said of the table as a whole. */
export type TableRule = (table: TableCase) => ClaimFinding | undefined;

export const isRead = (one: ClaimCase): one is ReadCase => one.reading.kind === 'read';

export const speaksOf = ({ reading }: ReadCase, ...bonds: readonly Bond[]): boolean =>
  reading.said === 'present' &&
  reading.foreign === undefined &&
  reading.bonds.some((bond) => bonds.includes(bond));

/** Where a claim lies: the band that is meant, or the middle of what was written. */
export const placeOf = ({ sight, low_percm, high_percm }: ClaimCase): number =>
  sight.band?.position_percm ?? (low_percm + high_percm) / 2;

export function finding(
  one: ClaimCase,
  id: ClaimFindingId,
  weight: ClaimFinding['weight'],
  likelihood: number,
  words: {
    readonly says: string;
    readonly right?: string | undefined;
    readonly evidence?: readonly BandEvidence[];
  },
): ClaimFinding {
  return {
    id,
    weight,
    likelihood: Math.round(100 * Math.min(0.98, Math.max(0.02, likelihood))) / 100,
    says: words.says,
    ...(words.right === undefined ? {} : { right: words.right }),
    evidence: words.evidence ?? [],
    claim: one.index,
  };
}

/** The band under a claim as evidence, if there is one. */
export function evidenceAt(one: ClaimCase, table: TableCase, what: string): BandEvidence[] {
  return one.sight.band === undefined ? [] : [seenAs(table, what, one.sight.band)];
}

/** "1715 cm⁻¹" as written, or "3200–3500 cm⁻¹". */
export function written({ low_percm, high_percm }: ClaimCase): string {
  const low = Math.round(low_percm * 10) / 10;
  return high_percm > low_percm ? `${low}–${Math.round(high_percm * 10) / 10} cm⁻¹` : `${low} cm⁻¹`;
}

export const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)!}`;
