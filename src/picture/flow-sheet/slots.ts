import type { FlowColumn, FlowSheet } from '../../core/report/flow/flow.ts';

/** Less than this left on the glass is nothing to draw. */
const LEAST_g = 1e-3;

/** A stretch of rows in which a vessel holds something. */
export interface Life {
  readonly vessel: string;
  readonly first: number;
  readonly last: number;
  /** Whether it is emptied in the last row, or only no longer followed. */
  readonly ends: 'emptied' | 'open';
}

export interface Slots {
  readonly count: number;
  /** By vessel; vessels that never hold anything have none. */
  readonly slotOf: ReadonlyMap<string, number>;
  readonly lives: readonly Life[];
}

/**
 * A column for every vessel, in the order of their first use; where there is no room for so many, a
 * column is used again once its vessel is empty, and at need once its vessel is no longer touched.
 */
export function slotsOf(sheet: FlowSheet, most: number): Slots {
  const lives = livesOf(sheet);
  const held = sheet.columns.filter(({ vessel }) => lives.some((life) => life.vessel === vessel));
  if (held.length <= most) {
    const slotOf = new Map(held.map(({ vessel }, i) => [vessel, i]));
    return { count: held.length, slotOf, lives };
  }
  const kept = shared(sheet, held, lives);
  if (kept.count <= most) return kept;
  return shared(
    sheet,
    held,
    lives.map((life) => untilTouched(life, sheet.columns)),
  );
}

export function livesOf({ rows }: FlowSheet): Life[] {
  const open = new Map<string, number>();
  const lives: Life[] = [];
  rows.forEach((row, at) => {
    for (const { to } of row.passages)
      if (to.kind === 'vessel' && !open.has(to.vessel)) open.set(to.vessel, at);
    for (const { vessel, mass_g } of row.states) {
      if (mass_g > LEAST_g) {
        if (!open.has(vessel)) open.set(vessel, at);
        continue;
      }
      const first = open.get(vessel);
      if (first === undefined) continue;
      lives.push({ vessel, first, last: at, ends: 'emptied' });
      open.delete(vessel);
    }
  });
  for (const [vessel, first] of open)
    lives.push({ vessel, first, last: rows.length - 1, ends: 'open' });
  return lives.sort((a, b) => a.first - b.first);
}

function untilTouched(life: Life, columns: readonly FlowColumn[]): Life {
  const column = columns.find(({ vessel }) => vessel === life.vessel);
  if (column === undefined || life.ends === 'emptied') return life;
  return { ...life, last: Math.max(life.first, Math.min(life.last, column.lastRow)) };
}

function shared(sheet: FlowSheet, held: readonly FlowColumn[], lives: readonly Life[]): Slots {
  const slotOf = new Map<string, number>();
  /** The last row in which each column is in use. */
  const busyUntil: number[] = [];
  const spans = held
    .map(({ vessel }) => {
      const own = lives.filter((life) => life.vessel === vessel);
      const first = Math.min(...own.map((life) => life.first));
      return { vessel, first, last: Math.max(...own.map((life) => life.last)) };
    })
    .sort((a, b) => a.first - b.first);
  for (const { vessel, first, last } of spans) {
    const free = busyUntil.flatMap((until, slot) => (until < first ? [slot] : []));
    const source = sourceOf(sheet, vessel, first);
    const wish = source === undefined ? 0 : (slotOf.get(source) ?? -1) + 1;
    const distance = (slot: number) => Math.abs(slot - wish);
    const slot = free.sort((a, b) => distance(a) - distance(b) || a - b)[0] ?? busyUntil.length;
    slotOf.set(vessel, slot);
    busyUntil[slot] = last;
  }
  return { count: busyUntil.length, slotOf, lives };
}

/** The vessel that fills another first, so that its arrow can be a short one. */
function sourceOf({ rows }: FlowSheet, vessel: string, at: number): string | undefined {
  const passages = rows[at]?.passages ?? [];
  const into = passages.find(
    ({ from, to }) => from.kind === 'vessel' && to.kind === 'vessel' && to.vessel === vessel,
  );
  return into?.from.kind === 'vessel' ? into.from.vessel : undefined;
}
