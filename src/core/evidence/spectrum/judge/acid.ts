import { at, evidenceOf } from './evidence.ts';
import { canHold, isSolid } from './context.ts';
import type { Finding } from './finding.ts';
import { meanHeight } from './view.ts';
import { maximaWithin, mostProminent } from './maxima.ts';
import type { Readings } from './readings.ts';
import { sharesOf } from './readings.ts';
import { isZwitterion } from './signatures.ts';
import { moved } from './weigh.ts';

/** A carboxylic acid: the broad shelf of the bonded O–H with the C=O of a dimer. */
export function acid(readings: Readings): Finding {
  const { context, carbonyl, xh, gas } = readings;
  if (gas !== undefined) return gasAcid(readings);
  let probability = sharesOf(readings.causes, ['acid', 'hydroxylAndAcid', 'acidAndNh']);
  const reasons = [
    xh.shelf > 0.035
      ? `Between 2450 and 2700 cm⁻¹ the trace stays up, at ${xh.shelf.toFixed(2)} of the tallest band.`
      : 'Between 2450 and 2700 cm⁻¹ the trace is back at the baseline.',
  ];
  const evidence = [];
  const band = carbonyl.bands.find(
    ({ position_percm }) => position_percm > 1645 && position_percm < 1745,
  );
  if (band === undefined) {
    probability = moved(probability, 0.08);
    reasons.push('No C=O stands where an acid shows it.');
  } else {
    evidence.push(evidenceOf(context, 'C=O stretch', band));
    reasons.push(`The C=O at ${at(band.position_percm)} fits an acid.`);
    // So low a C=O is that of a salicylic acid, or of an amide or pyridone with a shelf of its N–H.
    const low = band.position_percm < 1662;
    const ratio = low ? (canHold(context, 'N') ? 0.3 : 0.8) : 1.3;
    probability = moved(probability, band.position_percm > 1728 ? 0.4 : ratio);
  }
  const wing = meanHeight(context.view, 3130, 3230) / context.view.tallest;
  const least = isSolid(context.state) ? 0.1 : 0.05;
  // The wing above the C–H bands and the shelf below them: one very broad band under both.
  if (wing > least && xh.shelf > 0.5 * least) probability = moved(probability, 4);
  const bend = mostProminent(
    maximaWithin(context.maxima, 880, 970).filter(({ width_percm }) => width_percm > 28),
  );
  if (bend !== undefined) evidence.push(evidenceOf(context, 'O–H···O bend', bend));
  probability = moved(probability, bend === undefined ? 0.75 : 2.2);
  if (probability < 0.75 && isZwitterion(context))
    return {
      probability: Math.max(probability, 0.3),
      evidence,
      reasons,
      hidden: 'NH₃⁺ beside CO₂⁻ fits: an amino acid, drawn as an acid, shows no band of one.',
    };
  return { probability, evidence, reasons };
}

/** In the vapour most acids are single molecules: O–H near 3580, C=O above 1740. */
function gasAcid({ context, gas, carbonyl }: Readings): Finding {
  const band = gas!.band;
  const places = carbonyl.bands.map(({ position_percm }) => position_percm);
  const high = places.some((p) => p > 1757 && p < 1840);
  // An aryl or unsaturated acid; a hydroxy ester as well.
  const middle = places.some((p) => p > 1735 && p <= 1757);
  // Bonded to an o-hydroxyl inside the molecule the C=O lies lower.
  const chelated = places.some((p) => p > 1695 && p <= 1735);
  const ratio = high ? 1.5 : middle ? 0.6 : chelated ? 0.8 : 0.1;
  const probability = moved(Math.min(0.99, gas!.causes.get('acid') ?? 0), ratio);
  return {
    probability,
    evidence: band === undefined ? [] : [evidenceOf(context, 'O–H stretch', band)],
    reasons: [
      'The vapour of an acid shows a narrow O–H near 3580 cm⁻¹ and its C=O near 1770 cm⁻¹; ' +
        (probability > 0.5 ? 'both are here.' : 'this pair is not here.'),
    ],
  };
}
