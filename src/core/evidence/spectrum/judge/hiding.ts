import type { TraceContext } from './context.ts';
import { hiddenReason } from './group.ts';
import type { TraceView } from './view.ts';

interface Cover {
  readonly low_percm: number;
  readonly high_percm: number;
  readonly says: string;
}

const OIL = 'The oil of the mull absorbs there.';
const SOLVENT = 'The usual solvents, CCl₄ and CS₂, absorb there.';

const COVERS: Partial<Record<TraceContext['state'], readonly Cover[]>> = {
  mull: [
    { low_percm: 2830, high_percm: 2985, says: OIL },
    { low_percm: 1445, high_percm: 1475, says: OIL },
    { low_percm: 1368, high_percm: 1386, says: OIL },
    { low_percm: 716, high_percm: 728, says: OIL },
  ],
  solution: [
    { low_percm: 735, high_percm: 825, says: SOLVENT },
    { low_percm: 1490, high_percm: 1565, says: SOLVENT },
    { low_percm: 2120, high_percm: 2200, says: SOLVENT },
  ],
};

/**
 * Why a window of the trace cannot be judged, if so: not recorded, saturated from side to side, or
 * covered for the most part by what the sample lies in.
 */
export function whatHides(
  context: TraceContext,
  low_percm: number,
  high_percm: number,
): string | undefined {
  const cover = (COVERS[context.state] ?? []).find(
    (one) =>
      Math.min(one.high_percm, high_percm) - Math.max(one.low_percm, low_percm) >
      0.5 * (high_percm - low_percm),
  );
  if (cover !== undefined) return cover.says;
  if (isFlat(context.view, low_percm, high_percm))
    return 'The sample let no light through there: it was too thick.';
  return hiddenReason(context, [[low_percm, high_percm]]);
}

/** Saturated over the whole window and more. */
function isFlat(view: TraceView, low_percm: number, high_percm: number): boolean {
  return view.saturated.some(([from, to]) => from <= low_percm && to >= high_percm);
}
