import { numberIn, rowsOf } from '../facts/table.ts';
import dryingTable from '../facts/drying_agents.json' with { type: 'json' };
import gasTable from '../facts/soluble_gases.json' with { type: 'json' };
import ruleTable from '../facts/phase_rules.json' with { type: 'json' };
import solventTable from '../facts/salt_solvents.json' with { type: 'json' };

/** The rules of thumb of data/phase_rules.csv, where each stands with its source. */
function rule(name: string): number {
  const row = rowsOf(ruleTable).find((r) => r['rule'] === name);
  const value = numberIn(row?.['value']);
  if (value === undefined) throw new Error(`data/phase_rules.csv has no figure for ${name}`);
  return value;
}

export const RULES = {
  waterShare: rule('water-share'),
  miscibleShare: rule('miscible-share'),
  organicToMiscible: rule('organic-to-miscible'),
  solidToLiquid: rule('solid-to-liquid'),
  saltSolventShare: rule('salt-solvent-share'),
  soluteDensity_g_mL: rule('solute-density_g_mL'),
  organicSoluteDensity_g_mL: rule('organic-solute-density_g_mL'),
  evaporateLimit_C: rule('evaporate-limit_C'),
  volatileGap_C: rule('volatile-gap_C'),
  distilTolerance_C: rule('distil-tolerance_C'),
  steamWater_g_g: rule('steam-water_g_g'),
  steamLimit_C: rule('steam-limit_C'),
  productShare: rule('product-share'),
  leftover_g: rule('leftover_g'),
} as const;

/** g of water that a gram of the agent can bind, by substance id. */
export const DRYING_CAPACITY_G_G: ReadonlyMap<string, number> = new Map(
  rowsOf(dryingTable).map((row) => [
    (row['agent'] ?? '').toLowerCase(),
    numberIn(row['capacity_g_g']) ?? 0,
  ]),
);

/** Gases that stay in water or alcohol, and the density that they count with there. */
export const DISSOLVED_GAS_DENSITY_G_ML: ReadonlyMap<string, number> = new Map(
  rowsOf(gasTable).map((row) => [
    (row['gas'] ?? '').toLowerCase(),
    numberIn(row['dissolved_density_g_mL']) ?? 1,
  ]),
);

/** Liquids other than water that dissolve salts. */
export const SALT_SOLVENTS: ReadonlySet<string> = new Set(
  rowsOf(solventTable).map((row) => (row['name'] ?? '').toLowerCase()),
);
