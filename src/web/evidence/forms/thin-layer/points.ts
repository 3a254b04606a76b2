import type { Draft } from '../draft.ts';

/** Pixels of the picture, to the right and down. */
export type Point = readonly [x: number, y: number];

/** The places that a plate has once, by the field that holds each. */
export const PLACES = ['startA', 'startB', 'frontA', 'frontB'] as const;
export type Place = (typeof PLACES)[number];

/** What the next tap sets: a place, or one more spot of a lane (its number from 0). */
export type Aim = Place | number;

/** A point that is there: a place, or a spot by the id in its row. */
export interface SetPoint {
  readonly id: string;
  readonly point: Point;
  readonly label: string;
  /** Of a spot, from 0. */
  readonly lane?: number;
}

/** A change to one field of the form. */
export type Change = readonly [field: string, value: Draft[string]];

export const PLACE_WORDS: Readonly<Record<Place, string>> = {
  startA: 'Start line, one end',
  startB: 'Start line, other end',
  frontA: 'Solvent front',
  frontB: 'Solvent front, second point',
};

export function pointText([x, y]: Point): string {
  return `${Number(x.toFixed(1))} ${Number(y.toFixed(1))}`;
}

export function pointIn(value: Draft[string]): Point | undefined {
  const [x, y] = typeof value === 'string' ? value.split(' ').map(Number) : [];
  return x !== undefined && y !== undefined && Number.isFinite(x + y) ? [x, y] : undefined;
}

const rowsIn = (value: Draft[string]): readonly Draft[] =>
  Array.isArray(value) ? (value as readonly Draft[]) : [];

export const lanesIn = (draft: Draft): readonly Draft[] => rowsIn(draft['lanes']);
export const spotsIn = (lane: Draft): readonly Draft[] => rowsIn(lane['spots']);

/** Every point of the plate: the places first, then the spots lane by lane. */
export function pointsIn(draft: Draft): readonly SetPoint[] {
  const places = PLACES.flatMap((place): SetPoint[] => {
    const point = pointIn(draft[place]);
    return point === undefined ? [] : [{ id: place, point, label: PLACE_WORDS[place] }];
  });
  const spots = lanesIn(draft).flatMap((lane, l) =>
    spotsIn(lane).flatMap((spot, s): SetPoint[] => {
      const point = pointIn(spot['point']);
      const id = spot['id'];
      if (point === undefined || typeof id !== 'string') return [];
      return [{ id, point, label: `Lane ${l + 1}, spot ${s + 1}`, lane: l }];
    }),
  );
  return [...places, ...spots];
}

function freshId(draft: Draft): string {
  const used = lanesIn(draft)
    .flatMap(spotsIn)
    .map(({ id }) => (typeof id === 'string' ? Number(id.slice(4)) : 0));
  return `spot${Math.max(0, ...used) + 1}`;
}

/** Sets a place, or adds a spot to a lane. */
export function setAt(
  draft: Draft,
  aim: Aim,
  point: Point,
): { readonly change: Change; readonly id: string } {
  if (typeof aim !== 'number') return { change: [aim, pointText(point)], id: aim };
  const id = freshId(draft);
  const lanes = lanesIn(draft).map((lane, l) =>
    l === aim ? { ...lane, spots: [...spotsIn(lane), { id, point: pointText(point) }] } : lane,
  );
  return { change: ['lanes', lanes], id };
}

/** The same point somewhere else; without a point it is taken out. */
export function movedTo(draft: Draft, id: string, point: Point | undefined): Change {
  const text = point === undefined ? undefined : pointText(point);
  if (PLACES.some((place) => place === id)) return [id, text];
  const lanes = lanesIn(draft).map((lane) => ({
    ...lane,
    spots: spotsIn(lane).flatMap((spot) => {
      if (spot['id'] !== id) return [spot];
      return text === undefined ? [] : [{ ...spot, point: text }];
    }),
  }));
  return ['lanes', lanes];
}

/** After a place was set, the next one that a plate needs; a lane stays the one that is filled. */
export function nextAim(draft: Draft, aim: Aim): Aim {
  if (typeof aim === 'number') return aim;
  const open = (['startA', 'startB', 'frontA'] as const).find(
    (place) => place !== aim && pointIn(draft[place]) === undefined,
  );
  return open ?? (lanesIn(draft).length > 0 ? 0 : aim);
}
