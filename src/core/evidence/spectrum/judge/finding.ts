import type { BandEvidence } from './group-judgement.ts';

/** What a reader of one group found, before limits and verdict. */
export interface Finding {
  readonly probability: number;
  readonly evidence: readonly BandEvidence[];
  readonly reasons: readonly string[];
  /** What the bands are taken for, where not for this group. */
  readonly rather?: string;
  /** Why no verdict may be given, whatever the probability. */
  readonly hidden?: string;
}
