import type { TraceContext } from './context.ts';
import type { BandEvidence } from './group-judgement.ts';
import type { Maximum } from './maxima.ts';

export function evidenceOf(context: TraceContext, what: string, band: Maximum): BandEvidence {
  return {
    what,
    position_percm: Math.round(band.position_percm * 10) / 10,
    height: band.height,
    share: band.height / context.view.tallest,
    width_percm: Math.round(band.width_percm),
  };
}

/** "1715 cm⁻¹". */
export const at = (position_percm: number): string => `${Math.round(position_percm)} cm⁻¹`;

/** "0.42 of the tallest band"; of water, which counts as none of the sample's, it may be more. */
export function shareText(share: number): string {
  if (share > 1.005) return `${share.toFixed(1)} times as tall as the tallest of the others`;
  return `${(Math.round(share * 100) / 100).toFixed(2)} of the tallest band`;
}
