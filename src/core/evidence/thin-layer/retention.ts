import type { Diagnostic } from '../../diagnostic.ts';
import type { Uncertain } from '../../quantity/uncertain.ts';
import {
  divide,
  fromHalfWidth,
  measured,
  standardUncertainty,
  subtract,
} from '../../quantity/uncertain.ts';
import type { ThinLayerEntered, ThinLayerMeasure, ThinLayerSpot } from './schema.ts';

/**
 * A reading of a ruler, or a tap, is good to ± this; a spot with a tail to twice as much. Common
 * practice.
 */
export const READING_mm = 0.5;
/** The run that a photograph without a scale is taken to show. Common practice. */
const USUAL_RUN_mm = 50;

export interface PlacedSpot {
  /** Places in the entered plate, from 0. */
  readonly lane: number;
  readonly spot: number;
  readonly entered: ThinLayerSpot;
  /** The retardation factor, with start, front and spot as separate measurements. */
  readonly rf: Uncertain;
}

export interface Placing {
  readonly spots: readonly PlacedSpot[];
  readonly diagnostics: readonly Diagnostic[];
}

/** Heights over the start line, in one unit, and what half a millimetre is in it. */
interface Heights {
  readonly front: number;
  readonly spot: number;
  readonly reading: number;
}

type Point = readonly [x: number, y: number];

/** Signed distance of a point from the line through a and b, in pixels. */
function offLine([x, y]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  return ((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / Math.hypot(bx - ax, by - ay);
}

/** How far along the line from a to b the foot of the perpendicular lies. */
function alongLine([x, y]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  return ((bx - ax) * (x - ax) + (by - ay) * (y - ay)) / Math.hypot(bx - ax, by - ay);
}

/** The height of the front above the start line where a spot stands. */
function frontOver(point: Point, measure: Extract<ThinLayerMeasure, { by: 'photograph' }>): number {
  const [a, b] = measure.start;
  const [first, second] = measure.front;
  const height = offLine(first, a, b);
  if (second === undefined) return height;
  const [from, to] = [alongLine(first, a, b), alongLine(second, a, b)];
  if (Math.abs(to - from) < 1e-9) return height;
  const share = (alongLine(point, a, b) - from) / (to - from);
  return height + share * (offLine(second, a, b) - height);
}

function heightsOf(
  entered: ThinLayerEntered,
  laneFront_mm: number | undefined,
  spot: ThinLayerSpot,
): Heights | undefined {
  const { measure } = entered;
  if (measure.by === 'ruler') {
    if (spot.position_mm === undefined) return undefined;
    return {
      front: (laneFront_mm ?? measure.front_mm) - measure.start_mm,
      spot: spot.position_mm - measure.start_mm,
      reading: READING_mm,
    };
  }
  if (spot.point === undefined) return undefined;
  const front = frontOver(spot.point, measure);
  // The front tells which side of the start line is up, however the photograph lies.
  const side = front < 0 ? -1 : 1;
  return {
    front: side * front,
    spot: side * offLine(spot.point, ...measure.start),
    reading: (READING_mm / (measure.run_mm ?? USUAL_RUN_mm)) * Math.abs(front),
  };
}

/**
 * Rf = (spot − start)/(front − start), each place with its own uncertainty (rectangular), so that
 * start and front, which all spots of a plate share, partly cancel between two of them. In a
 * photograph heights are distances perpendicular to the start line. IUPAC, Pure Appl. Chem. 1993,
 * 65, 819 (retardation factor).
 */
function rfOf(heights: Heights, tailing: boolean, ids: readonly [front: string, spot: string]) {
  const u = fromHalfWidth(heights.reading, 'rectangular');
  const start = measured('start', 0, u);
  const front = measured(ids[0], heights.front, u);
  const spot = measured(ids[1], heights.spot, tailing ? 2 * u : u);
  return divide(subtract(spot, start), subtract(front, start));
}

function problemOf(rf: Uncertain, where: string): Diagnostic | undefined {
  const slack = 2 * standardUncertainty(rf);
  if (rf.value > 1 + slack)
    return {
      code: 'tlc-spot-above-front',
      severity: 'error',
      message: `A spot in ${where} lies above the solvent front (Rf ${rf.value.toFixed(2)}).`,
      hint: 'Look again at the front and at the spot: no spot runs ahead of the solvent.',
    };
  if (rf.value < -slack)
    return {
      code: 'tlc-spot-below-start',
      severity: 'error',
      message: `A spot in ${where} lies below the start line (Rf ${rf.value.toFixed(2)}).`,
      hint: 'Look again at the start line and at the spot. Are both read on the same ruler?',
    };
  return undefined;
}

const NO_RUN: Diagnostic = {
  code: 'tlc-no-run',
  severity: 'error',
  message: 'The front is not above the start line.',
  hint: 'Enter the start line and the solvent front, marked at once when the plate came out.',
};

/** Every spot of a plate with its Rf; spots that cannot be where they are entered are left out. */
export function placeSpots(entered: ThinLayerEntered): Placing {
  const spots: PlacedSpot[] = [];
  const diagnostics: Diagnostic[] = [];
  const { measure } = entered;
  const flat = measure.by === 'photograph' && apart(measure.start[0], measure.start[1]) < 1;
  if (flat || (measure.by === 'ruler' && measure.front_mm - measure.start_mm < 2 * READING_mm))
    return { spots, diagnostics: [NO_RUN] };
  entered.lanes.forEach((lane, l) => {
    lane.spots.forEach((spot, s) => {
      const heights = heightsOf(entered, lane.front_mm, spot);
      const where = `lane ${l + 1}`;
      if (heights === undefined) {
        diagnostics.push(unmeasured(where, measure.by));
        return;
      }
      if (!(heights.front > 0)) {
        if (!diagnostics.includes(NO_RUN)) diagnostics.push(NO_RUN);
        return;
      }
      const front = lane.front_mm === undefined ? 'front' : `front.${l}`;
      const rf = rfOf(heights, spot.tailing === true, [front, `spot.${l}.${s}`]);
      const problem = problemOf(rf, where);
      if (problem === undefined) spots.push({ lane: l, spot: s, entered: spot, rf });
      else diagnostics.push(problem);
    });
  });
  return { spots, diagnostics };
}

function apart([x, y]: Point, [u, v]: Point): number {
  return Math.hypot(u - x, v - y);
}

function unmeasured(where: string, by: ThinLayerMeasure['by']): Diagnostic {
  return {
    code: 'tlc-spot-unmeasured',
    severity: 'warning',
    message:
      `A spot in ${where} has no ` + `${by === 'ruler' ? 'distance' : 'point on the photograph'}.`,
    hint: 'Measure it as the start line and the front were measured, or leave it out.',
  };
}
