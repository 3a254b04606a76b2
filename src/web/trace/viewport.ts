import type { Stretch } from '../../picture/spectrum/x-scale.ts';

/** A closer look than a two-hundredth of the whole shows no more. */
const CLOSEST = 1 / 200;

const span = ({ from, to }: Stretch) => to - from;

/** Moved as little as can be so that it lies within the whole. */
function within({ from, to }: Stretch, whole: Stretch): Stretch {
  if (to - from >= span(whole)) return whole;
  if (from < whole.from) return { from: whole.from, to: whole.from + (to - from) };
  if (to > whole.to) return { from: whole.to - (to - from), to: whole.to };
  return { from, to };
}

/** Closer by a factor (further for less than 1), with one place staying where it is. */
export function zoomedAbout(
  stretch: Stretch,
  whole: Stretch,
  factor: number,
  place: number,
): Stretch {
  const next = Math.min(span(whole), Math.max(span(whole) * CLOSEST, span(stretch) / factor));
  const share = (place - stretch.from) / span(stretch);
  const from = place - share * next;
  return within({ from, to: from + next }, whole);
}

export function panned(stretch: Stretch, whole: Stretch, by: number): Stretch {
  return within({ from: stretch.from + by, to: stretch.to + by }, whole);
}

/** As near to a part as the closest look and the whole allow, with its middle in the middle. */
export function lookingAt(part: Stretch, whole: Stretch): Stretch {
  const room = Math.min(span(whole), Math.max(span(whole) * CLOSEST, span(part)));
  const from = (part.from + part.to - room) / 2;
  return within({ from, to: from + room }, whole);
}

/** Moved, if it has to be, so that a place is seen, not quite at the edge. */
export function following(stretch: Stretch, whole: Stretch, place: number): Stretch {
  const margin = span(stretch) * 0.05;
  if (place < stretch.from + margin) return panned(stretch, whole, place - margin - stretch.from);
  if (place > stretch.to - margin) return panned(stretch, whole, place + margin - stretch.to);
  return stretch;
}

/** With one edge elsewhere: never closer than the closest, never beyond the whole. */
export function withEdge(
  stretch: Stretch,
  whole: Stretch,
  edge: 'from' | 'to',
  place: number,
): Stretch {
  const least = span(whole) * CLOSEST;
  const moved =
    edge === 'from'
      ? { from: Math.min(stretch.to - least, Math.max(whole.from, place)), to: stretch.to }
      : { from: stretch.from, to: Math.max(stretch.from + least, Math.min(whole.to, place)) };
  return within(moved, whole);
}

export const isWhole = (stretch: Stretch, whole: Stretch): boolean =>
  span(stretch) >= span(whole) * (1 - 1e-9);
