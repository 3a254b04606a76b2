/** Where the formula of Tanaka et al. holds, °C. */
export const WATER_RANGE_C: readonly [low: number, high: number] = [0, 40];

/**
 * Density of air-free water at 101.325 kPa in g/mL, 0 to 40 °C: a₅·(1 − (t + a₁)²·(t + a₂)/(a₃·(t +
 * a₄))). Tanaka, Girard, Davis, Peuto and Bignell, Metrologia 2001, 38, 301 (the CIPM's recommended
 * table); its uncertainty, below 10⁻⁶ g/mL, is left out.
 */
export function waterDensity(t_C: number): number {
  const share = ((t_C - 3.983035) ** 2 * (t_C + 301.797)) / (522528.9 * (t_C + 69.34881));
  return 0.99997495 * (1 - share);
}

/** Density of air near the ground in g/mL: common practice. */
export const AIR_G_ML = 0.0012;

/**
 * Density in g/mL from the masses that a balance shows for a pycnometer full of liquid and of water,
 * both less the empty one: ρ = (m/m_w)·(ρ_w − ρ_air) + ρ_air; with ρ_air = 0 without buoyancy.
 */
export function pycnometerDensity(
  sample_g: number,
  water_g: number,
  water_g_mL: number,
  air_g_mL: number,
): number {
  return (sample_g / water_g) * (water_g_mL - air_g_mL) + air_g_mL;
}

/**
 * Thermal expansion of organic liquids, 1/°C: 0.0008 (nitrobenzene) to 0.0016 (ether), 0.0013 for
 * the chlorinated ones (from memory); times a density of 0.85 g/mL the 0.0009 g/mL per °C of common
 * practice.
 */
export const USUAL_EXPANSION = 0.0011;
export const USUAL_EXPANSION_U = 0.00025;

/** ρ at another temperature in °C: ρ + k·(T − T′). */
export function densityAt(
  density_g_mL: number,
  T_C: number,
  other_C: number,
  fall_g_mL_perC: number,
): number {
  return density_g_mL + fall_g_mL_perC * (T_C - other_C);
}
