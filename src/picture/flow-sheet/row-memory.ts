import type { FlowRow } from '../../core/report/flow/flow.ts';
import type { PlacedRow } from './row.ts';
import { sameData } from './same-data.ts';
import type { Memory, Sheet } from './sheet.ts';
import { reminded, signOf } from './states.ts';
import { chargeKey } from './words.ts';

/**
 * What the last picture of a page had in its rows. A row of which nothing is told otherwise, on a
 * sheet with the same edges and vessels, is the same row: it is neither laid out nor drawn again.
 */
export interface RowMemory {
  sheet: unknown;
  /** By step. */
  rows: Map<string, RememberedRow>;
  /** A row as it was drawn. */
  readonly drawn: WeakMap<PlacedRow, DrawnRow>;
}

interface RememberedRow {
  readonly told: unknown;
  readonly placed: PlacedRow;
  /** Vessels that were called by their names in it. */
  readonly named: readonly string[];
}

export interface DrawnRow {
  readonly label: string;
  readonly drawn: string;
}

export const rowMemory = (): RowMemory => ({
  sheet: undefined,
  rows: new Map(),
  drawn: new WeakMap(),
});

type PlaceRow = (row: FlowRow, at: number, top: number) => PlacedRow;

/** `place`, but asked only for rows that differ from those of the last picture. */
export function remembering(
  kept: RowMemory | undefined,
  sheet: Sheet,
  memory: Memory,
  place: PlaceRow,
): PlaceRow {
  if (kept === undefined) return place;
  const ground = groundOf(sheet);
  const before = sameData(kept.sheet, ground) ? kept.rows : new Map<string, RememberedRow>();
  kept.sheet = ground;
  kept.rows = new Map();
  return (row, at, top) => {
    const told = toldOf(row, at, top, sheet, memory);
    const old = before.get(row.step);
    const same = old !== undefined && sameData(old.told, told) ? old : undefined;
    const placed = same?.placed ?? place(row, at, top);
    const named = same?.named ?? namedIn(at, memory);
    if (same !== undefined) recall(row, at, named, memory);
    kept.rows.set(row.step, { told, placed, named });
    return placed;
  };
}

/** Where the sheet begins and ends, where its vessels stand and what they are. */
const groundOf = ({ edges, slots, glasses, names, selected }: Sheet): unknown =>
  [edges, slots.count, [...slots.slotOf], [...glasses], [...names], selected] as const;

/** All that a row rests on beside the sheet: the report's row, the words for it, what stood before. */
function toldOf(row: FlowRow, at: number, top: number, { slots, words }: Sheet, memory: Memory) {
  const weighings = words?.weighings.get(row.step) ?? [];
  const lives = slots.lives.filter(({ first, last }) => first === at || last === at);
  const vessels = [...row.states, ...weighings, ...lives].map(({ vessel }) => vessel);
  return {
    row,
    top,
    weighings,
    sentence: words?.sentences.get(row.step),
    charges: row.passages.map(({ label }) => words?.charges.get(chargeKey(row.step, label))),
    lives: lives.map(({ vessel, first, last, ends }) => [vessel, first === at, last === at, ends]),
    named: vessels.map((vessel) => [memory.namedIn.has(vessel), reminded(vessel, at, memory)]),
    stood: row.states.map(({ vessel }) => signOf(memory.states.get(vessel))),
    weighed: weighings.map(({ vessel }) => memory.states.get(vessel)),
  };
}

const namedIn = (at: number, memory: Memory): string[] =>
  [...memory.namedIn].flatMap(([vessel, row]) => (row === at ? [vessel] : []));

/** What laying it out would have left behind for the rows after it. */
function recall(row: FlowRow, at: number, named: readonly string[], memory: Memory): void {
  for (const vessel of named) memory.namedIn.set(vessel, at);
  for (const state of row.states) memory.states.set(state.vessel, state);
}
