import type { TraceContext } from './context.ts';
import { canHold } from './context.ts';
import { at, evidenceOf } from './evidence.ts';
import type { Finding } from './finding.ts';
import type { Maximum } from './maxima.ts';
import { maximaWithin, mostProminent, tallestOf } from './maxima.ts';
import type { Readings } from './readings.ts';
import type { Explanation } from './weigh.ts';
import { about, moved, near, weighed } from './weigh.ts';

const shareOf = ({ view }: TraceContext, band: Maximum | undefined): number =>
  band === undefined ? 0 : band.height / view.tallest;

type TripleCause = 'nitrile' | 'alkyne' | 'isocyanate' | 'nothing';

/** C≡N: narrow, between 2200 and 2270, of any height. */
export function nitrile({ context }: Readings): Finding {
  const { view } = context;
  const band = mostProminent(
    maximaWithin(context.maxima, 2190, 2285).filter(
      ({ width_percm, prominence }) => width_percm < 70 && prominence > 0.008 * view.tallest,
    ),
  );
  const causes = weighed(tripleCauses(context, band));
  if (band === undefined)
    return {
      probability: causes.get('nitrile') ?? 0,
      evidence: [],
      reasons: ['No band stands between 2200 and 2270 cm⁻¹.'],
    };
  return {
    probability: causes.get('nitrile') ?? 0,
    evidence: [evidenceOf(context, 'C≡N or C≡C stretch', band)],
    reasons: [
      `A band at ${at(band.position_percm)}, ${Math.round(band.width_percm)} cm⁻¹ wide, ` +
        'lies where C≡N absorbs; C≡C and N=C=O absorb there too.',
    ],
  };
}

function tripleCauses(
  context: TraceContext,
  band: Maximum | undefined,
): Explanation<TripleCause>[] {
  const spread = context.view.positionU_percm;
  const seen = (centre: number, sd: number, share: number, factor: number, width: number): number =>
    near(band!.position_percm, centre, Math.hypot(sd, spread), 95) +
    about(band!.prominence / context.view.tallest, share, factor) +
    about(band!.width_percm, width, 1.6);
  const none = band === undefined;
  const found: Explanation<TripleCause>[] = [
    {
      name: 'nothing',
      prior: 0.9,
      logLikelihood: none ? Math.log(0.85) : Math.log(0.15) + seen(2240, 40, 0.012, 1.8, 25),
    },
    {
      name: 'alkyne',
      prior: 0.012,
      logLikelihood: none ? Math.log(0.4) : Math.log(0.6) + seen(2225, 18, 0.05, 2.2, 14),
    },
  ];
  if (canHold(context, 'N')) {
    found.push({
      name: 'nitrile',
      prior: 0.06,
      logLikelihood: none ? Math.log(0.1) : Math.log(0.9) + seen(2232, 15, 0.22, 2.8, 14),
    });
    if (canHold(context, 'O'))
      found.push({
        name: 'isocyanate',
        prior: 0.008,
        logLikelihood: none ? Math.log(0.01) : seen(2267, 9, 0.95, 1.2, 45),
      });
  }
  return found;
}

/** The C–H of an aldehyde: one band near 2720 beside its C=O. */
export function aldehydeCh({ context, carbonyl, xh }: Readings): Finding {
  const { view } = context;
  const band = mostProminent(
    maximaWithin(context.maxima, 2692, 2752).filter(
      ({ prominence, width_percm }) => prominence > 0.015 * view.tallest && width_percm < 70,
    ),
  );
  const shift = context.state === 'gas' ? 22 : 0;
  const suits = carbonyl.bands.some(
    ({ position_percm: p }) => p > 1640 + shift && p < 1742 + shift,
  );
  const second = maximaWithin(context.maxima, 2795, 2860).some(
    ({ prominence }) => prominence > 0.015 * view.tallest,
  );
  let probability = carbonyl.probability * 0.12;
  const clear = band !== undefined && band.prominence > 0.05 * view.tallest;
  // On the shelf of an acid a satellite stands at the same place.
  const ratio = xh.shelf > 0.06 ? 2.5 : clear ? 18 : 7;
  probability = moved(probability, band === undefined ? 0.07 : ratio);
  probability = moved(probability, second ? 1.5 : 0.7);
  if (!suits) probability = moved(probability, 0.04);
  return {
    probability,
    evidence: band === undefined ? [] : [evidenceOf(context, 'C–H stretch of CHO', band)],
    reasons: [
      band === undefined
        ? 'No band stands near 2720 cm⁻¹, where an aldehyde shows its C–H.'
        : `A band at ${at(band.position_percm)} fits the C–H of an aldehyde; overtones fall there too.`,
    ],
  };
}

