/** Of one chromatogram: more are noise. */
export const MOST_PEAKS = 300;
