import { textWidth } from '../text/measure.ts';
import type { Verdict, WindowShown } from './spectrum-view.ts';

/** In words, since a shade or a pattern alone would have to be learned. */
export const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  present: 'seen',
  absent: 'not seen',
  cannotTell: 'cannot tell',
};

export interface PlacedWindow {
  readonly window: WindowShown;
  /** Its own edges in px, within the plot. */
  readonly left: number;
  readonly right: number;
  readonly label: string;
  /** Start of the label in px. */
  readonly labelX: number;
  readonly labelWidth: number;
  /** 0 is nearest to the plot; -1 where no lane had room, and the label is left out. */
  readonly lane: number;
}

export const WINDOW_SIZE = 12.5;
const BESIDE = 10;

/**
 * Windows with their labels over the plot, in as many lanes as they need up to a limit. The selected
 * one comes first, then those that ask for a decision, then the narrow before the wide.
 */
export function placeWindows(
  windows: readonly WindowShown[],
  edgesOf: (window: WindowShown) => readonly [left: number, right: number],
  plot: { readonly left: number; readonly right: number },
  lanes: number,
): PlacedWindow[] {
  const taken: (readonly [number, number])[][] = Array.from({ length: lanes }, () => []);
  const seen = windows
    .map((window) => ({ window, edges: edgesOf(window) }))
    .filter(({ edges }) => edges[1] > plot.left && edges[0] < plot.right)
    .sort((a, b) => rank(a.window) - rank(b.window) || widthOf(a) - widthOf(b));
  return seen.map(({ window, edges }) => {
    const [left, right] = [Math.max(plot.left, edges[0]), Math.min(plot.right, edges[1])];
    const label = `${window.label}, ${VERDICT_WORDS[window.verdict]}`;
    const labelWidth = textWidth(label, { size: WINDOW_SIZE, bold: window.selected === true });
    const middle = (left + right) / 2;
    const labelX = Math.max(plot.left, Math.min(plot.right - labelWidth, middle - labelWidth / 2));
    const span = [Math.min(left, labelX), Math.max(right, labelX + labelWidth)] as const;
    const lane = taken.findIndex((spans) =>
      spans.every(([a, b]) => span[1] + BESIDE <= a || span[0] >= b + BESIDE),
    );
    if (lane >= 0) taken[lane]!.push(span);
    return { window, left, right, label, labelX, labelWidth, lane };
  });
}

const rank = ({ selected, verdict }: WindowShown): number =>
  selected ? 0 : { absent: 1, cannotTell: 1, present: 2 }[verdict];

const widthOf = ({ edges }: { readonly edges: readonly [number, number] }) => edges[1] - edges[0];
