import { formatWithUncertainty } from '../../quantity/print.ts';
import type { Statement } from '../statement.ts';
import type { Subject, Subjects } from '../subject.ts';
import { coSpotSays, compareSpots, isAtEdge, mainSpot } from './compare.ts';
import type { Comparison } from './compare.ts';
import { AT_EDGE, PLATE_LIMITS, listOf, rfText, stepsOf } from './plate.ts';
import type { Plate } from './plate.ts';
import type { PlacedSpot } from './retention.ts';

/** Whether each starting material on the plate is still seen in the lane of the product. */
export function startingMaterialsOf(plate: Plate, others: readonly Subject[]): Statement[] {
  if (plate.product.length === 0) return [];
  const lanes = plate.entered.lanes
    .map((lane, i) => ({ lane, i }))
    .filter(({ lane }) => lane.kind === 'startingMaterial');
  const known = others.filter(({ role }) => role === 'startingMaterial');
  const only = known.length === 1 ? known[0]?.substance.name : undefined;
  return lanes.map(({ lane, i }) => {
    const name = lane.substance ?? only ?? 'the starting material';
    const spots = plate.placed.filter((spot) => spot.lane === i);
    return startingMaterialOf(plate, name, i, spots, `starting-material-${i + 1}`);
  });
}

function startingMaterialOf(
  plate: Plate,
  name: string,
  lane: number,
  spots: readonly PlacedSpot[],
  id: string,
): Statement {
  const own = mainSpot(spots);
  const base = {
    id,
    technique: 'thinLayer',
    about: 'startingMaterial',
    substance: name,
    what: `Spot of ${name} in the lane of the product`,
    measured: listOf(plate.product),
    expected: own === undefined ? '' : `no spot at ${rfText(own)}`,
  } as const;
  const undecided = (says: string, limits: string): Statement => ({
    ...base,
    agreement: 'cannotTell',
    weight: 'weak',
    says,
    limits,
  });
  if (own === undefined)
    return undecided(
      spots.length === 0
        ? `The lane of ${name} shows no spot, so that the plate cannot tell whether any is left.`
        : `The lane of ${name} shows several spots, none of them the main one.`,
      `Look at the plate in another way, one that shows ${name}. ${PLATE_LIMITS}`,
    );
  if (isAtEdge(own)) return undecided(`The spot of ${name} is at the edge of the run.`, AT_EDGE);
  const comparisons = plate.product
    .map((spot) => ({ spot, ...compareSpots(spot, own) }))
    .sort((a, b) => Math.abs(a.difference) - Math.abs(b.difference));
  const derivation = stepsOf([own, ...plate.product]);
  const rival = comparisons.find(
    ({ spot, likeness }) => likeness !== 'different' && !seenApart(spot, own),
  );
  if (rival === undefined)
    return {
      ...base,
      agreement: 'agrees',
      weight: 'moderate',
      says: `No spot of ${name} is seen in the product.`,
      limits: `A few per cent of ${name} may stay unseen. ${PLATE_LIMITS}`,
      derivation,
    };
  const together = coSpotSays(plate.entered, plate.placed, {
    product: plate.product[0]!.lane,
    other: lane,
  });
  return { ...base, derivation, ...overlap(plate, name, rival, together) };
}

type Verdict = Pick<Statement, 'agreement' | 'weight' | 'says' | 'limits'>;

/**
 * A spot of the product where the starting material runs: left over, or is it the product itself?
 */
function overlap(
  plate: Plate,
  name: string,
  rival: Comparison & { readonly spot: PlacedSpot },
  together: 'oneSpot' | 'twoSpots' | undefined,
): Verdict {
  if (plate.product.length === 1 && together === 'twoSpots')
    return {
      agreement: 'agrees',
      weight: 'moderate',
      says:
        `The product runs close to ${name}, but on one place the two show as two ` +
        `spots: they differ, and no ${name} is seen.`,
      limits: PLATE_LIMITS,
    };
  if (plate.product.length === 1)
    return {
      agreement: 'cannotTell',
      weight: 'weak',
      says:
        `The only spot of the product runs like ${name}: either nothing has reacted, ` +
        'or this eluent does not separate the two.',
      limits:
        together === undefined
          ? 'Put both on one place, and try another eluent.'
          : 'Even on one place they are one spot. Try another eluent, or another method.',
    };
  if (rival.likeness === 'unclear')
    return {
      agreement: 'cannotTell',
      weight: 'weak',
      says: `A spot of the product lies close to that of ${name}; the readings do not decide.`,
      limits: `Put both on one place. ${PLATE_LIMITS}`,
    };
  return {
    agreement: 'disagrees',
    weight: 'moderate',
    says: `The product still shows a spot where ${name} runs.`,
    limits:
      'Another substance may run alike. The plate does not say how much it is. ' +
      `${PLATE_LIMITS}`,
  };
}

