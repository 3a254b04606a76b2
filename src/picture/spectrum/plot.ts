/** A part of a picture, in px. */
export interface Plot {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export const clampTo = ({ top, bottom }: Plot, y: number): number =>
  Math.min(bottom, Math.max(top, Number.isFinite(y) ? y : top));
