import type { FlowRow, FlowState } from '../../core/report/flow/flow.ts';
import { formatQuantity } from '../../core/quantity/print.ts';
import { keepAmounts, textWidth, wrapText } from '../text/measure.ts';
import type { Arrow } from './arrows.ts';
import type { Bands } from './bands.ts';
import { slotX } from './frame.ts';
import type { Glass } from './glass.ts';
import { BASIS_STYLE, withMark } from './items.ts';
import type { Words } from './items.ts';
import type { Memory, Placed, Sheet, WideSheet } from './sheet.ts';
import type { ToldWeighing } from './words.ts';

/** A vessel as it stands after a step. */
export interface Standing {
  readonly state: FlowState;
  readonly x: number;
  readonly bottom: number;
}

const STATE = { size: 11.5, line: 14 };
/** Half of what the bar of a vessel's life takes, with air. */
const LIFE_px = 7;
/** After so many rows a vessel is called by its name again. */
const REMINDER_rows = 5;

/** Vessels that a step fills, takes from, weighs, or in which something changes. */
export function shownStates(
  row: FlowRow,
  arrows: readonly Arrow[],
  weighings: readonly ToldWeighing[],
  { slots }: Sheet,
  memory: Memory,
): FlowState[] {
  const touched = new Set([
    ...arrows.flatMap(({ from, to }) => [from, to]),
    ...weighings.map(({ vessel }) => vessel),
  ]);
  const own = row.states.filter(
    (state) =>
      touched.has(state.vessel) || signOf(state) !== signOf(memory.states.get(state.vessel)),
  );
  const weighed = weighings.flatMap(({ vessel }) =>
    row.states.some((state) => state.vessel === vessel) ? [] : (memory.states.get(vessel) ?? []),
  );
  return [...own, ...weighed].filter(
    ({ vessel, mass_g }) => mass_g > 0 && slots.slotOf.has(vessel),
  );
}

/** Two states with one sign look alike. */
export const signOf = (state: FlowState | undefined) =>
  state?.phases.map(({ phase, mass_g }) => `${phase} ${mass_g.toPrecision(2)}`).join(', ') ?? '';

export function placeStates(
  states: readonly FlowState[],
  weighings: readonly ToldWeighing[],
  bands: Bands,
  at: number,
  sheet: WideSheet,
  memory: Memory,
): Placed & { readonly standings: Standing[] } {
  const { frame, slots, glasses } = sheet;
  const placed = states.map((state) => {
    const slot = slots.slotOf.get(state.vessel)!;
    return { state, slot, glass: glasses.get(state.vessel)!, x: slotX(frame, slot) };
  });
  const blocks = placed.map(({ state, slot, glass, x }) => {
    const next = placed.find((one) => one.slot === slot + 1)?.glass.halfWidth_px ?? LIFE_px;
    const limit = slot + 1 < frame.slots ? slotX(frame, slot + 1) - next : frame.right;
    const width = limit - x - glass.halfWidth_px - 12;
    const lines = linesBeside(state, weighings, at, width, sheet, memory);
    return { state, glass, x, lines };
  });
  if (blocks.length === 0) return { words: [], standings: [], bottom: bands.bottom };
  const bottom = Math.max(...blocks.map((block) => standingLine(block, bands)));
  const words = blocks.flatMap(({ glass, x, lines }) =>
    lines.map((line, i): Words => {
      const y = bottom - 3 - (lines.length - 1 - i) * STATE.line;
      return { ...line, x: x + glass.halfWidth_px + 6, y, anchor: 'start' };
    }),
  );
  return { words, bottom, standings: blocks.map(({ state, x }) => ({ state, x, bottom })) };
}

interface Block {
  readonly glass: Glass;
  readonly x: number;
  readonly lines: readonly Unplaced[];
}

/** How high a vessel can stand at most, so that it and its words are clear of the arrows and theirs. */
function standingLine({ glass, x, lines }: Block, bands: Bands): number {
  const { halfWidth_px, height_px } = glass;
  const beside = x + halfWidth_px + 6;
  const length = Math.max(0, ...lines.map((line) => textWidth(line.text, line)));
  const ofGlass = bands.clearBelow(x - halfWidth_px - 3, x + halfWidth_px + 3) + height_px;
  const ofWords = bands.clearBelow(beside, beside + length) + lines.length * STATE.line + 4;
  return Math.max(ofGlass, ofWords) + 3;
}

export type Unplaced = Omit<Words, 'x' | 'y' | 'anchor'>;

/** Whether its name has not been said for so long that it is to be said again. */
export const reminded = (vessel: string, at: number, { namedIn }: Memory): boolean =>
  at - (namedIn.get(vessel) ?? at) >= REMINDER_rows;

/** What is in it; its name too where that has not been said for a while. */
function linesBeside(
  state: FlowState,
  weighings: readonly ToldWeighing[],
  at: number,
  width: number,
  sheet: Sheet,
  memory: Memory,
): Unplaced[] {
  const { size } = STATE;
  const lines: Unplaced[] = [];
  if (reminded(state.vessel, at, memory)) {
    memory.namedIn.set(state.vessel, at);
    const name = sheet.names.get(state.vessel)?.name ?? state.vessel;
    for (const text of wrapText(name, width, { size })) lines.push({ text, size, ink: 'quiet' });
  }
  return [...lines, ...linesOf(state, weighings, width, size)];
}

/** How much is in a vessel, or what it weighs. */
export function linesOf(
  state: FlowState,
  weighings: readonly ToldWeighing[],
  width: number,
  size: number,
): Unplaced[] {
  const weighed = weighings.filter(({ vessel }) => vessel === state.vessel);
  const lines: Unplaced[] = [];
  for (const { text, basis } of weighed) {
    const style = { size: size + 1.5, ...BASIS_STYLE[basis] };
    for (const line of wrapText(keepAmounts(withMark(text, basis)), width, style))
      lines.push({ text: line, ink: 'ink', ...style });
  }
  if (weighed.length === 0)
    lines.push({ text: `~${amountIn(state)}`, size, ink: 'quiet', italic: true });
  if (state.fill !== null && state.fill > 1)
    for (const text of wrapText('more than it holds', width, { size, bold: true }))
      lines.push({ text, size, ink: 'ink', bold: true });
  return lines;
}

/** A solid by its mass, everything else by its volume. */
export function amountIn(state: FlowState): string {
  const seen = state.phases.filter(({ phase, mass_g }) => phase !== 'vapour' && mass_g > 0);
  return seen.every(({ phase }) => phase === 'solid')
    ? formatQuantity(state.mass_g, 'mass', 3)
    : formatQuantity(state.volume_mL, 'volume', 2);
}
