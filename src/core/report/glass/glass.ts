import type { Enactment, PhaseState, VesselState } from '../../enact/enactment.ts';
import type { PhaseName } from '../../experiment/move.ts';
import type { Experiment, VesselShape } from '../../experiment/step.ts';
import type { Basis } from '../../ledger/posting.ts';
import { nameOf } from '../common/name.ts';
import { basesAt } from './bases.ts';

export interface GlassContent {
  readonly substance: string;
  readonly name: string;
  /** null: matter without a formula, which is followed by mass. */
  readonly amount_mmol: number | null;
  readonly mass_g: number;
  /** Of a liquid whose density is known, taken as additive; null for what is dissolved or solid. */
  readonly volume_mL: number | null;
  readonly basis: Basis;
}

export interface GlassPhase {
  readonly phase: PhaseName;
  readonly volume_mL: number | null;
  readonly mass_g: number;
  /** The heaviest first. */
  readonly contents: readonly GlassContent[];
}

/** What a vessel holds after a step. */
export interface GlassState {
  readonly vessel: string;
  readonly name: string;
  readonly shape: VesselShape;
  readonly capacity_mL: number | null;
  /** Of the capacity; may be over 1. null where that is not known. */
  readonly fill: number | null;
  readonly volume_mL: number;
  readonly mass_g: number;
  readonly temperature_C: number;
  /** From the bottom up. */
  readonly phases: readonly GlassPhase[];
  /** The step acted on it. */
  readonly touched: boolean;
}

/** undefined where the step is not there, or the vessel has not been used by then. Needs a trace. */
export function vesselAt(
  experiment: Experiment,
  enactment: Enactment,
  step: string,
  vessel: string,
): GlassState | undefined {
  return stateAfter(enactment, step, vessel, glassOf(experiment, enactment, step));
}

/** The vessels that hold something after a step, and those that it emptied; in the order of first use. */
export function vesselsAt(
  experiment: Experiment,
  enactment: Enactment,
  step: string,
): GlassState[] {
  const make = glassOf(experiment, enactment, step);
  const used = new Set<string>();
  for (const { vessels, step: each } of enactment.trace) {
    for (const { vessel } of vessels) used.add(vessel);
    if (each === step) break;
  }
  return [...used].flatMap((vessel) => {
    const state = stateAfter(enactment, step, vessel, make);
    return state === undefined || (state.phases.length === 0 && !state.touched) ? [] : [state];
  });
}

type Make = (state: VesselState, touched: boolean) => GlassState;

function stateAfter(
  { trace }: Enactment,
  step: string,
  vessel: string,
  make: Make,
): GlassState | undefined {
  const at = trace.findIndex((each) => each.step === step);
  for (let row = at; row >= 0; row--) {
    const state = trace[row]!.vessels.find((each) => each.vessel === vessel);
    if (state !== undefined) return make(state, row === at);
  }
  return undefined;
}

function glassOf(experiment: Experiment, enactment: Enactment, step: string): Make {
  const bases = basesAt(enactment, step);
  return (state, touched) => {
    const { vessel, volume_mL, mass_g, temperature_C } = state;
    const declared = experiment.vessels.find((each) => each.id === vessel);
    const capacity_mL = declared?.capacity_mL ?? null;
    const basisOf = (substance: string): Basis => bases(vessel, substance);
    return {
      vessel,
      name: declared?.name ?? vessel,
      shape: declared?.shape ?? 'other',
      capacity_mL,
      fill: capacity_mL === null || capacity_mL <= 0 ? null : volume_mL / capacity_mL,
      volume_mL,
      mass_g,
      temperature_C,
      phases: state.phases.map((phase) => phaseOf(phase, enactment, basisOf)),
      touched,
    };
  };
}

function phaseOf(
  { phase, volume_mL, mass_g, contents }: PhaseState,
  enactment: Enactment,
  basisOf: (substance: string) => Basis,
): GlassPhase {
  const liquid = phase === 'organic' || phase === 'aqueous';
  return {
    phase,
    volume_mL: volume_mL ?? null,
    mass_g,
    contents: [...contents]
      .sort((a, b) => b.mass_g - a.mass_g)
      .map((each) => {
        const known = enactment.substances.get(each.substance);
        const density = liquid && known?.state === 'liquid' ? known.density_g_mL : undefined;
        return {
          substance: each.substance,
          name: nameOf(enactment, each.substance),
          amount_mmol: each.amount_mmol > 0 ? each.amount_mmol : null,
          mass_g: each.mass_g,
          volume_mL: density === undefined ? null : each.mass_g / density,
          basis: basisOf(each.substance),
        };
      }),
  };
}
