import type { FlowColumn, FlowPicture } from './flow-picture.ts';
import { widthOf, wrap } from './text.ts';

/** Where things stand on the page, in columns of characters. */
export interface Plan {
  readonly width: number;
  readonly words: number;
  readonly lane: number;
  readonly leaves: number;
  readonly lastRow: number;
  readonly centre: ReadonlyMap<string, number>;
  /** For each vessel: the rows that it first and last has a part in. */
  readonly life: ReadonlyMap<string, Life>;
  /** Over the lanes, or where each vessel begins because another has its lane later. */
  readonly named: 'head' | 'birth';
  readonly births: ReadonlyMap<number, readonly string[]>;
  readonly signs: ReadonlyMap<string, Sign>;
}

export type Sign = readonly { readonly text: string; readonly kind: 'name' | 'note' }[];
export type Life = readonly [first: number, last: number];

const LEAST_WORDS = 34;
const MOST_WORDS = 46;
const LEAST_LANE = 8;
const MOST_LANE = 12;
/** A vessel named at its beginning needs room for a word such as "evaporating". */
const LEAST_SHARED_LANE = 11;
const NARROW = 80;
const LEAST_LEAVES = 8;

/** A plan with a lane for each vessel; else with lanes used again; else, on a narrow page, none. */
export function planOf(picture: FlowPicture, width: number): Plan | undefined {
  if (width < NARROW) return undefined;
  const passages = picture.rows.flatMap((row) => row.passages);
  const leaves = Math.max(LEAST_LEAVES, ...passages.map((p) => 3 + widthOf(p.leaves ?? '')));
  const room = width - LEAST_WORDS - leaves;
  const n = picture.columns.length;
  const own = new Map(picture.columns.map(({ id }, i) => [id, i]));
  if (Math.floor(room / Math.max(1, n)) >= LEAST_LANE)
    return settle(picture, width, leaves, own, n, livesOf(picture, true), 'head');
  const life = livesOf(picture, false);
  const shared = sharedLanes(picture.columns, life);
  const lanes = 1 + Math.max(...shared.values());
  if (Math.floor(room / lanes) < LEAST_SHARED_LANE) return undefined;
  return settle(picture, width, leaves, shared, lanes, life, 'birth');
}

function settle(
  picture: FlowPicture,
  width: number,
  leaves: number,
  laneOf: ReadonlyMap<string, number>,
  lanes: number,
  life: ReadonlyMap<string, Life>,
  named: Plan['named'],
): Plan {
  const lane = Math.min(MOST_LANE, Math.floor((width - LEAST_WORDS - leaves) / Math.max(1, lanes)));
  const words = Math.min(MOST_WORDS, width - leaves - lane * lanes);
  const births = new Map<number, string[]>();
  for (const [id, [first]] of life) births.set(first, [...(births.get(first) ?? []), id]);
  return {
    width,
    words,
    lane,
    leaves: words + lanes * lane,
    lastRow: picture.rows.length - 1,
    centre: new Map([...laneOf].map(([id, i]) => [id, words + i * lane + (lane >> 1)])),
    life,
    named,
    births,
    signs: new Map(picture.columns.map((column) => [column.id, signOf(column, lane - 1, named)])),
  };
}

/** Over the lanes the line of notes is kept, so that the names stand in one line. */
function signOf(column: FlowColumn, room: number, named: Plan['named']): Sign {
  const name = wrap(column.name, room).map((text) => ({ text, kind: 'name' as const }));
  if (column.note === '' && named === 'birth') return name;
  return [...name, { text: column.note, kind: 'note' }];
}

/** With `leftovers` a vessel that still holds something lasts to the end of the sheet. */
function livesOf(picture: FlowPicture, leftovers: boolean): Map<string, Life> {
  const life = new Map<string, Life>();
  picture.rows.forEach((row, r) => {
    const holding = row.states.filter((state) => state.layers.length > 0);
    const touched = [
      ...row.passages.flatMap(({ from, to }) => [from, to]),
      ...holding.map((state) => state.vessel),
      ...(row.remarks ?? []).map((remark) => remark.vessel),
    ];
    for (const id of touched) if (id !== undefined) life.set(id, [life.get(id)?.[0] ?? r, r]);
  });
  const last = picture.rows.length - 1;
  if (leftovers)
    for (const [id, [first]] of life) if (holdsAtEnd(picture, id)) life.set(id, [first, last]);
  return life;
}

function holdsAtEnd(picture: FlowPicture, id: string): boolean {
  const state = picture.rows.flatMap((row) => row.states).findLast(({ vessel }) => vessel === id);
  return state !== undefined && state.layers.some((layer) => layer.share > 0);
}

/** Each vessel the first lane from the left whose last vessel is done, a row at least between. */
function sharedLanes(
  columns: readonly FlowColumn[],
  life: ReadonlyMap<string, Life>,
): Map<string, number> {
  const lanes: number[] = [];
  const laneOf = new Map<string, number>();
  const byBirth = columns
    .filter(({ id }) => life.has(id))
    .toSorted((a, b) => life.get(a.id)![0] - life.get(b.id)![0]);
  for (const { id } of byBirth) {
    const [first, last] = life.get(id)!;
    const free = lanes.findIndex((end) => end < first);
    const lane = free < 0 ? lanes.length : free;
    lanes[lane] = last;
    laneOf.set(id, lane);
  }
  return laneOf;
}
