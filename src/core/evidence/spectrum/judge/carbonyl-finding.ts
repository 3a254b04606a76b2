import type { TraceContext } from './context.ts';
import { canHold, isSolid } from './context.ts';
import { at, evidenceOf, shareText } from './evidence.ts';
import type { Finding } from './finding.ts';
import type { Maximum } from './maxima.ts';
import type { Readings } from './readings.ts';
import { sharesOf } from './readings.ts';
import { isCarboxylate, isChelate, isEnol, isNitrate, isZwitterion } from './signatures.ts';
import { isSaturated } from './view.ts';
import { moved } from './weigh.ts';
import type { XhCause } from './xh-condensed.ts';

/** From here on a band is called a C=O whatever else could make it unreadable. */
const FIRM = 0.6;

/** A C=O of any kind; what shares its place is weighed in `readCarbonyl`. */
export function carbonyl({ context, carbonyl: reading, causes }: Readings): Finding {
  const { band } = reading;
  if (band === undefined) {
    const unread = unreadable(context, causes);
    return {
      probability: reading.probability,
      evidence: [],
      reasons: ['No band of any height stands between 1640 and 1870 cm⁻¹.'],
      ...(unread !== undefined && { hidden: unread }),
    };
  }
  const share = band.height / context.view.tallest;
  const asTrace = reading.asTrace > 0.3 && reading.probability < 0.5;
  const flat = isSaturated(context.view, band.position_percm - 5, band.position_percm + 5);
  const unread = unreadable(context, causes);
  const probability = moved(reading.probability, ratioOf(context, causes, band));
  return {
    probability,
    evidence: [evidenceOf(context, 'C=O stretch', band)],
    ...(asTrace && {
      hidden: 'It is too small for the sample itself, and too tall to be called nothing.',
    }),
    ...(unread !== undefined && probability < FIRM && { hidden: unread }),
    reasons: [
      `The band at ${at(band.position_percm)} is ${shareText(share)}.`,
      ...(flat ? ['Its top is cut off, so that its position is less certain.'] : []),
      ...reading.rivals
        .filter(({ share: chance }) => chance > 0.1)
        .map(({ cause }) => RIVAL_SENTENCES[cause] ?? ''),
      ...(isSolid(context.state) ? ['In a solid its place tells the class only roughly.'] : []),
    ].filter((text) => text !== ''),
  };
}

const RIVAL_SENTENCES: Readonly<Record<string, string>> = {
  alkene: 'A C=C can absorb there.',
  strongAlkene: 'A C=C beside an oxygen, a nitrogen or a halogen can absorb there as strongly.',
  imine: 'A C=N can absorb there.',
  amineBend: 'The bend of an NH₂ can absorb there.',
  ring: 'An aromatic ring can absorb there.',
  nitrateOrNitrite: 'A nitrate or a nitrite can absorb there.',
  fluoroAlkene: 'A C=C with fluorine can absorb there.',
  traceCarbonyl:
    'So small a band can be a C=O of an impurity, or of what is left of a starting material.',
  carboxylate: 'A carboxylate can absorb there.',
  water: 'Water bends there.',
  combination: 'Overtones and combinations of a ring lie there.',
};

const AMINES = [
  'arylNh2',
  'arylNh',
  'conjugatedNh',
  'alkylNh2',
  'hydroxylAndNh',
] as const satisfies readonly XhCause[];

/** Partners in other regions that speak for or against a C=O at this place. */
function ratioOf(
  context: TraceContext,
  causes: ReadonlyMap<XhCause, number>,
  { position_percm: p }: Maximum,
): number {
  // The N–H of an amide speaks for the C=O beside it, where C=N and C=C absorb as well.
  const amides = p < 1700 ? sharesOf(causes, ['amideNh', 'amideNh2', 'imideNh']) : 0;
  // Beside the NH2 or NH of an amine the bend and C=N are as likely.
  const amines =
    p < 1662 && canHold(context, 'N') ? sharesOf(causes, ['arylNh2', 'alkylNh2', 'arylNh']) : 0;
  return (1 + 3 * amides) * (1 - 0.5 * amines) * (p < 1680 && isNitrate(context) ? 0.2 : 1);
}

/** Why a C=O that is there would not stand at its place, if the trace is of such a kind. */
function unreadable(
  context: TraceContext,
  causes: ReadonlyMap<XhCause, number>,
): string | undefined {
  if (isZwitterion(context) || isCarboxylate(context))
    return 'Strong wide bands at 1550 to 1630 and near 1400 cm⁻¹ fit CO₂⁻, whose C=O has no band of its own.';
  // Beside an NH2 or an NH the low band is the bend of it, or C=N.
  if (canHold(context, 'N') && sharesOf(causes, AMINES) > 0.4) return undefined;
  if (isEnol(context))
    return 'A strong wide band near 1600 cm⁻¹ fits an enol, whose C=O lies there.';
  if (isChelate(context, 1622))
    return 'A C=O that an O–H beside it bonds to lies as low as this band, and a C=N or C=C too.';
  return undefined;
}
