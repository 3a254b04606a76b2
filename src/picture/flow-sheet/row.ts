import type { FlowRow } from '../../core/report/flow/flow.ts';
import { keepAmounts, textWidth, wrapText, wrapWithin } from '../text/measure.ts';
import { arrowsOf } from './arrows.ts';
import type { Arrow } from './arrows.ts';
import { placeBands } from './bands.ts';
import { slotX } from './frame.ts';
import type { Line, Words } from './items.ts';
import type { Memory, Placed, WideSheet } from './sheet.ts';
import type { Life } from './slots.ts';
import { placeStates, shownStates } from './states.ts';
import type { Standing } from './states.ts';
import { clockText, durationText, spanText } from './time.ts';
import { shortSentence } from './words.ts';
import type { ToldWeighing } from './words.ts';

/** A row with its places from its own beginning down, wherever on the sheet that is. */
export interface PlacedRow {
  readonly step: string;
  readonly sentence: string;
  readonly time: string;
  /** Under the heading of a part of the procedure, which stands over its first row. */
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
const MOST_SENTENCE_LINES = 6;

export function placeRow(row: FlowRow, at: number, top: number, sheet: WideSheet, memory: Memory) {
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
    begins: beginnings(slots.lives, at, bands.entries, stood.standings, sheet, top),
    ends: endings(slots.lives, at, bands.exits, bottom, (top + bottom) / 2),
  };
  for (const state of row.states) memory.states.set(state.vessel, state);
  return placed;
}

function placeSentence(row: FlowRow, sentence: string, top: number, sheet: WideSheet): Placed {
  const { margin, sentenceX, sentenceWidth } = sheet.frame;
  const lines = wrapWithin(keepAmounts(sentence), sentenceWidth, MOST_SENTENCE_LINES, SENTENCE);
  const ink = sheet.selected === row.step ? ('accent' as const) : ('number' as const);
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
  const tail = { text, size: TIME.size, gap: 9, ink: 'quiet' as const };
  const width = textWidth(end?.text ?? '', SENTENCE) + tail.gap + textWidth(text, TIME);
  if (end !== undefined && width <= sentenceWidth) {
    words[words.length - 1] = { ...end, tails: [tail] };
    return { words, bottom: Math.max(last, second) + 3 };
  }
  const y = last + TIME.line;
  words.push({ ...start, ...quiet, y, text });
  return { words, bottom: Math.max(y, second) + 3 };
}

/** A vessel is named where it first holds something, and again when it comes back after a while. */
function placeNames(at: number, top: number, sheet: WideSheet, memory: Memory): Placed {
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

function beginnings(
  lives: readonly Life[],
  at: number,
  entries: ReadonlyMap<string, number>,
  standings: readonly Standing[],
  { glasses }: WideSheet,
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
