import type { FlowRow, FlowSheet, FlowState } from '../../core/report/flow/flow.ts';
import { keepAmounts, wrapText } from '../text/measure.ts';
import { arrowsOf } from './arrows.ts';
import type { Arrow } from './arrows.ts';
import type { Edges } from './frame.ts';
import { glassesOf } from './glass.ts';
import { BASIS_STYLE, lineWidth, withMark } from './items.ts';
import type { Tail, Words } from './items.ts';
import { finished, namesOf, placeTitle, stacked, titleOf } from './layout.ts';
import type { Layout, LayoutOptions, Sizes } from './layout.ts';
import type { PlacedRow } from './row.ts';
import { remembering } from './row-memory.ts';
import { nothingShown } from './sheet.ts';
import type { Memory, Placed, Sheet } from './sheet.ts';
import { slotsOf } from './slots.ts';
import { linesOf, shownStates } from './states.ts';
import type { Standing, Unplaced } from './states.ts';
import { clockText, durationText, spanText } from './time.ts';
import { shortSentence } from './words.ts';
import type { ToldWeighing } from './words.ts';

/*
 * The sheet for a narrow page: one column of steps, what moves as lines of words, and at the right
 * the vessels that the step touches. No letter is smaller than 14 px.
 */

const MARGIN = 14;
const PAD = 13;
const GAP = 12;
/** Of the page: the vessels with their words. */
const GLASS_COLUMN = 98;
/** Makes the widest vessel fill half of its column. */
const GLASS_PITCH = 98;
const SENTENCE = { size: 16, line: 21 };
const LINE = { size: 14, line: 19 };
const PART = { size: 15, bold: true };
const SPACE = 5;

const SIZES: Sizes = {
  title: { size: 22, bold: true, line: 28 },
  answer: { size: 16, line: 22 },
  note: LINE,
};

export function narrowLayoutOf(flow: FlowSheet, options: LayoutOptions): Layout {
  const { width, words, selected } = options;
  const edges: Edges = {
    width,
    margin: MARGIN,
    right: width - MARGIN,
    frameGap: MARGIN / 2,
    headingWidth: width - 2 * MARGIN,
  };
  const slots = slotsOf(flow, Infinity);
  const columns = flow.columns.filter(({ vessel }) => slots.slotOf.has(vessel));
  const glasses = glassesOf(columns, GLASS_PITCH);
  const sheet: Sheet = { edges, slots, glasses, names: namesOf(columns), words, selected };
  const titled = titleOf(flow, columns.length, options);
  const title = placeTitle(titled, flow, edges, SIZES);
  const head = { words: title.words, bottom: title.y + 16 };
  const memory = nothingShown();
  const place = remembering(options.rows, sheet, memory, (row, _at, top) =>
    placeNarrow(row, top, sheet, memory),
  );
  const rows = stacked(flow, head.bottom, sheet, place, PART);
  return {
    title: titled.title,
    answer: titled.answer,
    head,
    bars: [],
    ...finished(rows, head.bottom, sheet, { size: LINE.size, lives: false }),
  };
}

function placeNarrow(row: FlowRow, top: number, sheet: Sheet, memory: Memory): PlacedRow {
  const { slots, words } = sheet;
  const arrows = arrowsOf(row, slots.slotOf, words);
  const weighings = (words?.weighings.get(row.step) ?? []).filter(({ vessel }) =>
    slots.slotOf.has(vessel),
  );
  const sentence = shortSentence(words?.sentences.get(row.step) ?? row.label);
  const shown = shownStates(row, arrows, weighings, sheet, memory);
  const stood = placeGlasses(shown, weighings, top + PAD, sheet);
  const said = placeLines(row, sentence, arrows, top + PAD, shown.length > 0, sheet);
  for (const state of row.states) memory.states.set(state.vessel, state);
  return {
    step: row.step,
    sentence,
    time: spanText(row.start_min, row.duration_min),
    top,
    bottom: Math.max(said.bottom, stood.bottom) + PAD,
    words: [...said.words, ...stood.words],
    lines: [],
    standings: stood.standings,
    arrows,
    weighings,
    begins: new Map(),
    ends: new Map(),
  };
}

