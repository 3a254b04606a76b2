import type { PhaseHint, Substance } from '../chemistry/substance.ts';
import { DISSOLVED_GAS_DENSITY_G_ML, DRYING_CAPACITY_G_G, RULES, SALT_SOLVENTS } from './rules.ts';

/**
 * Every substance that an experiment can meet, by a small number instead of its name, with the
 * facts that the kernel asks for thousands of times. A quantity in the kernel is in mmol where the
 * substance has a molar mass and in g where it has none.
 */
export interface Shelf {
  readonly substances: Substance[];
  readonly byId: Map<string, number>;
  /** g for one unit of quantity. */
  readonly g: number[];
  readonly counted: boolean[];
  readonly hint: PhaseHint[];
  /** Infinity where it is not known to boil, NaN where not known. */
  readonly boil_C: number[];
  readonly melt_C: number[];
  readonly density_g_mL: number[];
  /** What it counts with in a liquid phase. */
  readonly solvedDensity_g_mL: number[];
  /** A gas by itself at room temperature. */
  readonly gaseous: boolean[];
  /** Stays in water or alcohol though it is a gas. */
  readonly staysDissolved: boolean[];
  /** Comes dissolved in something (hydrogen chloride in ether): stays in any liquid. */
  readonly inSolution: boolean[];
  readonly dissolvesSalts: boolean[];
  readonly capacity_g_g: number[];
}

export function emptyShelf(): Shelf {
  return {
    substances: [],
    byId: new Map(),
    g: [],
    counted: [],
    hint: [],
    boil_C: [],
    melt_C: [],
    density_g_mL: [],
    solvedDensity_g_mL: [],
    gaseous: [],
    staysDissolved: [],
    inSolution: [],
    dissolvesSalts: [],
    capacity_g_g: [],
  };
}

/** The number of a substance; it is put on the shelf if it is new. */
export function place(shelf: Shelf, substance: Substance): number {
  const known = shelf.byId.get(substance.id);
  if (known !== undefined) return known;
  const i = shelf.substances.length;
  const molarMass = substance.molarMass_g_mol;
  const counted = molarMass !== undefined && Number.isFinite(molarMass) && molarMass >= 0;
  const density = substance.density_g_mL ?? NaN;
  shelf.substances.push(substance);
  shelf.byId.set(substance.id, i);
  shelf.g.push(counted ? molarMass / 1000 : 1);
  shelf.counted.push(counted);
  shelf.hint.push(substance.phase);
  shelf.boil_C.push(substance.boilingPoint_C ?? NaN);
  shelf.melt_C.push(substance.meltingPoint_C ?? NaN);
  const gaseous = substance.phase === 'gas' || substance.state === 'gas';
  shelf.gaseous.push(gaseous);
  shelf.inSolution.push(false);
  shelf.density_g_mL.push(gaseous ? NaN : density);
  const gasDensity = DISSOLVED_GAS_DENSITY_G_ML.get(substance.id);
  const organicSolid = substance.phase === 'organic' && !isLiquidByFacts(substance);
  const soluteDensity =
    substance.phase === 'salt'
      ? RULES.soluteDensity_g_mL
      : organicSolid
        ? RULES.organicSoluteDensity_g_mL
        : NaN;
  shelf.solvedDensity_g_mL.push(
    gasDensity ?? (gaseous || Number.isNaN(density) ? soluteDensity : density),
  );
  shelf.staysDissolved.push(gaseous && gasDensity !== undefined);
  shelf.dissolvesSalts.push(SALT_SOLVENTS.has(substance.id));
  shelf.capacity_g_g.push(DRYING_CAPACITY_G_G.get(substance.id) ?? 0);
  return i;
}

function isLiquidByFacts({ state, meltingPoint_C }: Substance): boolean {
  return state === 'liquid' || (state !== 'solid' && !((meltingPoint_C ?? -Infinity) > 20));
}

/** In an ice bath a liquid of the shelf (benzene, acetic acid) is not taken for frozen. */
function handling_C(temperature_C: number): number {
  return Math.max(temperature_C, 20);
}

/** Liquid at a temperature: by its state, or by a melting point not above it. */
export function isLiquid(shelf: Shelf, i: number, temperature_C: number): boolean {
  if (shelf.gaseous[i]) return false;
  return shelf.substances[i]!.state === 'liquid' || shelf.melt_C[i]! <= handling_C(temperature_C);
}

/** An organic substance that stands as a solid: by its melting point, else by its state. */
export function isOrganicSolid(shelf: Shelf, i: number, temperature_C: number): boolean {
  if (shelf.hint[i] !== 'organic') return false;
  const melt_C = shelf.melt_C[i]!;
  if (!Number.isNaN(melt_C)) return melt_C > handling_C(temperature_C);
  return shelf.substances[i]!.state === 'solid';
}

/** Matter that is known by its mass alone. */
export function plainMatter(name: string, phase: PhaseHint): Substance {
  return {
    id: name,
    name,
    synonyms: [],
    state: 'solid',
    phase,
    origin: 'document',
    sources: {},
    hazardCodes: [],
  };
}
