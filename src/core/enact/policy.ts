/** Choices that are shown beside a result; each has a default. */
export interface Policy {
  readonly roomTemperature_C: number;
  readonly pressure_kPa: number;
  /** Keep the state of every vessel after every step, for the flow sheet. */
  readonly trace: boolean;
  /** A vessel is overfull above this share of its capacity; by shape. */
  readonly fillLimit: Readonly<Record<'reflux' | 'funnel' | 'evaporate' | 'other', number>>;
  /** Below this share a vessel at reflux is too empty. */
  readonly fillFloor: number;
  /** Two amounts of one use that differ by more than this share disagree. */
  readonly amountTolerance: number;
  /** Layers whose densities differ by less than this may not part. */
  readonly layerDensityGap_g_mL: number;
}

/** Fill limits, floor and density gap: common practice. */
export const DEFAULT_POLICY: Policy = {
  roomTemperature_C: 20,
  pressure_kPa: 101.325,
  trace: true,
  fillLimit: { reflux: 0.67, funnel: 0.75, evaporate: 0.5, other: 0.95 },
  fillFloor: 0.1,
  amountTolerance: 0.05,
  layerDensityGap_g_mL: 0.05,
};
