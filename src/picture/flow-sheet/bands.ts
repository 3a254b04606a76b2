import { wrapWithin } from '../text/measure.ts';
import type { Arrow } from './arrows.ts';
import { slotX } from './frame.ts';
import type { Frame } from './frame.ts';
import { BASIS_STYLE, boxOf, withMark } from './items.ts';
import type { Line, Words } from './items.ts';

/** The arrows of a row, one under the other; what follows on to the right shares a line. */
export interface Bands {
  readonly words: readonly Words[];
  readonly lines: readonly Line[];
  /** By vessel: the height of the first arrow in, and of the last one out. */
  readonly entries: ReadonlyMap<string, number>;
  readonly exits: ReadonlyMap<string, number>;
  readonly bottom: number;
  /** The height under which a stretch from left to right is free of arrows and words. */
  readonly clearBelow: (left: number, right: number) => number;
}

const SIZE = 12;
const LINE = 15;
const MOST_LINES = 3;
/** From the middle of a column to where an arrow begins or ends. */
const OFF = 5;
/** What is poured falls a little way into the vessel. */
const LEAST_FALL = 9;

interface Laid {
  readonly arrow: Arrow;
  readonly x1: number;
  readonly x2: number;
  readonly textX: number;
  readonly anchor: Words['anchor'];
  readonly name: readonly string[];
  readonly amount: readonly string[];
  readonly whither: readonly string[];
}

export function placeBands(
  arrows: readonly Arrow[],
  top: number,
  frame: Frame,
  slotOf: ReadonlyMap<string, number>,
): Bands {
  const words: Words[] = [];
  const lines: Line[] = [];
  const entries = new Map<string, number>();
  const exits = new Map<string, number>();
  let bottom = top;
  for (const band of packed(arrows.map((arrow) => laidOut(arrow, frame, slotOf)))) {
    const y = bottom + Math.max(...band.map(({ name }) => name.length)) * LINE + 3;
    for (const laid of band) {
      const { arrow, x1, x2 } = laid;
      words.push(...wordsOf(laid, y));
      lines.push({ x1, x2, y, basis: arrow.basis, gas: arrow.gas });
      if (arrow.to !== undefined && !entries.has(arrow.to)) entries.set(arrow.to, y);
      if (arrow.from !== undefined) exits.set(arrow.from, y);
    }
    bottom =
      y + Math.max(...band.map((each) => each.amount.length + each.whither.length)) * LINE + 5;
  }
  const boxes = words.map(boxOf);
  const lowest = Math.max(top, ...lines.map(({ y }) => y + LEAST_FALL));
  const clearBelow = (left: number, right: number) =>
    Math.max(
      lowest,
      ...boxes.map((box) => (box.right > left && box.left < right ? box.bottom : 0)),
    );
  return { words, lines, entries, exits, bottom, clearBelow };
}

function laidOut(arrow: Arrow, frame: Frame, slotOf: ReadonlyMap<string, number>): Laid {
  const { from, to, basis } = arrow;
  const xOf = (vessel: string) => slotX(frame, slotOf.get(vessel)!);
  const back = from !== undefined && to !== undefined && xOf(to) < xOf(from);
  const way = back ? -1 : 1;
  const x1 = from === undefined ? frame.stockX : xOf(from) + way * OFF;
  const x2 = to === undefined ? frame.right : xOf(to) - way * OFF;
  const between = from !== undefined && to !== undefined;
  const textX = between
    ? xOf(from) + (way * frame.pitch) / 2
    : from === undefined
      ? frame.stockX
      : frame.leavesX + 6;
  const width = between
    ? frame.pitch - 18
    : (from === undefined ? frame.stockWidth : frame.leavesWidth) - 16;
  const style = { size: SIZE };
  return {
    arrow,
    x1,
    x2,
    textX,
    anchor: between ? 'middle' : 'start',
    name: wrapWithin(arrow.name, width, MOST_LINES, style),
    amount: wrapWithin(withMark(arrow.amount, basis), width, MOST_LINES, {
      ...style,
      ...BASIS_STYLE[basis],
    }),
    whither: wrapWithin(arrow.whither, width, 2, style),
  };
}

/** Water in and washings out stand on one line: it reads from left to right. */
function packed(laid: readonly Laid[]): Laid[][] {
  const bands: Laid[][] = [];
  for (const one of laid) {
    const last = bands.at(-1);
    const end = last?.at(-1);
    const follows =
      end !== undefined &&
      end.x1 < end.x2 &&
      one.x1 < one.x2 &&
      one.x1 >= end.x2 &&
      one.x1 - end.x2 < 4 * OFF;
    if (follows) last!.push(one);
    else bands.push([one]);
  }
  return bands;
}

function wordsOf({ arrow, textX, anchor, name, amount, whither }: Laid, y: number): Words[] {
  const base = { x: textX, anchor, size: SIZE };
  const below = y + SIZE + 1;
  return [
    ...name.map((text, i): Words => {
      return { ...base, y: y - 5 - (name.length - 1 - i) * LINE, text, ink: 'ink' };
    }),
    ...amount.map((text, i): Words => {
      const style = BASIS_STYLE[arrow.basis];
      return { ...base, y: below + i * LINE, text, ink: 'ink', ...style };
    }),
    ...whither.map((text, i): Words => {
      return { ...base, y: below + (amount.length + i) * LINE, text, ink: 'quiet' };
    }),
  ];
}
