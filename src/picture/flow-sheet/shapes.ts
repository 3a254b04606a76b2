import type { VesselShape } from '../../core/experiment/step.ts';
import { heightOf, volumeOf, widestRadius } from './profile.ts';
import type { Profile, Section } from './profile.ts';

/** A piece of glass beside the room for the contents, in the lengths of its profile. */
export type Fitting =
  /** A closed piece, through which nothing behind it shows. */
  | { readonly kind: 'piece'; readonly points: readonly (readonly [x: number, z: number])[] }
  | { readonly kind: 'line'; readonly points: readonly (readonly [x: number, z: number])[] }
  | { readonly kind: 'stopper'; readonly z: number; readonly width: number }
  | { readonly kind: 'tap'; readonly z: number };

export interface Shape {
  /** What the nominal capacity fills. Proportions are common practice: docs/methods/flow-sheet.md. */
  readonly body: Profile;
  /** Neck or free board over it: what is too much stands here. */
  readonly neck: Profile;
  readonly fittings: readonly Fitting[];
  /** Below the bottom of the contents: a stem, a foot. */
  readonly below: number;
}

const cone = (height: number, bottomRadius: number, topRadius: number): Section => ({
  kind: 'cone',
  height,
  bottomRadius,
  topRadius,
});
const tube = (height: number, radius: number) => cone(height, radius, radius);
const ball = (radius: number, from: number, to: number): Section => ({
  kind: 'ball',
  radius,
  from,
  to,
});
const piece = (...points: (readonly [number, number])[]): Fitting => ({ kind: 'piece', points });
const line = (...points: (readonly [number, number])[]): Fitting => ({ kind: 'line', points });

/** Where a ball of radius 1 has narrowed to a radius. */
const narrowing = (radius: number) => Math.sqrt(1 - radius * radius);

const CONICAL: Profile = [cone(0.08, 0.9, 1), cone(1.75, 1, 0.42)];
const FUNNEL_TOP = narrowing(0.24);

export const SHAPES: Readonly<Record<VesselShape, Shape>> = {
  'round-bottom flask': {
    body: [ball(1, -1, narrowing(0.36))],
    neck: [tube(0.85, 0.36)],
    fittings: [line([-0.46, 1 + narrowing(0.36) + 0.85], [0.46, 1 + narrowing(0.36) + 0.85])],
    below: 0,
  },
  'conical flask': {
    body: CONICAL,
    neck: [tube(0.4, 0.42)],
    fittings: [line([-0.52, 2.23], [0.52, 2.23])],
    below: 0,
  },
  'separatory funnel': {
    body: [cone(1.5, 0.1, 0.9), ball(1, -narrowing(0.9), FUNNEL_TOP)],
    neck: [tube(0.25, 0.24)],
    fittings: [
      { kind: 'stopper', z: 1.5 + narrowing(0.9) + FUNNEL_TOP + 0.25, width: 0.36 },
      piece([-0.1, 0], [-0.1, -0.75], [0.1, -0.6], [0.1, 0]),
      { kind: 'tap', z: -0.2 },
    ],
    below: 0.75,
  },
  'addition funnel': {
    body: [cone(0.5, 0.1, 0.6), tube(2.2, 0.6)],
    neck: [cone(0.25, 0.6, 0.24), tube(0.25, 0.24)],
    fittings: [
      { kind: 'stopper', z: 3.2, width: 0.34 },
      piece([-0.1, 0], [-0.1, -0.7], [0.1, -0.56], [0.1, 0]),
      { kind: 'tap', z: -0.18 },
    ],
    below: 0.7,
  },
  beaker: {
    body: [tube(2.2, 1)],
    neck: [tube(0.4, 1)],
    fittings: [line([-1.16, 2.66], [-1, 2.52]), line([1, 2.6], [1.08, 2.6])],
    below: 0,
  },
  'test tube': {
    body: [ball(1, -1, 0), tube(6, 1)],
    neck: [tube(0.6, 1)],
    fittings: [line([-1.2, 7.6], [1.2, 7.6])],
    below: 0,
  },
  vial: {
    body: [tube(2.8, 1)],
    neck: [cone(0.3, 1, 0.68), tube(0.3, 0.68)],
    fittings: [{ kind: 'stopper', z: 3.4, width: 0.9 }],
    below: 0,
  },
  cylinder: {
    body: [tube(8, 1)],
    neck: [tube(0.8, 1)],
    fittings: [line([-1.5, -0.12], [1.5, -0.12]), line([-1.2, 8.9], [-1, 8.7])],
    below: 0.12,
  },
  filter: {
    body: [tube(1.15, 1)],
    neck: [],
    // The plate is the bottom of the contents; funnel and stem hang below it
    fittings: [
      piece([-1, 0], [-0.2, -0.75], [-0.2, -1.5], [0.2, -1.3], [0.2, -0.75], [1, 0]),
      line([-0.6, -0.1], [-0.45, -0.1]),
      line([-0.2, -0.1], [-0.05, -0.1]),
      line([0.2, -0.1], [0.35, -0.1]),
    ],
    below: 1.5,
  },
  'filter flask': {
    body: CONICAL,
    neck: [tube(0.6, 0.42)],
    fittings: [
      line([-0.52, 2.43], [0.52, 2.43]),
      line([0.42, 2.22], [0.92, 2.3]),
      line([0.42, 2.05], [0.92, 2.13]),
    ],
    below: 0,
  },
  dish: {
    body: [ball(1.7, -1.7, -0.9)],
    neck: [],
    fittings: [line([-0.55, -0.06], [0.55, -0.06])],
    below: 0.06,
  },
  trap: {
    body: [ball(0.7, -0.7, 0), tube(2.6, 0.7)],
    neck: [tube(0.5, 0.7)],
    fittings: [
      line([-0.84, 3.8], [0.84, 3.8]),
      line([0.7, 3.5], [1.25, 3.65]),
      line([0.7, 3.25], [1.25, 3.4]),
    ],
    below: 0,
  },
  bottle: {
    body: [tube(2.5, 1)],
    neck: [cone(0.4, 1, 0.42), tube(0.35, 0.42)],
    fittings: [{ kind: 'stopper', z: 3.25, width: 0.62 }],
    below: 0,
  },
  other: { body: [tube(2.2, 1)], neck: [], fittings: [], below: 0 },
};

/** Room that a shape takes, in the lengths of its profile. */
export function extentOf({ body, neck, fittings, below }: Shape) {
  const points = fittings.flatMap((one) => ('points' in one ? one.points : []));
  const stoppers = fittings.flatMap((one) => (one.kind === 'stopper' ? [one.z + STOPPER] : []));
  const glass = [...body, ...neck];
  return {
    halfWidth: Math.max(widestRadius(glass), ...points.map(([x]) => Math.abs(x))),
    above: Math.max(heightOf(glass), ...points.map(([, z]) => z), ...stoppers),
    below,
  };
}

/** Height of a stopper, likewise. */
export const STOPPER = 0.3;

/** The length of one unit of a profile, in cm, for a vessel of a capacity. */
export const unit_cm = ({ body }: Shape, capacity_mL: number): number =>
  Math.cbrt(capacity_mL / volumeOf(body));
