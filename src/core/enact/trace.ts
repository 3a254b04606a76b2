import { numberIn, rowsOf } from '../facts/table.ts';
import timeTable from '../facts/step_times.json' with { type: 'json' };
import type { PhaseState, VesselState } from './enactment.ts';
import type { ProgramLine } from './program.ts';
import type { Run } from './run.ts';
import type { Shelf } from './shelf.ts';
import type { Vessel } from './vessel.ts';
import {
  AQUEOUS,
  NOTHING,
  ORGANIC,
  PHASES,
  SOLID,
  VAPOUR,
  phaseMass_g,
  volumeOf_mL,
} from './vessel.ts';

/** Minutes that a step takes where the document does not say: data/step_times.csv. */
const USUAL_MIN: ReadonlyMap<string, number> = new Map(
  rowsOf(timeTable).map((row) => [row['verb'] ?? '', numberIn(row['minutes']) ?? 0]),
);

/** How long a sentence takes: its waits and its addition as written, else the usual time. */
export function duration_min(line: ProgramLine): number {
  const waits_min = line.moves.map((move) => (move.kind === 'wait' ? (move.time_min ?? 0) : 0));
  let written_min = waits_min.reduce((sum, each) => sum + each, 0);
  // An addition that takes time may be a wait too; it is not counted twice. Nor is a time that no
  // wait carries (gas blown through a flask) passed over.
  const { over, time } = line.slots;
  const over_min = over?.kind === 'time' ? over.value : 0;
  if (!waits_min.includes(over_min)) written_min += over_min;
  if (written_min === 0 && time?.kind === 'time') written_min = time.value;
  return written_min > 0 ? written_min : (USUAL_MIN.get(line.verb) ?? 0);
}

/** Phases from the bottom up: solid, then liquids by density, the heavier first, then vapour. */
export function vesselState(run: Run, v: Vessel): VesselState {
  const { shelf } = run.compiled;
  const phases: PhaseState[] = [];
  let volume_mL = 0;
  let mass_g = 0;
  for (const phase of [SOLID, AQUEOUS, ORGANIC, VAPOUR]) {
    const state = phaseState(shelf, v, phase);
    if (state === undefined) continue;
    phases.push(state);
    if (phase === VAPOUR) continue;
    volume_mL += state.volume_mL ?? state.mass_g;
    mass_g += state.mass_g;
  }
  const aqueous = phases.findIndex((p) => p.phase === 'aqueous');
  const organic = phases[aqueous + 1];
  if (aqueous >= 0 && organic?.phase === 'organic') {
    const lower = phases[aqueous]!;
    if ((organic.density_g_mL ?? 0) > (lower.density_g_mL ?? 1)) {
      phases[aqueous] = organic;
      phases[aqueous + 1] = lower;
    }
  }
  return { vessel: v.plan.id, phases, volume_mL, mass_g, temperature_C: v.temperature_C };
}

function phaseState(shelf: Shelf, v: Vessel, phase: number): PhaseState | undefined {
  const mass_g = phaseMass_g(shelf, v, phase);
  if (mass_g <= NOTHING) return undefined;
  const held = v.held[phase]!;
  const contents: { substance: string; amount_mmol: number; mass_g: number }[] = [];
  for (let i = 0; i < held.length; i++) {
    const quantity = held[i]!;
    if (quantity <= NOTHING) continue;
    contents.push({
      substance: shelf.substances[i]!.id,
      amount_mmol: shelf.counted[i] ? quantity : 0,
      mass_g: quantity * shelf.g[i]!,
    });
  }
  const name = PHASES[phase]!;
  const volume_mL = phase === VAPOUR ? undefined : volumeOf_mL(shelf, held, phase);
  if (volume_mL === undefined || volume_mL <= 0) return { phase: name, contents, mass_g };
  return { phase: name, contents, mass_g, volume_mL, density_g_mL: mass_g / volume_mL };
}
