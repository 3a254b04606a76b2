/**
 * A vessel of glass as a solid of revolution: sections stacked from the bottom up, each a frustum of a
 * cone (a cylinder is one too) or a slice of a ball, whose volumes are known in closed form. From them
 * follows how high a volume stands.
 */
export type Section =
  | {
      readonly kind: 'cone';
      readonly height: number;
      readonly bottomRadius: number;
      readonly topRadius: number;
    }
  /** Between two heights over (or under, negative) the ball's centre. */
  | { readonly kind: 'ball'; readonly radius: number; readonly from: number; readonly to: number };

export type Profile = readonly Section[];

type OfKind<K extends Section['kind']> = Extract<Section, { readonly kind: K }>;

interface Geometry<S> {
  readonly height: (section: S) => number;
  /** Inner radius at a height over the section's bottom. */
  readonly radius: (section: S, z: number) => number;
  /** What the section holds up to a height over its bottom. */
  readonly volume: (section: S, z: number) => number;
  /** Straight walls need no points between their ends. */
  readonly points: number;
}

const GEOMETRY: { readonly [K in Section['kind']]: Geometry<OfKind<K>> } = {
  cone: {
    height: ({ height }) => height,
    radius: ({ height, bottomRadius, topRadius }, z) =>
      bottomRadius + ((topRadius - bottomRadius) * z) / height,
    // V = πh(a² + ab + b²)/3, the frustum of a cone
    volume: (section, z) => {
      const a = section.bottomRadius;
      const b = GEOMETRY.cone.radius(section, z);
      return (Math.PI * z * (a * a + a * b + b * b)) / 3;
    },
    points: 1,
  },
  ball: {
    height: ({ from, to }) => to - from,
    radius: ({ radius, from }, z) => Math.sqrt(Math.max(0, radius ** 2 - (from + z) ** 2)),
    // The integral of π(R² − t²) over t; from −R up it is the cap πh²(3R − h)/3
    volume: ({ radius, from }, z) =>
      Math.PI * (radius ** 2 * z - ((from + z) ** 3 - from ** 3) / 3),
    // Few enough for a small picture; at the size of a page no corner shows.
    points: 16,
  },
};

const geometryOf = (section: Section) => GEOMETRY[section.kind] as Geometry<Section>;

export const heightOf = (profile: Profile): number =>
  profile.reduce((sum, section) => sum + geometryOf(section).height(section), 0);

/** In the cube of the unit of its lengths. */
export function volumeBelow(profile: Profile, z: number): number {
  let rest = z;
  let volume = 0;
  for (const section of profile) {
    if (rest <= 0) break;
    const geometry = geometryOf(section);
    const here = Math.min(rest, geometry.height(section));
    volume += geometry.volume(section, here);
    rest -= here;
  }
  return volume;
}

export const volumeOf = (profile: Profile): number => volumeBelow(profile, heightOf(profile));

export function radiusAt(profile: Profile, z: number): number {
  let rest = Math.max(0, z);
  for (const section of profile) {
    const geometry = geometryOf(section);
    const height = geometry.height(section);
    if (rest <= height) return geometry.radius(section, rest);
    rest -= height;
  }
  const last = profile.at(-1);
  return last === undefined ? 0 : geometryOf(last).radius(last, geometryOf(last).height(last));
}

export function widestRadius(profile: Profile): number {
  return Math.max(0, ...wallBetween(profile, 0, heightOf(profile)).map(({ r }) => r));
}

/** Halvings: the height is then known to a billionth of the vessel. */
const HALVINGS = 40;

/** How high a volume stands over the bottom; the brim for more than the profile holds. */
export function levelAt(profile: Profile, volume: number): number {
  let low = 0;
  let high = heightOf(profile);
  if (!(volume > 0)) return 0;
  if (volume >= volumeOf(profile)) return high;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (volumeBelow(profile, middle) < volume) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

export interface WallPoint {
  readonly z: number;
  readonly r: number;
}

/** The inner wall between two heights, bottom first. */
export function wallBetween(profile: Profile, from: number, to: number): WallPoint[] {
  const points: WallPoint[] = [{ z: from, r: radiusAt(profile, from) }];
  let base = 0;
  for (const section of profile) {
    const geometry = geometryOf(section);
    const height = geometry.height(section);
    for (let i = 1; i <= geometry.points; i++) {
      const inner = pointOf(i, geometry.points) * height;
      if (base + inner > from && base + inner < to)
        points.push({ z: base + inner, r: geometry.radius(section, inner) });
    }
    base += height;
  }
  points.push({ z: to, r: radiusAt(profile, to) });
  return points;
}

/** Closer together at the ends, where a ball's wall turns most. */
const pointOf = (i: number, n: number) => (1 - Math.cos((Math.PI * i) / n)) / 2;
