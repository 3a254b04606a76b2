import type { Uncertain } from '../../quantity/uncertain.ts';
import { apply, fromHalfWidth, measured, standardUncertainty } from '../../quantity/uncertain.ts';
import { fixed, plusMinus } from '../melting/compare.ts';
import type { DerivationStep } from '../statement.ts';
import type { DensityEntered } from './schema.ts';
import { AIR_G_ML, pycnometerDensity, waterDensity } from './water.ts';

/** Of a temperature that was read, °C, and of a filling, relative: common practice. */
export const READING_C = 0.5;
const FILLING_U = 0.0002;
const READABILITY_G = 0.001;
/** Half-width of what an instrument shows, g/mL: common practice for a small pipette or a hydrometer. */
const SHOWN = 0.002;

export interface Measured {
  readonly density: Uncertain;
  readonly steps: readonly DerivationStep[];
}

const STEPS_OF: {
  readonly [K in DensityEntered['by']['kind']]: (
    by: Extract<DensityEntered['by'], { kind: K }>,
    T_C: number,
  ) => Measured;
} = {
  pycnometer(by, T_C) {
    const u_g = fromHalfWidth(2 * (by.readability_g ?? READABILITY_G), 'rectangular');
    const waterT_C = by.waterT_C ?? T_C;
    const air_g_mL = by.buoyancy === false ? 0 : AIR_G_ML;
    const density = apply(
      (empty, water, sample, t, filling) =>
        filling * pycnometerDensity(sample - empty, water - empty, waterDensity(t), air_g_mL),
      [
        measured('empty', by.empty_g, u_g),
        measured('with water', by.withWater_g, u_g),
        measured('with the sample', by.withSample_g, u_g),
        measured('temperature of the water', waterT_C, fromHalfWidth(READING_C, 'rectangular')),
        measured('filling', 1, FILLING_U),
      ],
    );
    const water_g = by.withWater_g - by.empty_g;
    const water_g_mL = waterDensity(waterT_C);
    return {
      density,
      steps: [
        {
          label: `Density of water at ${fixed(waterT_C, 1)} °C`,
          value: `${fixed(water_g_mL, 5)} g/mL`,
          source: 'Tanaka et al., Metrologia 2001, 38, 301',
        },
        {
          label: 'Volume of the pycnometer',
          formula: 'm_water/(ρ_water − ρ_air)',
          value: `${fixed(water_g / (water_g_mL - air_g_mL), 4)} mL`,
        },
        {
          label: 'Density of the sample',
          formula: '(m/m_water)·(ρ_water − ρ_air) + ρ_air',
          value: `${plusMinus(density.value, standardUncertainty(density))} g/mL`,
          source:
            air_g_mL === 0 ? 'without the buoyancy of air' : 'air 0.0012 g/mL: common practice',
        },
      ],
    };
  },
  shown(by, T_C) {
    const u = fromHalfWidth(by.tolerance_g_mL ?? SHOWN, 'rectangular');
    return {
      density: measured('reading', by.density_g_mL, u),
      steps: [
        { label: 'Shown', value: `${fixed(by.density_g_mL, 4)} g/mL at ${fixed(T_C, 1)} °C` },
      ],
    };
  },
};

export function measuredOf({ by, T_C }: DensityEntered): Measured {
  return by.kind === 'pycnometer' ? STEPS_OF.pycnometer(by, T_C) : STEPS_OF.shown(by, T_C);
}
