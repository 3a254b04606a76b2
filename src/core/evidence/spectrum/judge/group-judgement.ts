/** The groups that a trace alone is asked about. */
export const JUDGED_GROUPS = [
  'oh',
  'acid',
  'nh',
  'carbonyl',
  'nitrile',
  'nitro',
  'alkyne-h',
  'aldehyde-ch',
  'aryl',
  'alkene',
  'c-o',
  'c-cl',
] as const;

export type JudgedGroup = (typeof JUDGED_GROUPS)[number];

export type Verdict = 'present' | 'absent' | 'cannotTell';

/** A band of the trace that a judgement rests on. */
export interface BandEvidence {
  /** "O–H stretch". */
  readonly what: string;
  readonly position_percm: number;
  /** Absorbance above the baseline. */
  readonly height: number;
  /** Height as a share of the tallest band of the sample. */
  readonly share: number;
  readonly width_percm: number;
}

export interface GroupJudgement {
  readonly group: JudgedGroup;
  readonly verdict: Verdict;
  /** That the group is in the sample, 0 to 1. */
  readonly probability: number;
  readonly evidence: readonly BandEvidence[];
  /** Sentences: what spoke for and against, what hid it. */
  readonly reasons: readonly string[];
  /** What its bands are taken for, where not for this group: "water". */
  readonly rather?: string;
  /** What infrared cannot tell here. */
  readonly limits: string;
}

/** The probabilities from which a group is called present or absent. */
export interface Thresholds {
  readonly present: number;
  readonly absent: number;
}

export function verdictOf(probability: number, { present, absent }: Thresholds): Verdict {
  if (probability >= present) return 'present';
  return probability <= absent ? 'absent' : 'cannotTell';
}
