import { textWidth } from '../text/measure.ts';
import { spread } from './spread.ts';

/** A band on its way to a label: where it stands and what is said of it. */
export interface LabelWish {
  readonly id: string;
  readonly text: string;
  /** px of the band itself. */
  readonly x: number;
  /** The higher, the rather it is kept where there is no room for all. */
  readonly rank: number;
  readonly selected: boolean;
}

export interface PlacedLabel extends LabelWish {
  /** px of the middle of the text. */
  readonly middle: number;
  readonly width: number;
  /** 0 is nearest to the curve. */
  readonly tier: number;
}

export const LABEL_SIZE = 12.5;
const PAD = 3;
/** Fuller than this and labels stand far from their bands. */
const FILLED = 0.8;

/**
 * Labels in two rows: neighbours that are too close stand in different rows, and all move sideways
 * by as little as can be. A leader passes beside every label of the nearer row. The lowest are left
 * out where the rows are full.
 */
export function placeLabels(
  wishes: readonly LabelWish[],
  left: number,
  right: number,
): { readonly placed: readonly PlacedLabel[]; readonly left: number } {
  const sized = wishes.map((wish) => ({
    ...wish,
    width: textWidth(wish.text, { size: LABEL_SIZE, bold: wish.selected }),
  }));
  const kept = keptOf(sized, right - left);
  const half = (i: number) => kept[i]!.width / 2;
  // Beside its neighbour's leader, and the one after next beside it in the same row.
  const gaps = kept.map((_, i) => (i === 0 ? 0 : Math.max(half(i - 1), half(i)) + PAD));
  const places = spread(
    kept.map(({ x }) => x),
    gaps,
    left + (kept.length > 0 ? half(0) : 0),
    right - (kept.length > 0 ? half(kept.length - 1) : 0),
  );
  const ends: number[] = [];
  const placed = kept.map((label, i): PlacedLabel => {
    const middle = places[i]!;
    const from = middle - label.width / 2;
    const tier = (ends[0] ?? -Infinity) + PAD <= from ? 0 : 1;
    ends[tier] = middle + label.width / 2;
    return { ...label, middle, tier };
  });
  return { placed, left: wishes.length - kept.length };
}

function keptOf<W extends LabelWish & { width: number }>(wishes: readonly W[], room: number): W[] {
  const ranked = [...wishes].sort(
    (a, b) => Number(b.selected) - Number(a.selected) || b.rank - a.rank || a.x - b.x,
  );
  const kept: W[] = [];
  let filled = 0;
  for (const wish of ranked) {
    filled += wish.width / 2 + PAD;
    if (filled > FILLED * room && kept.length > 0) break;
    kept.push(wish);
  }
  return kept.sort((a, b) => a.x - b.x || (a.id < b.id ? -1 : 1));
}
