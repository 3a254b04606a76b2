import conventionTable from '../facts/solution_conventions.json' with { type: 'json' };
import densityTable from '../facts/solution_density.json' with { type: 'json' };
import solubilityTable from '../facts/solubility.json' with { type: 'json' };
import { numberIn, rowsOf } from '../facts/table.ts';
import type { Table } from '../facts/table.ts';

/** One tabulated aqueous solution. */
interface Point {
  readonly massFraction: number;
  readonly density_g_mL: number;
  readonly source: string;
}

/** Density of the aqueous solutions of one solute at one temperature, by rising strength. */
export interface DensityCurve {
  readonly points: readonly Point[];
  readonly temperature_C: number;
}

export interface DensityReading {
  readonly density_g_mL: number;
  readonly temperature_C: number;
  readonly source: string;
  /** The strength lies beyond the last row of the table. */
  readonly beyond: boolean;
}

const WATER: Point = {
  massFraction: 0,
  density_g_mL: 0.9982,
  source: 'Kell equation for water at 20 °C',
};
/** How far, in mass fraction, the last interval may be drawn on beyond the table. */
const REACH = 0.03;

const curves = new Map<string, DensityCurve | undefined>();

/** The rows of one solute only: a document needs few of the many that are tabulated. */
function rowsFor(table: Table, solute: string): Record<string, string>[] {
  const column = table.columns.indexOf('solute');
  const rows = table.rows.filter((row) => String(row[column]).toLowerCase() === solute);
  return rowsOf({ ...table, rows });
}

function readCurve(soluteId: string): DensityCurve | undefined {
  const rows = rowsFor(densityTable, soluteId);
  if (rows.length === 0) return undefined;
  const points = rows.map((row) => ({
    massFraction: numberIn(row['mass_percent'])! / 100,
    density_g_mL: numberIn(row['density_g_mL'])!,
    source: row['source']!,
  }));
  return { points: [WATER, ...points], temperature_C: numberIn(rows[0]!['temperature_C'])! };
}

export function densityCurve(soluteId: string): DensityCurve | undefined {
  if (!curves.has(soluteId)) curves.set(soluteId, readCurve(soluteId));
  return curves.get(soluteId);
}

/** The strongest solution that the table can speak of. */
export function strongest(curve: DensityCurve): number {
  return Math.min(1, curve.points.at(-1)!.massFraction + REACH);
}

/**
 * Density (g/mL) at a mass fraction, between two rows by their specific volumes, which is exact
 * for rows and for ideal mixing (Laliberté & Cooper, J. Chem. Eng. Data 2004, 49, 1141).
 * Undefined further than 3 mass percent beyond the table.
 */
export function densityOn(curve: DensityCurve, massFraction: number): DensityReading | undefined {
  const { points, temperature_C } = curve;
  if (!(massFraction >= 0) || massFraction > strongest(curve) + 1e-12) return undefined;
  let upper = points.findIndex((point) => point.massFraction >= massFraction - 1e-12);
  const beyond = upper < 0;
  if (beyond) upper = points.length - 1;
  const high = points[Math.max(1, upper)]!;
  const low = points[Math.max(1, upper) - 1]!;
  const share = (massFraction - low.massFraction) / (high.massFraction - low.massFraction);
  const volume = (1 - share) / low.density_g_mL + share / high.density_g_mL;
  return { density_g_mL: 1 / volume, temperature_C, source: high.source, beyond };
}

/**
 * The mass fraction at which a quantity that rises with strength takes a value, by bisection;
 * undefined where the table does not reach that far.
 */