/** The product beside an authentic sample on the same plate. */
export function authenticOf(plate: Plate, subjects: Subjects): Statement[] {
  const lanes = plate.entered.lanes.flatMap((lane, i) => (lane.kind === 'authentic' ? [i] : []));
  if (plate.product.length === 0) return [];
  return lanes.flatMap((i) => {
    const own = mainSpot(plate.placed.filter((spot) => spot.lane === i));
    if (own === undefined) return [];
    const lane = plate.entered.lanes[i]!;
    const name = nameOf(lane.substance, subjects) ?? plate.productName;
    // Where one spot stands out it is the product; what runs like a faint one is beside it
    const nearest = mainSpot(plate.product) ?? nearestTo(own, plate.product);
    const comparison = compareSpots(nearest, own);
    const together = coSpotSays(plate.entered, plate.placed, {
      product: nearest.lane,
      other: i,
    });
    return [
      {
        id: `authentic-${i + 1}`,
        technique: 'thinLayer',
        about: 'identity',
        substance: name,
        what: `Product beside authentic ${name}`,
        measured: rfText(nearest),
        expected: `${rfText(own)} (authentic sample, same plate)`,
        derivation: [
          ...stepsOf([nearest, own]),
          {
            label: 'Difference',
            formula: 'same up to 2 u, different from 3 u on',
            value: formatWithUncertainty(comparison.difference, comparison.u),
          },
        ],
        ...(seenApart(nearest, own)
          ? unlikeToTheEye(name)
          : likeAuthentic(name, comparison, together)),
      } as const satisfies Statement,
    ];
  });
}

/** A substance of the experiment by its own name, whichever of its names was written. */
function nameOf(written: string | undefined, { product, others }: Subjects): string | undefined {
  const key = written?.trim().toLowerCase();
  const known = [...(product === undefined ? [] : [product]), ...others].find(({ substance }) =>
    [substance.name, ...substance.synonyms].some((own) => own.toLowerCase() === key),
  );
  return known?.substance.name ?? written;
}

/** Both were looked at, and no way of looking shows the two. */
function seenApart({ entered: a }: PlacedSpot, { entered: b }: PlacedSpot): boolean {
  return (
    a.seenBy.length > 0 && b.seenBy.length > 0 && !a.seenBy.some((way) => b.seenBy.includes(way))
  );
}

function unlikeToTheEye(name: string): Verdict {
  return {
    agreement: 'disagrees',
    weight: 'moderate',
    says:
      `What shows the spot of the product does not show that of authentic ${name}: ` +
      'they are not one substance.',
    limits: `Too little on one lane can hide a spot. ${PLATE_LIMITS}`,
  };
}

function nearestTo(own: PlacedSpot, spots: readonly PlacedSpot[]): PlacedSpot {
  const away = ({ rf }: PlacedSpot) => Math.abs(rf.value - own.rf.value);
  return spots.reduce((best, spot) => (away(spot) < away(best) ? spot : best));
}

function likeAuthentic(
  name: string,
  { likeness, atEdge }: Comparison,
  together: 'oneSpot' | 'twoSpots' | undefined,
): Verdict {
  if (together === 'twoSpots')
    return {
      agreement: 'disagrees',
      weight: 'strong',
      says:
        `On one place, product and authentic ${name} show two spots: they are not one ` +
        'substance.',
      limits: PLATE_LIMITS,
    };
  if (likeness === 'different' && together !== 'oneSpot')
    return {
      agreement: 'disagrees',
      weight: 'moderate',
      says: `The product does not run like authentic ${name}.`,
      limits:
        'Too much on one lane, or salts, can shift a spot; a co-spot would tell. ' +
        `${PLATE_LIMITS}`,
    };
  if (atEdge || likeness !== 'same')
    return {
      agreement: 'cannotTell',
      weight: 'weak',
      says: `The plate does not decide whether the product runs like authentic ${name}.`,
      limits: atEdge ? AT_EDGE : `Put both on one place. ${PLATE_LIMITS}`,
    };
  return {
    agreement: 'agrees',
    weight: together === 'oneSpot' ? 'moderate' : 'weak',
    says:
      'The product runs like authentic ' +
      `${name}${together === 'oneSpot' ? ', on one place too' : ''}.`,
    limits: `Different substances can run alike in one eluent. ${PLATE_LIMITS}`,
  };
}
