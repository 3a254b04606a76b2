import type { FlowSheet } from '../../core/report/flow/flow.ts';
import { wrapText } from '../text/measure.ts';
import { frameOf, slotX, slotsWithin } from './frame.ts';
import type { Frame } from './frame.ts';
import { glassesOf } from './glass.ts';
import type { Words } from './items.ts';
import { placeLegend } from './legend.ts';
import type { Legend } from './legend.ts';
import { placeRow } from './row.ts';
import type { PlacedRow } from './row.ts';
import type { Memory, Sheet } from './sheet.ts';
import { slotsOf } from './slots.ts';
import type { Life } from './slots.ts';
import { durationText } from './time.ts';
import type { FlowWords } from './words.ts';

export interface LayoutOptions {
  readonly width: number;
  readonly selected?: string | undefined;
  readonly words?: FlowWords | undefined;
  readonly answer?: string | undefined;
  readonly version?: string | undefined;
}

/** The life of a vessel as a bar from one height to another. */
export interface LifeBar {
  readonly x: number;
  readonly from: number;
  readonly to: number;
  readonly ends: Life['ends'];
}

/** A part of the procedure, named over its first row. */
export interface Rule {
  readonly y: number;
  readonly heavy: boolean;
}

export interface Layout {
  readonly sheet: Sheet;
  readonly height: number;
  readonly title: string;
  readonly answer: string;
  readonly head: readonly Words[];
  readonly rules: readonly Rule[];
  readonly bars: readonly LifeBar[];
  readonly parts: readonly Words[];
  readonly rows: readonly PlacedRow[];
  readonly legend: Legend;
}

const TITLE = { size: 25, bold: true, line: 31 };
const ANSWER = { size: 15, line: 21 };
const NOTE = { size: 12.5, line: 18 };
const COLUMN = { size: 12.5, bold: true };
const PART = { size: 13, bold: true };
const READING_WIDTH = 780;

export function layoutOf(flow: FlowSheet, options: LayoutOptions): Layout {
  const slots = slotsOf(flow, slotsWithin(options.width));
  const frame = frameOf(options.width, Math.max(1, slots.count));
  const columns = flow.columns.filter(({ vessel }) => slots.slotOf.has(vessel));
  const sheet: Sheet = {
    frame,
    slots,
    glasses: glassesOf(columns, frame.pitch),
    names: new Map(
      columns.map(({ vessel, name, capacity_mL, tared }) => {
        const size = capacity_mL === null ? '' : `${capacity_mL}\u202fmL`;
        const note = [size, tared ? 'tared' : ''].filter((part) => part !== '').join(', ');
        return [vessel, { name, note }];
      }),
    ),
    words: options.words,
    selected: options.selected,
  };
  const title = flow.title === '' ? 'Untitled' : flow.title;
  const answer = options.answer ?? summaryOf(flow, columns.length);
  const head = placeHead(
    { title, answer, told: options.answer !== undefined },
    flow,
    frame,
    options.version,
  );
  const { rows, rules, parts, bottom } = placeRows(flow, head.bottom, sheet);
  const legend = placeLegend(rows, sheet, bottom + 26);
  return {
    sheet,
    height: Math.ceil(legend.bottom + 22),
    title,
    answer,
    head: head.words,
    rules: [{ y: head.bottom, heavy: true }, ...rules, { y: bottom, heavy: true }],
    bars: barsOf(rows, sheet),
    parts,
    rows,
    legend,
  };
}

function summaryOf({ rows, total_min }: FlowSheet, vessels: number): string {
  if (rows.length === 0)
    return 'The document has no step that is understood, so there is nothing to draw.';
  const plural = (n: number, one: string) => `${n} ${one}${n === 1 ? '' : 's'}`;
  const counted = `${plural(rows.length, 'step')} with ${plural(vessels, 'vessel')}`;
  return `${counted} take ${durationText(total_min)}.`;
}

function placeHead(
  { title, answer, told }: { title: string; answer: string; told: boolean },
  { rows, total_min }: FlowSheet,
  frame: Frame,
  version: string | undefined,
) {
  const { margin, right } = frame;
  const words: Words[] = [];
  const room = right - margin;
  let y = 22;
  const add = (
    text: string,
    style: { size: number; bold?: boolean },
    line: number,
    width: number,
    ink: Words['ink'],
  ) => {
    for (const each of wrapText(text, width, style)) {
      y += line;
      const { size, bold = false } = style;
      words.push({ x: margin, y, text: each, anchor: 'start', ink, size, bold });
    }
  };
  add(title, TITLE, TITLE.line, room, 'ink');
  y += 5;
  add(answer, ANSWER, ANSWER.line, Math.min(room, READING_WIDTH), 'ink');
  y += 3;
  const steps = told && rows.length > 0 ? [`${rows.length} steps`, durationText(total_min)] : [];
  const about = [...(version === undefined ? [] : [`version ${version}`]), ...steps];
  add(about.join(' · '), NOTE, NOTE.line, room, 'quiet');
  if (rows.length === 0) return { words, bottom: y + 16 };
  y += 34;
  const column = (text: string, x: number, anchor: Words['anchor']) =>
    words.push({ x, y, text, anchor, ink: 'ink', ...COLUMN });
  column('Step', margin, 'start');
  column('From the stock', frame.stockX, 'start');
  column('Vessels', slotX(frame, 0), 'middle');
  column('Leaves', frame.leavesX + 6, 'start');
  return { words, bottom: y + 11 };
}

function placeRows({ rows: flow }: FlowSheet, top: number, sheet: Sheet) {
  const memory: Memory = { states: new Map(), namedIn: new Map() };
  const rows: PlacedRow[] = [];
  const rules: Rule[] = [];
  const parts: Words[] = [];
  let y = top;
  flow.forEach((row, at) => {
    if (row.part !== null && row.part !== (flow[at - 1]?.part ?? null)) {
      if (at > 0) rules.push({ y, heavy: true });
      const { margin, stockX, stockWidth } = sheet.frame;
      for (const text of wrapText(row.part, stockX + stockWidth - margin - 12, PART)) {
        y += 22;
        parts.push({ x: margin, y, text, anchor: 'start', ink: 'ink', ...PART });
      }
    } else if (at > 0) rules.push({ y, heavy: false });
    const placed = placeRow(row, at, y, sheet, memory);
    rows.push(placed);
    y = placed.bottom;
  });
  return { rows, rules, parts, bottom: y };
}

function barsOf(rows: readonly PlacedRow[], { frame, slots }: Sheet): LifeBar[] {
  return slots.lives.flatMap(({ vessel, first, last, ends }) => {
    const slot = slots.slotOf.get(vessel);
    const from = rows[first]?.begins.get(vessel);
    const to = rows[last]?.ends.get(vessel);
    if (slot === undefined || from === undefined || to === undefined) return [];
    return [{ x: slotX(frame, slot), from, to: Math.max(from + 6, to), ends }];
  });
}
