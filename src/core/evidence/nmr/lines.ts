/** One line of a signal. */
export interface Line {
  readonly shift_ppm: number;
  readonly height: number;
  /** Place in the curve. */
  readonly at: number;
}

export interface LinePattern {
  readonly multiplicity: string;
  readonly centre_ppm: number;
  readonly J_Hz?: number;
}

const NAMES = ['s', 'd', 't', 'q', 'quint', 'sext', 'sept'];
/** How far spacings may differ from their mean, and heights from the binomial ones. */
const SPACING_SLACK = 0.2;
const HEIGHT_SLACK = 0.35;
/** Feet and wiggles under this share of the tallest line are no lines of the pattern (a septet's are 5 %). */
const FOOT_SHARE = 0.04;

function binomial(n: number): number[] {
  return Array.from({ length: n }, (_, k) => {
    let value = 1;
    for (let i = 0; i < k; i++) value = (value * (n - 1 - i)) / (i + 1);
    return value;
  });
}

/** Evenly spaced, with heights like binomial coefficients (roofing allowed for): s, d, t, q ... */
function isFirstOrder(lines: readonly Line[]): boolean {
  const gaps = lines.slice(1).map((line, i) => line.shift_ppm - lines[i]!.shift_ppm);
  const mean = gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length;
  if (gaps.some((gap) => Math.abs(gap / mean - 1) > SPACING_SLACK)) return false;
  const wanted = binomial(lines.length);
  const top = Math.max(...lines.map((line) => line.height));
  const most = Math.max(...wanted);
  return lines.every((line, i) => {
    const expected = wanted[i]! / most;
    return Math.abs(line.height / top - expected) <= HEIGHT_SLACK * Math.max(expected, 0.3);
  });
}

/**
 * The pattern of the lines of one signal: first order up to a septet, or "m". The outermost lines
 * of sextets and septets may be lost in the noise; then it is "m" too.
 */
export function patternOfLines(
  all: readonly Line[],
  frequency_MHz: number | undefined,
): LinePattern {
  const top = Math.max(...all.map((line) => line.height));
  const lines = all.filter((line) => line.height >= FOOT_SHARE * top);
  const first = lines[0]!.shift_ppm;
  const last = lines.at(-1)!.shift_ppm;
  const weight = lines.reduce((sum, line) => sum + line.height, 0);
  const centre = lines.reduce((sum, line) => sum + line.height * line.shift_ppm, 0) / weight;
  const name = NAMES[lines.length - 1];
  if (lines.length === 1 || name === undefined || !isFirstOrder(lines))
    return { multiplicity: lines.length === 1 ? 's' : 'm', centre_ppm: centre };
  const spacing = (last - first) / (lines.length - 1);
  return {
    multiplicity: name,
    centre_ppm: (first + last) / 2,
    ...(frequency_MHz === undefined ? {} : { J_Hz: spacing * frequency_MHz }),
  };
}
