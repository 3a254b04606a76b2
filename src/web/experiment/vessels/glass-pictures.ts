import type { FlowColumn, FlowState } from '../../../core/report/flow/flow.ts';
import type { GlassState } from '../../../core/report/glass/glass.ts';
import { drawGlass, patterns } from '../../../picture/flow-sheet/draw-glass.ts';
import { glassesOf } from '../../../picture/flow-sheet/glass.ts';
import { pagePaint } from '../../../picture/flow-sheet/paint.ts';

export interface GlassPicture {
  readonly viewBox: string;
  readonly width: number;
  readonly height: number;
  readonly svg: string;
}

const PREFIX = 'glass';
/** Against the flow sheet. */
const BIGGER = 1.7;
const PITCH = 150;
const MARGIN = 4;

/** The glass of a step, all to one scale, bigger than on the flow sheet. */
export function glassPictures(states: readonly GlassState[]): ReadonlyMap<string, GlassPicture> {
  const glasses = glassesOf(states.map(columnOf), PITCH);
  return new Map(
    states.map((state) => {
      const { halfWidth_px, height_px } = glasses.get(state.vessel)!;
      const width = 2 * (halfWidth_px + MARGIN);
      const height = height_px + 2 * MARGIN;
      const place = { x: width / 2, bottom: height - MARGIN };
      const svg = drawGlass(flowState(state), glasses.get(state.vessel)!, place, pagePaint, PREFIX);
      const picture: GlassPicture = {
        viewBox: `0 0 ${width.toFixed(1)} ${height.toFixed(1)}`,
        width: width * BIGGER,
        height: height * BIGGER,
        svg,
      };
      return [state.vessel, picture];
    }),
  );
}

/** The patterns of the layers, once for all pictures. */
export const glassPatterns = (): string => patterns(pagePaint, PREFIX);

function columnOf({ vessel, name, shape, capacity_mL }: GlassState): FlowColumn {
  const nowhere = { firstStep: '', lastStep: '', firstRow: 0, lastRow: 0 };
  return { vessel, name, shape, capacity_mL, tared: false, ...nowhere };
}

function flowState({
  vessel,
  fill,
  volume_mL,
  mass_g,
  temperature_C,
  phases,
}: GlassState): FlowState {
  return {
    vessel,
    fill,
    volume_mL,
    mass_g,
    temperature_C,
    phases: phases.map((phase) => ({
      phase: phase.phase,
      volume_mL: phase.volume_mL,
      mass_g: phase.mass_g,
      share: null,
      contents: phase.contents.map(({ name, mass_g: of_g }) => ({ name, mass_g: of_g })),
    })),
  };
}
