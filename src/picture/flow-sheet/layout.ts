import { aboutHowLong } from '../../core/report/answer/duration.ts';
import type { FlowColumn, FlowRow, FlowSheet } from '../../core/report/flow/flow.ts';
import { wrapText } from '../text/measure.ts';
import type { TextStyle } from '../text/measure.ts';
import { frameOf, slotX, slotsWithin } from './frame.ts';
import type { Edges, Frame } from './frame.ts';
import { glassesOf } from './glass.ts';
import type { Words } from './items.ts';
import { placeLegend } from './legend.ts';
import type { Legend, LegendStyle } from './legend.ts';
import { placeRow } from './row.ts';
import type { PlacedRow } from './row.ts';
import { remembering } from './row-memory.ts';
import type { RowMemory } from './row-memory.ts';
import { nothingShown } from './sheet.ts';
import type { Sheet, WideSheet } from './sheet.ts';
import { slotsOf } from './slots.ts';
import type { Life } from './slots.ts';
import type { FlowWords } from './words.ts';

export interface LayoutOptions {
  readonly width: number;
  /** The step whose number wears the accent. */
  readonly selected?: string | undefined;
  readonly words?: FlowWords | undefined;
  readonly answer?: string | undefined;
  readonly version?: string | undefined;
  readonly rows?: RowMemory | undefined;
}

/** The life of a vessel as a bar from `y` down. */
export interface LifeBar {
  readonly vessel: string;
  /** In which it begins. */
  readonly step: string;
  readonly x: number;
  readonly y: number;
  readonly height: number;
  readonly ends: Life['ends'];
}

/** A row where it stands, with what is over it. */
export interface LaidRow extends PlacedRow {
  /** The row as it was placed: the same object where it was remembered. */
  readonly placed: PlacedRow;
  readonly y: number;
  /** The part of the procedure that begins with it. */
  readonly heading: readonly Words[];
  /** Whether the rule over it is a heavy one: a part begins. */
  readonly heavy: boolean;
}

export interface Head {
  readonly words: readonly Words[];
  readonly bottom: number;
}

export interface Layout {
  readonly sheet: Sheet;
  readonly height: number;
  readonly title: string;
  readonly answer: string;
  readonly head: Head;
  readonly bars: readonly LifeBar[];
  readonly rows: readonly LaidRow[];
  readonly foot: { readonly y: number; readonly legend: Legend };
}

interface Size {
  readonly size: number;
  readonly line: number;
  readonly bold?: boolean;
}
export type Sizes = Readonly<Record<'title' | 'answer' | 'note', Size>>;

const SIZES: Sizes = {
  title: { size: 25, bold: true, line: 31 },
  answer: { size: 15, line: 21 },
  note: { size: 12.5, line: 18 },
};
const COLUMN = { size: 12.5, bold: true };
const PART = { size: 13, bold: true };
const PART_LINE = 22;
const READING_WIDTH = 780;

const widely = (flow: FlowSheet, asked: number) => {
  const slots = slotsOf(flow, slotsWithin(asked));
  return { slots, frame: frameOf(asked, Math.max(1, slots.count)) };
};

/** How wide the vessels stand beside each other, known before a row is laid out. */
export const widthAcross = (flow: FlowSheet, asked: number): number =>
  widely(flow, asked).frame.width;

export function layoutOf(flow: FlowSheet, options: LayoutOptions): Layout {
  const { slots, frame } = widely(flow, options.width);
  const columns = flow.columns.filter(({ vessel }) => slots.slotOf.has(vessel));
  const sheet: WideSheet = {
    edges: frame,
    frame,
    slots,
    glasses: glassesOf(columns, frame.pitch),
    names: namesOf(columns),
    words: options.words,
    selected: options.selected,
  };
  const { title, answer, ...told } = titleOf(flow, columns.length, options);
  const head = placeHead({ title, answer, ...told }, flow, frame);
  const memory = nothingShown();
  const place = remembering(options.rows, sheet, memory, (row, at, top) =>
    placeRow(row, at, top, sheet, memory),
  );
  const rows = stacked(flow, head.bottom, sheet, place);
  return {
    title,
    answer,
    head,
    bars: barsOf(rows, sheet),
    ...finished(rows, head.bottom, sheet, { size: 12, lives: true }),
  };
}

/** What stands under the rows, and how high it all is. */
export function finished(
  rows: readonly LaidRow[],
  top: number,
  sheet: Sheet,
  style: LegendStyle,
): Pick<Layout, 'sheet' | 'rows' | 'foot' | 'height'> {
  const last = rows.at(-1);
  const y = last === undefined ? top : last.y + last.bottom;
  const legend = placeLegend(rows, sheet, 26, style);
  return { sheet, rows, foot: { y, legend }, height: Math.ceil(y + legend.bottom + 22) };
}

