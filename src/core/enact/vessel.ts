import type { PhaseName } from '../experiment/move.ts';
import type { VesselShape } from '../experiment/step.ts';
import type { Account } from '../ledger/account.ts';
import type { Shelf } from './shelf.ts';
import type { PlannedUse } from './charge.ts';

export const PHASES: readonly PhaseName[] = ['solid', 'organic', 'aqueous', 'vapour'];
export const SOLID = 0;
export const ORGANIC = 1;
export const AQUEOUS = 2;
export const VAPOUR = 3;

/** Below this many mmol (or g, of matter without a formula) there is nothing. */
export const NOTHING = 1e-9;

/** Matter on its way in: it is posted to the phase that settling finds for it. */
export interface Incoming {
  readonly from: Account;
  readonly substance: number;
  readonly quantity: number;
  readonly basis: number;
}

/** A reagent taken "in excess" or "until ...": a declared reaction draws what it needs. */
export interface Supply {
  readonly planned: PlannedUse;
  readonly substance: number;
  /** The line that brings it, in which fast side reactions may draw on it too. */
  readonly sideLine: number;
}

/** What the whole experiment knows of a vessel. */
export interface VesselPlan {
  readonly id: string;
  readonly name: string;
  readonly shape: VesselShape;
  readonly capacity_mL?: number;
  /** By phase. */
  readonly accounts: readonly Account[];
}

/** A vessel inside one run; private to the kernel. */
export interface Vessel {
  readonly plan: VesselPlan;
  /** By phase, then by substance. */
  readonly held: readonly Float64Array[];
  /** The part of the solid that stays solid whatever settling says: crystals, bound water. */
  readonly pinned: Float64Array;
  /** How the quantity of each substance is known: 0 measured, 1 planned, 2 assumed. */
  readonly basis: Uint8Array;
  /** Declared reactions that have run in this matter, and no reactant came since. */
  readonly ran: Uint8Array;
  /** Gases led in for a reaction, which wait for it. */
  readonly gasWaits: Uint8Array;
  incoming: Incoming[];
  supplies: Supply[];
  temperature_C: number;
  dirty: boolean;
  /** Sorted by a split: settling waits until the parts are taken or new matter comes. */
  sorted: boolean;
  everHeld: boolean;
  /** Something without a figure went in: what it holds is not wholly known. */
  unknown: boolean;
  closed: boolean;
  refluxing: boolean;
  /** Weighed while it held the product. */
  weighed: boolean;
  touchedInLine: number;
}

export function newVessel(
  plan: VesselPlan,
  substances: number,
  reactions: number,
  room_C: number,
): Vessel {
  return {
    plan,
    held: [0, 1, 2, 3].map(() => new Float64Array(substances)),
    pinned: new Float64Array(substances),
    basis: new Uint8Array(substances),
    ran: new Uint8Array(reactions),
    gasWaits: new Uint8Array(substances),
    incoming: [],
    supplies: [],
    temperature_C: room_C,
    dirty: false,
    sorted: false,
    everHeld: false,
    unknown: false,
    closed: false,
    refluxing: false,
    weighed: false,
    touchedInLine: -1,
  };
}

/** Quantity of one substance over all phases. */
export function quantityIn(v: Vessel, i: number): number {
  const h = v.held;
  return h[0]![i]! + h[1]![i]! + h[2]![i]! + h[3]![i]!;
}

export function phaseMass_g(shelf: Shelf, v: Vessel, phase: number): number {
  const held = v.held[phase]!;
  let mass_g = 0;
  for (let i = 0; i < held.length; i++) mass_g += held[i]! * shelf.g[i]!;
  return mass_g;
}

/** What stands in the vessel, without what is vapour above it. */
export function contentsMass_g(shelf: Shelf, v: Vessel): number {
  return (
    phaseMass_g(shelf, v, SOLID) + phaseMass_g(shelf, v, ORGANIC) + phaseMass_g(shelf, v, AQUEOUS)
  );
}

/**
 * Volume (mL) of a quantity of each substance standing in one phase, volumes taken as additive.
 * Undefined where a density is wanting for more than a tenth of the mass; less than that counts
 * with the density of the rest.
 */
export function volumeOf_mL(
  shelf: Shelf,
  held: ArrayLike<number>,
  phase: number,
  share = 1,
): number | undefined {
  const density = phase === SOLID ? shelf.density_g_mL : shelf.solvedDensity_g_mL;
  let known_g = 0;
  let known_mL = 0;
  let unknown_g = 0;
  for (let i = 0; i < held.length; i++) {
    const quantity = held[i]!;
    if (quantity <= 0) continue;
    const mass_g = quantity * shelf.g[i]! * share;
    const rho = density[i]!;
    if (rho > 0) {
      known_g += mass_g;
      known_mL += mass_g / rho;
    } else unknown_g += mass_g;
  }
  if (known_g === 0) return unknown_g === 0 ? 0 : undefined;
  if (unknown_g > 0.1 * (known_g + unknown_g)) return undefined;
  return (known_mL * (known_g + unknown_g)) / known_g;
}

/** Volume of all that stands in the vessel; a phase of unknown density counts with 1 g/mL. */
export function contentsVolume_mL(shelf: Shelf, v: Vessel): number {
  let volume_mL = 0;
  for (let phase = SOLID; phase <= AQUEOUS; phase++)
    volume_mL += volumeOf_mL(shelf, v.held[phase]!, phase) ?? phaseMass_g(shelf, v, phase);
  return volume_mL;
}

/** Density of one phase, undefined where it is empty or not known. */
export function phaseDensity_g_mL(shelf: Shelf, v: Vessel, phase: number): number | undefined {
  const volume_mL = volumeOf_mL(shelf, v.held[phase]!, phase);
  const mass_g = phaseMass_g(shelf, v, phase);
  return volume_mL === undefined || volume_mL <= 0 || mass_g <= 0 ? undefined : mass_g / volume_mL;
}
