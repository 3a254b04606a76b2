/** What is needed of a peak; times and widths in one unit. */
export interface PeakShape {
  readonly retention_min: number;
  readonly halfWidth_min?: number;
  readonly baseWidth_min?: number;
  readonly foot?: { readonly width_min: number; readonly front_min: number };
}

/**
 * Resolution of two peaks: 1.18·(t₂ − t₁)/(w½₁ + w½₂) by widths at half height (Ph. Eur. 2.2.46,
 * harmonised with USP 〈621〉), else 2·(t₂ − t₁)/(w₁ + w₂) by widths at the base (IUPAC Gold Book,
 * peak resolution). Undefined without widths of one kind for both.
 */
export function resolution(a: PeakShape, b: PeakShape): number | undefined {
  const apart = Math.abs(b.retention_min - a.retention_min);
  if (a.halfWidth_min !== undefined && b.halfWidth_min !== undefined)
    return (1.18 * apart) / (a.halfWidth_min + b.halfWidth_min);
  if (a.baseWidth_min !== undefined && b.baseWidth_min !== undefined)
    return (2 * apart) / (a.baseWidth_min + b.baseWidth_min);
  return undefined;
}

/**
 * Plate number: 5.54·(t/w½)² (Ph. Eur. 2.2.46), else 16·(t/w)² (IUPAC). Isothermal or isocratic
 * runs.
 */
export function plateNumber(peak: PeakShape): number | undefined {
  if (peak.halfWidth_min !== undefined)
    return 5.54 * (peak.retention_min / peak.halfWidth_min) ** 2;
  if (peak.baseWidth_min !== undefined) return 16 * (peak.retention_min / peak.baseWidth_min) ** 2;
  return undefined;
}

/**
 * Symmetry (tailing) factor w₀.₀₅/2d, at a twentieth of the height (Ph. Eur. 2.2.46, USP 〈621〉).
 */
export function symmetryFactor(peak: PeakShape): number | undefined {
  return peak.foot === undefined ? undefined : peak.foot.width_min / (2 * peak.foot.front_min);
}

/** Retention factor k = (t − t₀)/t₀; undefined where t₀ is not above 0. */
export function retentionFactor(retention_min: number, dead_min: number): number | undefined {
  return dead_min > 0 ? (retention_min - dead_min) / dead_min : undefined;
}

/** Separation factor α = k₂/k₁, not below 1; undefined where either is not held back. */
export function separationFactor(a: PeakShape, b: PeakShape, dead_min: number): number | undefined {
  const [low, high] = [a.retention_min - dead_min, b.retention_min - dead_min].sort(
    (x, y) => x - y,
  );
  return low! > 0 ? high! / low! : undefined;
}
