/** Where findings begin; shown beside the result, each open to change. */
export interface YieldPolicy {
  /** Coverage factor of U. */
  readonly k: number;
  /** The last two gross weighings agree within this share of the net ... */
  readonly constantMass: number;
  /** A weighed amount differs from the amount written by more than this share. */
  readonly offTarget: number;
  /** A net below this many times its uncertainty tells too little. */
  readonly leastNetInU: number;
}

/** Constant mass, off target and least net: common practice. */
export const DEFAULT_YIELD_POLICY: YieldPolicy = {
  k: 2,
  constantMass: 0.005,
  offTarget: 0.05,
  leastNetInU: 10,
};
