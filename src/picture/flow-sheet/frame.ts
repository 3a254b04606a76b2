/** Where a sheet begins and ends, in px. */
export interface Edges {
  readonly width: number;
  readonly margin: number;
  readonly right: number;
  /** From the rows' edge out to the frame of the selected one. */
  readonly frameGap: number;
  /** For the heading of a part. */
  readonly headingWidth: number;
}

/** The columns of the wide sheet, left to right: step, stock, vessels, what leaves. */
export interface Frame extends Edges {
  readonly sentenceX: number;
  readonly sentenceWidth: number;
  readonly stockX: number;
  readonly stockWidth: number;
  readonly firstSlotX: number;
  readonly pitch: number;
  readonly slots: number;
  readonly leavesX: number;
  readonly leavesWidth: number;
}

const MARGIN = 28;
const NUMBER = 42;
const LEAST_SENTENCE = 196;
const MOST_SENTENCE = 280;
const GAP = 18;
const STOCK = 164;
const LEAVES = 144;
/** From the stock's words to the first vessel, and from the last one to what leaves, of the pitch. */
const SIDE = 0.42;
const LEAST_PITCH = 104;
const MOST_PITCH = 150;

const FIXED = MARGIN + NUMBER + LEAST_SENTENCE + GAP + STOCK + LEAVES + MARGIN;

/** The pitches that so many columns of vessels take. */
const pitches = (slots: number) => Math.max(0, slots - 1) + 2 * SIDE;

/** How many columns of vessels there is room for. */
export const slotsWithin = (width: number): number =>
  Math.max(1, Math.floor((width - FIXED) / LEAST_PITCH - 2 * SIDE + 1));

/** A page of the width asked for, or wider where the vessels need it. */
export function frameOf(asked: number, slots: number): Frame {
  const width = Math.max(asked, Math.ceil(FIXED + pitches(slots) * LEAST_PITCH));
  const pitch = Math.min(MOST_PITCH, (width - FIXED) / pitches(slots));
  const spare = width - FIXED - pitch * pitches(slots);
  const sentenceWidth = Math.min(MOST_SENTENCE, LEAST_SENTENCE + spare);
  const sentenceX = MARGIN + NUMBER;
  const stockX = sentenceX + sentenceWidth + GAP;
  // What is left over goes to the stock, whose words are the longest
  const stockWidth = STOCK + spare - (sentenceWidth - LEAST_SENTENCE);
  const firstSlotX = stockX + stockWidth + SIDE * pitch;
  const leavesX = firstSlotX + (pitches(slots) - SIDE) * pitch;
  return {
    width,
    margin: MARGIN,
    sentenceX,
    sentenceWidth,
    stockX,
    stockWidth,
    firstSlotX,
    pitch,
    slots,
    leavesX,
    leavesWidth: LEAVES,
    right: width - MARGIN,
    frameGap: MARGIN / 2,
    headingWidth: stockX + stockWidth - MARGIN - 12,
  };
}

export const slotX = ({ firstSlotX, pitch }: Frame, slot: number) => firstSlotX + slot * pitch;
