import type { BandEvidence } from '../judge/group-judgement.ts';

/** What may have happened to a claim, or to the whole table. Stable names: pages and tests use them. */
export const CLAIM_FINDINGS = [
  'no-band-there',
  'table-value',
  'wavelength-as-wavenumber',
  'axis-break',
  'minimum-picked',
  'faint-hydroxyl',
  'water-as-alcohol',
  'acid-hydroxyl-as-ch',
  'nh-oh-swapped',
  'overtone-as-hydroxyl',
  'above-3000-as-alkane',
  'aldehyde-without-ch',
  'air-as-triple-bond',
  'element-missing',
  'weak-1600-as-carbonyl',
  'combination-as-carbonyl',
  'co-as-cc',
  'solvent-band',
  'other-window',
  'not-in-product',
  'other-class',
  'said-absent',
  'saturated-band',
  'left-over-not-mentioned',
  'change-not-mentioned',
  'co-not-assigned',
  'strong-band-not-assigned',
  'crowded-fingerprint',
  'too-thick',
  'too-weak',
  'fits-starting-material',
  'same-noise',
] as const;

export type ClaimFindingId = (typeof CLAIM_FINDINGS)[number];

/**
 * A possible explanation of what does not go together. `contradicts`: the trace speaks against the
 * claim. `doubts`: it can be something else. `notes`: worth knowing; the claim may stand.
 */
export interface ClaimFinding {
  readonly id: ClaimFindingId;
  readonly weight: 'contradicts' | 'doubts' | 'notes';
  /** That this is what happened, 0 to 1. Candidates exclude each other only in part. */
  readonly likelihood: number;
  /** What the trace has there, in plain words. */
  readonly says: string;
  /** What would be right, or what to do, where that is known. */
  readonly right?: string;
  readonly evidence: readonly BandEvidence[];
  /** Which line of the table, from 0; absent where it is about the whole. */
  readonly claim?: number;
}

/** The most likely first; equal ones in the order of the list above. */
export function bestFirst(findings: readonly ClaimFinding[]): ClaimFinding[] {
  return [...findings].sort(
    (a, b) =>
      b.likelihood - a.likelihood || CLAIM_FINDINGS.indexOf(a.id) - CLAIM_FINDINGS.indexOf(b.id),
  );
}
