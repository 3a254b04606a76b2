import type { FlowRow, FlowState } from '../../core/report/flow/flow.ts';
import { formatQuantity } from '../../core/quantity/print.ts';
import { keepAmounts, textWidth, wrapText, wrapWithin } from '../text/measure.ts';
import { arrowsOf } from './arrows.ts';
import type { Arrow } from './arrows.ts';
import { placeBands } from './bands.ts';
import type { Bands } from './bands.ts';
import { slotX } from './frame.ts';
import type { Frame } from './frame.ts';
import type { Glass } from './glass.ts';
import { BASIS_STYLE, withMark } from './items.ts';
import type { Line, Words } from './items.ts';
import type { Life, Slots } from './slots.ts';
import { clockText, durationText, spanText } from './time.ts';
import { shortSentence } from './words.ts';
import type { FlowWords, ToldWeighing } from './words.ts';

export interface Sheet {
  readonly frame: Frame;
  readonly slots: Slots;
  readonly glasses: ReadonlyMap<string, Glass>;
  readonly names: ReadonlyMap<string, { readonly name: string; readonly note: string }>;
  readonly words: FlowWords | undefined;
  readonly selected: string | undefined;
}

/** What the rows before have shown. Changes as the rows are laid out one after the other. */
export interface Memory {
  readonly states: Map<string, FlowState>;
  /** The row in which a vessel was last called by its name. */
  readonly namedIn: Map<string, number>;
}

export interface Standing {
  readonly state: FlowState;
  readonly x: number;
  readonly bottom: number;
}

export interface PlacedRow {
  readonly step: string;
  readonly sentence: string;
  readonly time: string;
  readonly top: number;
  readonly bottom: number;
  readonly words: readonly Words[];
  readonly lines: readonly Line[];
  readonly standings: readonly Standing[];
  readonly arrows: readonly Arrow[];
  readonly weighings: readonly ToldWeighing[];
  /** Where in the row a vessel's life begins and ends. */
  readonly begins: ReadonlyMap<string, number>;
  readonly ends: ReadonlyMap<string, number>;
}

const PAD = 11;
const SENTENCE = { size: 14, line: 18 };
const TIME = { size: 11.5, line: 16 };
const NAME = { size: 12.5, line: 15 };
const NOTE = { size: 11.5, line: 14 };
const STATE = { size: 11.5, line: 14 };
const MOST_SENTENCE_LINES = 6;
/** Half of what the bar of a vessel's life takes, with air. */
const LIFE_px = 7;
/** After so many rows a vessel is called by its name again. */
const REMINDER_rows = 5;

export function placeRow(row: FlowRow, at: number, top: number, sheet: Sheet, memory: Memory) {
  const { frame, slots, words } = sheet;
  const arrows = arrowsOf(row, slots.slotOf, words);
  const weighings = (words?.weighings.get(row.step) ?? []).filter(({ vessel }) =>
    slots.slotOf.has(vessel),
  );
  const sentence = shortSentence(words?.sentences.get(row.step) ?? row.label);
  const said = placeSentence(row, sentence, top + PAD, sheet);
  const named = placeNames(at, top + PAD, sheet, memory);
  const bands = placeBands(arrows, named.bottom, frame, slots.slotOf);
  const shown = shownStates(row, arrows, weighings, sheet, memory);
  const stood = placeStates(shown, weighings, bands, at, sheet, memory);
  const bottom = Math.max(said.bottom, bands.bottom - 3, stood.bottom) + PAD;
  const lives = slots.lives;
  const placed: PlacedRow = {
    step: row.step,
    sentence,
    time: spanText(row.start_min, row.duration_min),
    top,
    bottom,
    words: [...said.words, ...named.words, ...bands.words, ...stood.words],
    lines: bands.lines,
    standings: stood.standings,
    arrows,
    weighings,
    begins: beginnings(lives, at, bands.entries, stood.standings, sheet, top),
    ends: endings(lives, at, bands.exits, bottom, (top + bottom) / 2),
  };
  for (const state of row.states) memory.states.set(state.vessel, state);
  return placed;
}

interface Placed {
  readonly words: Words[];
  readonly bottom: number;
}

