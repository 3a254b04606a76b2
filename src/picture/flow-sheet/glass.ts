import type { FlowColumn, FlowState } from '../../core/report/flow/flow.ts';
import { levelAt, heightOf, volumeOf } from './profile.ts';
import type { Profile } from './profile.ts';
import { SHAPES, extentOf, unit_cm } from './shapes.ts';
import type { Shape } from './shapes.ts';
import type { DrawnPhase } from './theme.ts';

/** A vessel at the scale of its sheet. */
export interface Glass {
  readonly shape: Shape;
  /** One length of the shape's profile. */
  readonly unit_px: number;
  /** Without a capacity neither size nor fill are to scale, and its outline is broken. */
  readonly toScale: boolean;
  readonly halfWidth_px: number;
  readonly height_px: number;
  /** From where it stands to the bottom of its contents: a stem, a foot. */
  readonly below_px: number;
}

const TALLEST_px = 96;
/** Smaller glass could not be read: it is drawn at this height, its fill still to scale. */
const SHORTEST_px = 34;
const UNKNOWN_px = 54;
/** Of the distance between columns, so that words fit beside it. */
const WIDEST = 0.26;
/** Of a vessel whose capacity is not known. */
const UNKNOWN_FILL = 0.4;

/** Every vessel at one scale, so many px a cm that the largest just fits. */
export function glassesOf(
  columns: readonly FlowColumn[],
  pitch: number,
): ReadonlyMap<string, Glass> {
  const scale = Math.min(
    ...columns.map(({ shape, capacity_mL }) => {
      if (capacity_mL === null || !(capacity_mL > 0)) return Infinity;
      const cm = unit_cm(SHAPES[shape], capacity_mL);
      return largestUnit_px(SHAPES[shape], TALLEST_px, pitch) / cm;
    }),
  );
  return new Map(columns.map((column) => [column.vessel, glassOf(column, scale, pitch)]));
}

function largestUnit_px(shape: Shape, tallest_px: number, pitch: number): number {
  const { halfWidth, above, below } = extentOf(shape);
  return Math.min(tallest_px / (above + below), (WIDEST * pitch) / halfWidth);
}

function glassOf({ shape, capacity_mL }: FlowColumn, scale: number, pitch: number): Glass {
  const drawn = SHAPES[shape];
  const { halfWidth, above, below } = extentOf(drawn);
  const toScale = capacity_mL !== null && capacity_mL > 0 && Number.isFinite(scale);
  const unit_px = toScale
    ? Math.max(unit_cm(drawn, capacity_mL) * scale, largestUnit_px(drawn, SHORTEST_px, pitch))
    : largestUnit_px(drawn, UNKNOWN_px, pitch);
  return {
    shape: drawn,
    unit_px,
    toScale,
    halfWidth_px: halfWidth * unit_px,
    height_px: (above + below) * unit_px,
    below_px: below * unit_px,
  };
}

export interface Layer {
  readonly phase: DrawnPhase;
  /** Over the bottom of the contents, in lengths of the profile. */
  readonly from: number;
  readonly to: number;
}

/** A thinner layer would be lost, and with it what the step is about. */
export const THINNEST_px = 2.4;

export const roomOf = ({ body, neck }: Shape): Profile => [...body, ...neck];

/** Where each phase stands, from the bottom up: the height of a volume follows from the shape. */
export function layersOf(state: FlowState, glass: Glass): Layer[] {
  const seen = state.phases.flatMap(({ phase, volume_mL, mass_g }) =>
    phase === 'vapour' || !(mass_g > 0) ? [] : [{ phase, bulk: volume_mL ?? mass_g }],
  );
  const total = seen.reduce((sum, { bulk }) => sum + bulk, 0);
  if (!(total > 0)) return [];
  const room = roomOf(glass.shape);
  const fill = glass.toScale && state.fill !== null ? state.fill : UNKNOWN_FILL;
  const volume = fill * volumeOf(glass.shape.body);
  const brim = heightOf(room);
  let below = 0;
  let from = 0;
  return seen.map(({ phase, bulk }) => {
    below += bulk;
    const level = levelAt(room, (volume * below) / total);
    const to = Math.min(brim, Math.max(level, from + THINNEST_px / glass.unit_px));
    const layer = { phase, from, to };
    from = to;
    return layer;
  });
}
