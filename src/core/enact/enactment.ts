import type { Diagnostic } from '../diagnostic.ts';
import type { Material } from '../chemistry/material.ts';
import type { Substance } from '../chemistry/substance.ts';
import type { PhaseName } from '../experiment/move.ts';
import type { Basis, Posting } from '../ledger/posting.ts';

/** One taking of a material from the stock, worked out. */
export interface Charge {
  readonly step: string;
  /** The id of the use in the document ("3.1"). */
  readonly use: string;
  readonly name: string;
  readonly material: Material;
  readonly vessel: string;
  readonly repeat: number;
  /** Totals over the repeats. */
  readonly mass_g: number;
  readonly volume_mL?: number;
  /** Of the material's own substance (the solute of a solution), purity counted. */
  readonly amount_mmol?: number;
  /** Which of the amounts written was taken as the measure of the rest. */
  readonly measuredAs: 'mass' | 'volume' | 'amount' | 'equivalents' | 'excess' | 'unquantified';
  /** One unit of the last figure written (of one taking) or read, in g, mL or mmol by `measuredAs`. */
  readonly lastDigit?: number;
  readonly basis: Basis;
  /** Plain-words assumptions: a density, a strength, 0.05 mL a drop. */
  readonly assumed: readonly string[];
}

/** What stood ready when a reaction ran, and how far it went. */
export interface ReactionRun {
  readonly step: string;
  readonly reaction: string;
  readonly kind: 'declared' | 'side';
  readonly vessel: string;
  /** Before the reaction, in the vessel; Infinity for a reactant given in excess without a figure. */
  readonly available: readonly {
    readonly substance: string;
    readonly coefficient: number;
    readonly amount_mmol: number;
  }[];
  readonly formed: readonly {
    readonly substance: string;
    readonly coefficient: number;
    readonly amount_mmol: number;
  }[];
  readonly extent_mmol: number;
  /** The substance that ran out first. */
  readonly limiting: string;
  readonly basis: Basis;
}

export interface PhaseState {
  readonly phase: PhaseName;
  readonly contents: readonly {
    readonly substance: string;
    readonly amount_mmol: number;
    readonly mass_g: number;
  }[];
  readonly mass_g: number;
  /** Undefined where a density is not known for what makes up more than a tenth of the mass. */
  readonly volume_mL?: number;
  readonly density_g_mL?: number;
}

/** What a vessel holds after a step; the phases from the bottom up. */
export interface VesselState {
  readonly vessel: string;
  readonly phases: readonly PhaseState[];
  readonly volume_mL: number;
  readonly mass_g: number;
  readonly temperature_C: number;
}

/** Gas that left in a step. */
export interface GasRelease {
  readonly step: string;
  readonly vessel: string;
  readonly substance: string;
  readonly amount_mmol: number;
  /** At 20 °C and 101.325 kPa, from the ideal gas law. */
  readonly volume_L: number;
}

/** Something weighed or looked at, with what the ledger says should be there. */
export interface ObservationEvent {
  readonly step: string;
  readonly vessel: string;
  readonly observation: string;
  readonly detail?: string;
  /** What the ledger holds in the vessel at this moment. */
  readonly expected_g: number;
  readonly measured_g?: number;
}

/** One passage of matter for the flow sheet: stock to vessel, vessel to vessel, vessel to what leaves. */
export interface Passage {
  readonly step: string;
  readonly from: string;
  readonly to: string;
  readonly label: string;
  readonly mass_g: number;
  readonly volume_mL?: number;
  readonly basis: Basis;
  /** Led in or driven off as a gas. */
  readonly gas?: true;
}

export interface StepTrace {
  readonly step: string;
  /** Minutes from the start, waits as written (assumed where a figure is missing). */
  readonly start_min: number;
  readonly duration_min: number;
  readonly passages: readonly Passage[];
  /** The vessels that the step touched, as they stand after it. */
  readonly vessels: readonly VesselState[];
}

/** A run of the interpreter: the plan, or one bench with its records put in place. */
export interface Enactment {
  readonly kind: 'plan' | 'bench';
  readonly postings: readonly Posting[];
  readonly charges: readonly Charge[];
  readonly reactions: readonly ReactionRun[];
  readonly gases: readonly GasRelease[];
  readonly observations: readonly ObservationEvent[];
  /** Empty when the policy asks for no trace (ten thousand benches at once). */
  readonly trace: readonly StepTrace[];
  /** What every vessel holds at the end. */
  readonly final: readonly VesselState[];
  readonly substances: ReadonlyMap<string, Substance>;
  /** Amounts that were written without a figure, and so are not counted. */
  readonly unquantified: readonly {
    readonly step: string;
    readonly name: string;
    readonly text: string;
  }[];
  readonly diagnostics: readonly Diagnostic[];
}