function placeSentence(row: FlowRow, sentence: string, top: number, sheet: Sheet): Placed {
  const { margin, sentenceX, sentenceWidth } = sheet.frame;
  const lines = wrapWithin(keepAmounts(sentence), sentenceWidth, MOST_SENTENCE_LINES, SENTENCE);
  const ink = sheet.selected === row.step ? ('accent' as const) : ('ink' as const);
  const start = { anchor: 'start' as const, x: sentenceX };
  const first = top + SENTENCE.size * 0.8;
  const quiet = { ink: 'quiet' as const, size: TIME.size };
  const second = first + TIME.line + 1;
  const last = first + (lines.length - 1) * SENTENCE.line;
  const said = lines.map((text, i): Words => {
    return { ...start, y: first + i * SENTENCE.line, text, ink: 'ink', size: SENTENCE.size };
  });
  const words: Words[] = [
    { ...start, x: margin, y: first, text: row.step, ink, size: SENTENCE.size, bold: true },
    { ...start, ...quiet, x: margin, y: second, text: clockText(row.start_min) },
    ...said,
  ];
  const end = said.at(-1);
  if (row.duration_min < 0.5) return { words, bottom: Math.max(last, second) + 3 };
  // How long it takes stands after the sentence where there is room, else under it
  const text = durationText(row.duration_min);
  const tail = { text, size: TIME.size, gap: 9 };
  const width = textWidth(end?.text ?? '', SENTENCE) + tail.gap + textWidth(text, TIME);
  if (end !== undefined && width <= sentenceWidth) {
    words[words.length - 1] = { ...end, tail };
    return { words, bottom: Math.max(last, second) + 3 };
  }
  const y = last + TIME.line;
  words.push({ ...start, ...quiet, y, text });
  return { words, bottom: Math.max(y, second) + 3 };
}

/** A vessel is named where it first holds something, and again when it comes back after a while. */
function placeNames(at: number, top: number, sheet: Sheet, memory: Memory): Placed {
  const { frame, slots, names } = sheet;
  const words: Words[] = [];
  let bottom = top;
  for (const { vessel, first } of slots.lives) {
    const slot = slots.slotOf.get(vessel);
    if (first !== at || slot === undefined) continue;
    const before = memory.namedIn.get(vessel);
    memory.namedIn.set(vessel, at);
    const { name, note } = names.get(vessel) ?? { name: vessel, note: '' };
    const x = slotX(frame, slot);
    const width = frame.pitch - 10;
    const lines = wrapText(name, width, { ...NAME, bold: true });
    const notes = before === undefined ? wrapText(note, width, NOTE) : [];
    let y = top + NAME.size * 0.8;
    for (const text of lines) {
      words.push({ x, y, text, anchor: 'middle', ink: 'ink', size: NAME.size, bold: true });
      y += NAME.line;
    }
    for (const text of notes) {
      words.push({ x, y, text, anchor: 'middle', ink: 'quiet', size: NOTE.size });
      y += NOTE.line;
    }
    bottom = Math.max(bottom, y - 6);
  }
  return { words, bottom };
}

/** Vessels that a step fills, takes from, weighs, or in which something changes. */
function shownStates(
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
const signOf = (state: FlowState | undefined) =>
  state?.phases.map(({ phase, mass_g }) => `${phase} ${mass_g.toPrecision(2)}`).join(', ') ?? '';

function placeStates(
  states: readonly FlowState[],
  weighings: readonly ToldWeighing[],
  bands: Bands,
  at: number,
  sheet: Sheet,
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

type Unplaced = Omit<Words, 'x' | 'y' | 'anchor'>;

/** How much is in it, or what it weighs; its name too where that has not been said for a while. */
function linesBeside(
  state: FlowState,
  weighings: readonly ToldWeighing[],
  at: number,
  width: number,
  sheet: Sheet,
  memory: Memory,
): Unplaced[] {
  const weighed = weighings.filter(({ vessel }) => vessel === state.vessel);
  const { size } = STATE;
  const lines: Unplaced[] = [];
  if (at - (memory.namedIn.get(state.vessel) ?? at) >= REMINDER_rows) {
    memory.namedIn.set(state.vessel, at);
    const name = sheet.names.get(state.vessel)?.name ?? state.vessel;
    for (const text of wrapText(name, width, { size })) lines.push({ text, size, ink: 'quiet' });
  }
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

function beginnings(
  lives: readonly Life[],
  at: number,
  entries: ReadonlyMap<string, number>,
  standings: readonly Standing[],
  { glasses }: Sheet,
  top: number,
): ReadonlyMap<string, number> {
  return new Map(
    lives
      .filter(({ first }) => first === at)
      .map(({ vessel }) => {
        const standing = standings.find(({ state }) => state.vessel === vessel);
        const glass = glasses.get(vessel);
        const brim = standing && glass ? standing.bottom - glass.height_px : top + PAD;
        return [vessel, (entries.get(vessel) ?? brim + 4) - 4];
      }),
  );
}

function endings(
  lives: readonly Life[],
  at: number,
  exits: ReadonlyMap<string, number>,
  bottom: number,
  middle: number,
): ReadonlyMap<string, number> {
  return new Map(
    lives
      .filter(({ last }) => last === at)
      .map(({ vessel, ends }) => [
        vessel,
        ends === 'open' ? bottom : (exits.get(vessel) ?? middle) + 4,
      ]),
  );
}