/** Number and time, the sentence, and a line for everything that moves. */
function placeLines(
  row: FlowRow,
  sentence: string,
  arrows: readonly Arrow[],
  top: number,
  beside: boolean,
  { edges, names, selected }: Sheet,
): Placed {
  const width = edges.right - edges.margin - (beside ? GLASS_COLUMN + GAP : 0);
  const start = { x: edges.margin, anchor: 'start' as const };
  const words: Words[] = [];
  let y = top + SENTENCE.size * 0.8;
  const time = [clockText(row.start_min)];
  if (row.duration_min >= 0.5) time.push(durationText(row.duration_min));
  words.push({
    ...start,
    y,
    text: row.step,
    size: SENTENCE.size,
    bold: true,
    ink: selected === row.step ? 'accent' : 'number',
    tails: [{ text: time.join(' · '), size: LINE.size, gap: 10, ink: 'quiet' }],
  });
  for (const text of wrapText(keepAmounts(sentence), width, SENTENCE)) {
    y += SENTENCE.line;
    words.push({ ...start, y, text, size: SENTENCE.size, ink: 'ink' });
  }
  y += SPACE;
  for (const arrow of arrows) {
    for (const line of linesOfArrow(arrow, width, names)) {
      y += LINE.line;
      words.push({ ...start, ...line, y });
    }
    y += SPACE;
  }
  return { words, bottom: y };
}

type TextLine = Unplaced & { readonly tails?: readonly Tail[] };

/** "4-methylcyclohexanone 1.12 g → flask", broken between its parts where it has to be. */
function linesOfArrow(arrow: Arrow, width: number, names: Sheet['names']): TextLine[] {
  const { name, amount, basis } = arrow;
  const { size } = LINE;
  const parts: Unplaced[] = [
    { text: name, size, ink: 'ink' },
    { text: withMark(amount, basis), size, ink: 'ink', ...BASIS_STYLE[basis] },
    { text: wayOf(arrow, names), size, ink: 'quiet' },
  ];
  const lines: TextLine[] = [];
  for (const part of parts) {
    const [first, ...more] = wrapText(part.text, width, part);
    if (first === undefined) continue;
    const last = lines.at(-1);
    const tail: Tail = { ...part, text: first, gap: SPACE };
    const joined = last && { ...last, tails: [...(last.tails ?? []), tail] };
    if (joined !== undefined && more.length === 0 && lineWidth(joined) <= width)
      lines[lines.length - 1] = joined;
    else lines.push({ ...part, text: first });
    lines.push(...more.map((text) => ({ ...part, text })));
  }
  return lines;
}

function wayOf({ from, to, name, whither, gas }: Arrow, names: Sheet['names']): string {
  const nameOf = (vessel: string) => names.get(vessel)?.name ?? vessel;
  const source = from === undefined ? '' : `${nameOf(from)} `;
  // Where the name says already where it goes ("the air"), it only leaves
  const goal = to === undefined ? whither.replace(/^to /, '') || name : nameOf(to);
  return `${source}→ ${goal}${gas ? ', as a gas' : ''}`;
}

/** One under the other at the right edge, each over its name and what is in it. */
function placeGlasses(
  states: readonly FlowState[],
  weighings: readonly ToldWeighing[],
  top: number,
  { edges, glasses, names }: Sheet,
): Placed & { readonly standings: readonly Standing[] } {
  const x = edges.right - GLASS_COLUMN / 2;
  const words: Words[] = [];
  const standings: Standing[] = [];
  let y = top;
  for (const state of states) {
    y += glasses.get(state.vessel)!.height_px;
    standings.push({ state, x, bottom: y });
    const { size } = LINE;
    const name = wrapText(names.get(state.vessel)?.name ?? state.vessel, GLASS_COLUMN, { size });
    const lines: Unplaced[] = [
      ...name.map((text) => ({ text, size, ink: 'ink' as const })),
      ...linesOf(state, weighings, GLASS_COLUMN, size),
    ];
    for (const line of lines) {
      y += line === lines[0] ? LINE.line - 1 : LINE.line;
      words.push({ ...line, x, y, anchor: 'middle' });
    }
    y += PAD;
  }
  return { words, standings, bottom: states.length === 0 ? top : y - PAD + 3 };
}