/** An aromatic ring: 1600 and 1500, C–H above 3000, out-of-plane bands below 900. */
export function aryl({ context }: Readings): Finding {
  const has = (low: number, high: number, share: number, width = 60): Maximum | undefined =>
    mostProminent(
      maximaWithin(context.maxima, low, high).filter(
        (one) => one.prominence > share * context.view.tallest && one.width_percm < width,
      ),
    );
  const [upper, lower] = [has(1558, 1620, 0.02), has(1476, 1522, 0.05)];
  const [stretch, bend] = [has(3005, 3110, 0.008), has(660, 870, 0.15)];
  const saturated = has(2840, 2995, 0.01);
  const only = stretch !== undefined && stretch.height > 3 * (saturated?.height ?? 0);
  let probability = 0.5;
  probability = moved(probability, upper === undefined ? 0.15 : 3.2);
  probability = moved(probability, lower === undefined ? 0.35 : 3);
  probability = moved(probability, stretch === undefined ? 0.3 : only ? 7 : 1.9);
  probability = moved(probability, bend === undefined ? 0.4 : 1.6);
  const bands = [upper, lower, stretch, bend].filter((one) => one !== undefined);
  return {
    probability,
    evidence: bands.map((band) => evidenceOf(context, 'aromatic ring', band)),
    reasons: [
      bands.length > 2
        ? `Bands at ${bands.map(({ position_percm }) => Math.round(position_percm)).join(', ')} cm⁻¹ fit an aromatic ring.`
        : 'Fewer than three of the four usual bands of an aromatic ring are here.',
    ],
  };
}

/** C=C beside C–H above 3000 and out-of-plane bands; a symmetric one shows little. */
export function alkene(readings: Readings): Finding {
  const { context } = readings;
  const has = (low: number, high: number, share: number): Maximum | undefined =>
    mostProminent(
      maximaWithin(context.maxima, low, high).filter(
        (one) => one.prominence > share * context.view.tallest,
      ),
    );
  const stretch = has(1618, 1682, 0.03);
  const ch = has(3005, 3098, 0.02);
  const bend = has(955, 1000, 0.2) ?? has(884, 918, 0.2);
  const ring = aryl(readings).probability;
  let probability = 0.2;
  probability = moved(probability, stretch === undefined ? 0.35 : 2.5);
  probability = moved(probability, ch === undefined ? 0.25 : 1 + 1.2 * (1 - ring));
  probability = moved(probability, bend === undefined ? 0.6 : 2);
  const bands = [stretch, ch, bend].filter((one) => one !== undefined);
  return {
    // A symmetric C=C shows nothing: its absence is never known from the trace.
    probability: Math.max(0.05, probability),
    evidence: bands.map((band) => evidenceOf(context, 'C=C or =C–H', band)),
    reasons: ['A C=C is weak in infrared, and absent where it is symmetric.'],
  };
}

/** C–O: nearly every strong band from 1000 to 1300 can be one, so it is never firm. */
export function carbonOxygen({ context }: Readings): Finding {
  const band = tallestOf(
    maximaWithin(context.maxima, 1000, 1310).filter(
      ({ prominence, height }) => prominence > 0.3 * height,
    ),
  );
  const share = shareOf(context, band);
  const probability = canHold(context, 'O') ? Math.min(0.85, 0.04 + 1.25 * share) : 0.001;
  return {
    probability,
    evidence: band === undefined ? [] : [evidenceOf(context, 'C–O stretch, perhaps', band)],
    reasons: [
      share > 0.3
        ? `A strong band at ${at(band!.position_percm)} can be a C–O stretch; C–F, S=O, C–N and P–O absorb there too.`
        : 'No strong band stands between 1000 and 1310 cm⁻¹.',
    ],
  };
}

/** C–Cl: among the bands of the ring and of CH out of plane, so it is never firm. */
export function carbonChlorine({ context }: Readings): Finding {
  const band = tallestOf(maximaWithin(context.maxima, 550, 850));
  const share = shareOf(context, band);
  const probability = canHold(context, 'Cl') ? Math.min(0.6, 0.05 + 0.5 * share) : 0.001;
  return {
    probability,
    evidence: band === undefined ? [] : [evidenceOf(context, 'C–Cl stretch, perhaps', band)],
    reasons: ['Between 550 and 850 cm⁻¹ many bands of other kinds lie.'],
  };
}