/** What every vessel is called, with its size and whether it is tared. */
export function namesOf(columns: readonly FlowColumn[]): Sheet['names'] {
  return new Map(
    columns.map(({ vessel, name, capacity_mL, tared }) => {
      const size = capacity_mL === null ? '' : `${capacity_mL}\u202fmL`;
      const note = [size, tared ? 'tared' : ''].filter((part) => part !== '').join(', ');
      return [vessel, { name, note }];
    }),
  );
}

interface Titled {
  readonly title: string;
  readonly answer: string;
  /** Whether the answer is one that was asked for. */
  readonly told: boolean;
  readonly version?: string | undefined;
}

export const titleOf = (flow: FlowSheet, vessels: number, options: LayoutOptions): Titled => ({
  title: flow.title === '' ? 'Untitled' : flow.title,
  answer: options.answer ?? summaryOf(flow, vessels),
  told: options.answer !== undefined,
  version: options.version,
});

function summaryOf({ rows, total_min }: FlowSheet, vessels: number): string {
  if (rows.length === 0)
    return 'The document has no step that is understood, so there is nothing to draw.';
  const plural = (n: number, one: string) => `${n} ${one}${n === 1 ? '' : 's'}`;
  const counted = `${plural(rows.length, 'step')} with ${plural(vessels, 'vessel')}`;
  return `${counted} take ${aboutHowLong(total_min)}.`;
}

/** Title, answer and what is counted. */
export function placeTitle(
  { title, answer, told, version }: Titled,
  { rows, total_min }: FlowSheet,
  { margin, right }: Edges,
  sizes: Sizes = SIZES,
) {
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
  add(title, sizes.title, sizes.title.line, room, 'ink');
  y += 5;
  add(answer, sizes.answer, sizes.answer.line, Math.min(room, READING_WIDTH), 'ink');
  y += 3;
  const steps = told && rows.length > 0 ? [`${rows.length} steps`, aboutHowLong(total_min)] : [];
  const about = [...(version === undefined ? [] : [`version ${version}`]), ...steps];
  add(about.join(' · '), sizes.note, sizes.note.line, room, 'quiet');
  return { words, y };
}

function placeHead(titled: Titled, flow: FlowSheet, frame: Frame): Head {
  const { words, y: end } = placeTitle(titled, flow, frame);
  if (flow.rows.length === 0) return { words, bottom: end + 16 };
  const y = end + 34;
  const column = (text: string, x: number, anchor: Words['anchor']) =>
    words.push({ x, y, text, anchor, ink: 'ink', ...COLUMN });
  column('Step', frame.margin, 'start');
  column('From the stock', frame.stockX, 'start');
  column('Vessels', slotX(frame, 0), 'middle');
  column('Leaves', frame.leavesX + 6, 'start');
  return { words, bottom: y + 11 };
}

/** The rows one under the other, each with the heading of the part that it begins. */
export function stacked(
  { rows }: FlowSheet,
  top: number,
  { edges }: Sheet,
  place: (row: FlowRow, at: number, top: number) => PlacedRow,
  part: TextStyle = PART,
): LaidRow[] {
  const { margin, headingWidth } = edges;
  let y = top;
  return rows.map((row, at) => {
    const heavy = row.part !== null && row.part !== (rows[at - 1]?.part ?? null);
    const lines = heavy ? wrapText(row.part, headingWidth, part) : [];
    const heading = lines.map((text, i): Words => {
      return { x: margin, y: (i + 1) * PART_LINE, text, anchor: 'start', ink: 'ink', ...part };
    });
    const placed = place(row, at, lines.length * PART_LINE);
    const laid = { ...placed, placed, y, heading, heavy };
    y += placed.bottom;
    return laid;
  });
}

function barsOf(rows: readonly LaidRow[], { frame, slots }: WideSheet): LifeBar[] {
  return slots.lives.flatMap(({ vessel, first, last, ends }) => {
    const slot = slots.slotOf.get(vessel);
    const [begins, stops] = [rows[first], rows[last]];
    const from = begins?.begins.get(vessel);
    const to = stops?.ends.get(vessel);
    if (slot === undefined || from === undefined || to === undefined) return [];
    const y = begins!.y + from;
    const height = Math.max(6, stops!.y + to - y);
    return [{ vessel, step: begins!.step, x: slotX(frame, slot), y, height, ends }];
  });
}
