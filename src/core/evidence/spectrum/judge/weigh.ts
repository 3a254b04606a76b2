/**
 * Weighing of explanations: each says how likely it makes what is measured, and Bayes' rule says
 * what that makes of them. Features are taken as independent, which they are not quite, so that
 * every log-likelihood is multiplied by TEMPER.
 */
export const TEMPER = 0.75;
/** A share of the cases that no model describes: keeps one odd feature from deciding alone. */
const OUTLIERS = 0.03;

/** ln of a normal density in x, with outliers spread evenly over `range`. */
export function near(x: number, mean: number, sd: number, range: number): number {
  const z = (x - mean) / sd;
  const normal = Math.exp(-0.5 * z * z) / (sd * 2.5066);
  return Math.log((1 - OUTLIERS) * normal + OUTLIERS / range);
}

/** ln of a log-normal density: `factor` is e^σ, so two thirds lie within it of the median. */
export function about(x: number, median: number, factor: number): number {
  return near(Math.log(Math.max(x, 1e-6)), Math.log(median), Math.log(factor), 8);
}

/** ln of the density of a place anywhere between two limits. */
export const anywhere = (range: number): number => -Math.log(range);

/** ln of the probability of a yes or no. */
export const whether = (yes: boolean, chance: number): number =>
  Math.log(yes ? chance : 1 - chance);

export interface Explanation<Name extends string> {
  readonly name: Name;
  /** How common it is before the trace is looked at; need not add up to 1. */
  readonly prior: number;
  /** ln of the density of the features under this explanation. */
  readonly logLikelihood: number;
}

/** Shares of the explanations, adding up to 1. */
export function weighed<Name extends string>(
  explanations: readonly Explanation<Name>[],
): Map<Name, number> {
  const scores = explanations.map(
    ({ prior, logLikelihood }) => Math.log(Math.max(prior, 1e-12)) + TEMPER * logLikelihood,
  );
  const top = Math.max(...scores);
  const weights = scores.map((score) => Math.exp(score - top));
  const total = weights.reduce((sum, one) => sum + one, 0);
  return new Map(explanations.map(({ name }, i) => [name, weights[i]! / total]));
}

/** A probability moved by a likelihood ratio. */
export function moved(probability: number, ratio: number): number {
  const odds = (probability / (1 - probability)) * ratio;
  return odds / (1 + odds);
}

/** 0 well below `middle`, 1 well above; `scale` is the width of the change. */
export function rising(x: number, middle: number, scale: number): number {
  return 1 / (1 + Math.exp(-(x - middle) / scale));
}

/**
 * Chance that a band is not seen: `base`, more where its height, log-normal about `share`, can lie
 * below the `least` share that stands out of the noise.
 */
export function missChance(base: number, share: number, factor: number, least: number): number {
  const below = rising(Math.log(least / share) / Math.log(factor), 0, 0.6);
  return Math.min(0.98, base + (1 - base) * below);
}