export function massFractionWhere(
  curve: DensityCurve,
  quantity: (massFraction: number, density_g_mL: number) => number,
  value: number,
): number | undefined {
  const at = (w: number): number => quantity(w, densityOn(curve, w)!.density_g_mL);
  let low = 0;
  let high = strongest(curve);
  const most = at(high);
  // 17.45 mol/L acetic acid is the pure acid, though its density gives 17.446.
  if (high === 1 && value > most && value < 1.001 * most) return 1;
  if (value < at(low) || value > most) return undefined;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (at(middle) < value) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * The weakest solution of a density (g/mL): a sulfuric acid of 1.8355 is 96 %, though 100 % is
 * lighter than 98 %. A density up to 0.01 g/mL past the densest row is taken as that row.
 */
export function massFractionOfDensity(curve: DensityCurve, density: number): number | undefined {
  const { points } = curve;
  for (let i = 1; i < points.length; i++) {
    const low = points[i - 1]!;
    const high = points[i]!;
    const inside = (density - low.density_g_mL) * (density - high.density_g_mL) <= 0;
    if (!inside || low.density_g_mL === high.density_g_mL) continue;
    const share =
      (1 / density - 1 / low.density_g_mL) / (1 / high.density_g_mL - 1 / low.density_g_mL);
    return low.massFraction + share * (high.massFraction - low.massFraction);
  }
  const extreme = points.reduce((best, point) =>
    Math.abs(point.density_g_mL - density) < Math.abs(best.density_g_mL - density) ? point : best,
  );
  return Math.abs(extreme.density_g_mL - density) <= 0.01 ? extreme.massFraction : undefined;
}

export interface Solubility {
  /** Grams of dissolved (anhydrous) solute in a gram of saturated solution. */
  readonly massFraction: number;
  readonly source: string;
}

interface SolubilityPoint {
  readonly T: number;
  readonly w: number;
  readonly source: string;
}

const solubilities = new Map<string, readonly SolubilityPoint[]>();

function solubilitiesOf(soluteId: string): readonly SolubilityPoint[] {
  let rows = solubilities.get(soluteId);
  if (rows === undefined) {
    rows = rowsFor(solubilityTable, soluteId).map((row) => ({
      T: numberIn(row['temperature_C'])!,
      w: numberIn(row['mass_percent'])! / 100,
      source: row['source']!,
    }));
    solubilities.set(soluteId, rows);
  }
  return rows;
}

/** Saturated aqueous solution, interpolated between tabulated temperatures; never beyond them. */
export function solubilityInWater(soluteId: string, temperature_C = 20): Solubility | undefined {
  const rows = solubilitiesOf(soluteId);
  const upper = rows.findIndex((row) => row.T >= temperature_C);
  const high = rows[upper];
  if (high === undefined) return undefined;
  if (high.T === temperature_C) return { massFraction: high.w, source: high.source };
  const low = rows[upper - 1];
  if (low === undefined) return undefined;
  const share = (temperature_C - low.T) / (high.T - low.T);
  return { massFraction: low.w + share * (high.w - low.w), source: high.source };
}

export interface Convention {
  /** Equivalents in a mole, for normality. */
  readonly equivalents?: number;
  /** What a bare percentage of it in water means. */
  readonly percentBasis?: 'mass' | 'volume';
  /** What `dilute` means of it. */
  readonly dilute_mol_L?: number;
  readonly source: string;
}

let conventions: ReadonlyMap<string, Convention> | undefined;

/** What the trade means by normality, a bare percentage and `dilute` for one substance. */
export function conventionOf(substanceId: string): Convention | undefined {
  conventions ??= new Map(
    rowsOf(conventionTable).map((row) => {
      const equivalents = numberIn(row['equivalents']);
      const dilute_mol_L = numberIn(row['dilute_mol_L']);
      const basis = row['percent_basis'];
      const convention: Convention = {
        source: row['source']!,
        ...(equivalents !== undefined && { equivalents }),
        ...((basis === 'mass' || basis === 'volume') && { percentBasis: basis }),
        ...(dilute_mol_L !== undefined && { dilute_mol_L }),
      };
      return [row['substance']!.toLowerCase(), convention];
    }),
  );
  return conventions.get(substanceId);
}
