import type { InfraredSpectrum } from '../infrared.ts';
import { differenceOf } from '../treat/difference.ts';
import type { StructureFacts } from '../../structure.ts';
import type { IrBand } from './bands.ts';
import { bandsFor } from './bands.ts';
import type { TraceContext } from './context.ts';
import { at } from './evidence.ts';
import { whatHides } from './hiding.ts';
import { leastShare, maximaWithin, mostProminent } from './maxima.ts';

/** How much of a starting material is left, as far as the trace tells. */
export interface ResidualEstimate {
  readonly of: string;
  /** `itself`: no band of the product is seen, so that no share is estimated. */
  readonly kind: 'measured' | 'atMost' | 'itself';
  /** Share of the sample, 0 to 1, by absorbance: neither a mass nor a mole share. */
  readonly share: number;
  /** Standard uncertainty; 0 for a bound. */
  readonly u: number;
  readonly from: 'reference' | 'band';
  /** Of the band that it was estimated from. */
  readonly position_percm?: number;
  readonly says: string;
}

const curveOf = ({ wavenumber_percm: x, absorbance: y }: InfraredSpectrum) => ({ x, y });

/**
 * From the spectra of both pure substances: least squares, sample = a·product + b·starting
 * material + a straight line; share = b/(a+b) when each reference is scaled to its own sample
 * thickness, which nobody knows, so that a factor of 1.25 stands for it.
 */
export function residualFromReferences(
  sample: InfraredSpectrum,
  startingMaterial: InfraredSpectrum,
  product: InfraredSpectrum,
  name: string,
): ResidualEstimate | undefined {
  const fit = differenceOf(curveOf(sample), curveOf(startingMaterial), {
    others: [curveOf(product)],
    regions: [[600, 1900]],
  });
  const main = fit?.others[0];
  if (fit === undefined || main === undefined || main <= 0) return undefined;
  const share = Math.max(0, fit.factor) / (Math.max(0, fit.factor) + main);
  const u = Math.hypot(
    (fit.u * main) / (fit.factor + main) ** 2,
    share * (1 - share) * Math.log(1.25),
  );
  const noted = Math.max(u, 0.01);
  if (share < 2 * noted)
    return {
      of: name,
      kind: 'atMost',
      share: Math.min(1, share + 2 * noted),
      u: 0,
      from: 'reference',
      says: `By comparison with both pure spectra at most ${percent(share + 2 * noted)} of ${name} is left.`,
    };
  return {
    of: name,
    kind: 'measured',
    share,
    u: noted,
    from: 'reference',
    says: `By comparison with both pure spectra about ${percent(share)} ± ${percent(2 * noted)} (k = 2) is ${name}, by absorbance.`,
  };
}

/** Usual height of a strong band beside the tallest of a pure sample, and how far it varies. */
const USUAL: Readonly<Record<'vs' | 's', readonly [share: number, factor: number]>> = {
  vs: [0.85, 1.4],
  s: [0.5, 2],
};

/**
 * From one band of the starting material that the product cannot give. Undefined where it has none
 * above 1500 cm⁻¹ clear of the product's, or the trace hides it.
 */
export function residualFromBand(
  context: TraceContext,
  startingMaterial: StructureFacts,
  product: StructureFacts,
  name: string,
): ResidualEstimate | undefined {
  const band = clearBand(context, startingMaterial, product);
  if (band === undefined) return undefined;
  const { view } = context;
  const [usual, factor] = USUAL[band.intensity as 'vs' | 's'];
  const seen = mostProminent(
    maximaWithin(
      context.maxima,
      band.low_percm - view.positionU_percm,
      band.high_percm + view.positionU_percm,
    ),
  );
  const least = Math.max(0.02, leastShare(view));
  const share = seen === undefined ? 0 : seen.prominence / view.tallest;
  if (seen === undefined || share < least) {
    const bound = Math.min(1, (2 * least * factor) / usual);
    return {
      of: name,
      kind: 'atMost',
      share: bound,
      u: 0,
      from: 'band',
      says: `Its ${band.vibration} is not seen; by the usual height of such a band at most about ${percent(bound)} of ${name} can be left.`,
    };
  }
  const ratio = share / usual;
  const estimate = Math.min(0.95, ratio / (1 + ratio));
  const u = estimate * (1 - estimate) * Math.log(factor) + 0.01;
  return {
    of: name,
    kind: 'measured',
    share: estimate,
    u,
    from: 'band',
    position_percm: seen.position_percm,
    says: `The band at ${at(seen.position_percm)} fits the ${band.vibration} of ${name}. By its height roughly ${percent(estimate)} ± ${percent(2 * u)} (k = 2) may be left: an estimate from usual heights.`,
  };
}

/** The same where no band is seen that only the product has. */
export function asItself(residual: ResidualEstimate, product: string): ResidualEstimate {
  const { of, position_percm } = residual;
  const band = position_percm === undefined ? 'A band' : `The band at ${at(position_percm)}`;
  return {
    ...residual,
    kind: 'itself',
    share: 1,
    u: 0,
    says: `${band} fits ${of}, and no band is seen that only ${product} has: the sample looks like ${of} itself.`,
  };
}

function clearBand(
  context: TraceContext,
  startingMaterial: StructureFacts,
  product: StructureFacts,
): IrBand | undefined {
  const own = bandsFor(product, context.state).map(({ band }) => band);
  const apart = 15 + 2 * context.view.positionU_percm;
  return bandsFor(startingMaterial, context.state)
    .map(({ band }) => band)
    .filter(
      (band) =>
        band.duty === 'must' &&
        band.shape !== 'broad' &&
        band.shape !== 'very broad' &&
        (band.intensity === 'vs' || band.intensity === 's') &&
        band.low_percm > 1500 &&
        (band.high_percm < 2800 || band.low_percm > 3120) &&
        whatHides(context, band.low_percm, band.high_percm) === undefined &&
        !own.some(
          (one) =>
            one.low_percm - apart < band.high_percm && one.high_percm + apart > band.low_percm,
        ),
    )
    .sort((a, b) => a.high_percm - a.low_percm - (b.high_percm - b.low_percm))[0];
}

function percent(share: number): string {
  const value = share * 100;
  return `${value < 10 ? Math.round(value * 10) / 10 : Math.round(value)} %`;
}
