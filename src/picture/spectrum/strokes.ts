import { MOST_TRACES } from './spectrum-view.ts';
import type { TraceRole, TraceShown } from './spectrum-view.ts';

/** How the line of a trace is drawn: what tells it apart without any colour. */
export interface Stroke {
  /** px of line and of gap by turns; empty for a whole line. */
  readonly dashes: readonly number[];
  readonly width: number;
}

const STROKES = {
  whole: { dashes: [], width: 1.6 },
  long: { dashes: [10, 4], width: 1.25 },
  dots: { dashes: [2, 3], width: 1.5 },
  chain: { dashes: [11, 3, 2, 3], width: 1.25 },
  short: { dashes: [5, 3], width: 1.25 },
} as const satisfies Readonly<Record<string, Stroke>>;

type StrokeName = keyof typeof STROKES;

const USUAL: Readonly<Record<TraceRole, StrokeName>> = {
  sample: 'whole',
  startingMaterial: 'long',
  reference: 'dots',
  product: 'chain',
};

/** Each trace has a line of its own: that of its role, or where it is taken, the next. */
export function strokesOf(traces: readonly TraceShown[]): ReadonlyMap<string, Stroke> {
  const free = new Set(Object.keys(STROKES) as StrokeName[]);
  const wished = traces.slice(0, MOST_TRACES).map(({ id, role }) => {
    const name = USUAL[role];
    return { id, name: free.delete(name) ? name : undefined };
  });
  return new Map(
    wished.map(({ id, name }) => {
      const taken = name ?? [...free][0]!;
      free.delete(taken);
      return [id, STROKES[taken]];
    }),
  );
}
