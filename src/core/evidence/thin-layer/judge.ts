import type { Diagnostic } from '../../diagnostic.ts';
import type { Judged, Statement } from '../statement.ts';
import type { Subjects } from '../subject.ts';
import { authenticOf, startingMaterialsOf } from './beside.ts';
import { distinctSpots, isAtEdge } from './compare.ts';
import { AT_EDGE, PLATE_LIMITS, listOf, stepsOf } from './plate.ts';
import type { Plate } from './plate.ts';
import { placeSpots } from './retention.ts';
import type { ThinLayerEntered } from './schema.ts';

/**
 * A developed plate, judged: how many spots the product shows, whether a starting material is
 * still there, whether the product runs like an authentic sample. See docs/methods/tlc.md.
 */
export function judgeThinLayer(entered: ThinLayerEntered, subjects: Subjects): Judged {
  const { spots, diagnostics } = placeSpots(entered);
  const lane = entered.lanes.findIndex(({ kind }) => kind === 'product');
  const product = spots.filter((spot) => spot.lane === lane);
  const productName = subjects.product?.substance.name ?? 'the product';
  const plate: Plate = { entered, placed: spots, product, productName };
  const statements = [
    ...(product.length > 0 ? [purityOf(plate)] : []),
    ...startingMaterialsOf(plate, subjects.others),
    ...authenticOf(plate, subjects),
  ];
  return { statements, diagnostics: [...diagnostics, ...remarksOn(plate)] };
}

function purityOf(plate: Plate): Statement {
  const spots = distinctSpots(plate.product);
  const edge = spots.filter(isAtEdge);
  const base = {
    id: 'spots',
    technique: 'thinLayer',
    about: 'purity',
    substance: plate.productName,
    what: 'Spots of the product',
    measured: listOf(spots),
    expected: 'one spot',
    derivation: stepsOf(spots),
  } as const;
  if (spots.length > 1)
    return {
      ...base,
      agreement: 'disagrees',
      weight: 'moderate',
      says:
        `The product shows ${spots.length} spots: it holds more than one substance, or ` +
        'decomposed on the plate.',
      limits: `How dark a spot is does not say how much of it there is. ${PLATE_LIMITS}`,
    };
  if (edge.length > 0)
    return {
      ...base,
      agreement: 'cannotTell',
      weight: 'weak',
      says: 'The only spot lies at the start line or at the front, and decides nothing.',
      limits: `${AT_EDGE} ${PLATE_LIMITS}`,
    };
  const ways = new Set(plate.entered.visualisations).size;
  return {
    ...base,
    agreement: 'agrees',
    weight: ways > 1 ? 'moderate' : 'weak',
    says:
      ways > 1
        ? `One spot, looked at in ${ways} ways: no other substance is seen.`
        : 'One spot: no other substance is seen in the one way that the plate was looked at.',
    limits: PLATE_LIMITS,
  };
}

function remarksOn({ entered, placed, product }: Plate): Diagnostic[] {
  const remarks: Diagnostic[] = [];
  const lanes = entered.lanes.filter(({ kind }) => kind === 'product');
  if (lanes.length > 1)
    remarks.push({
      code: 'tlc-two-products',
      severity: 'note',
      message: 'Several lanes are called the product; the first is judged.',
      hint: 'Call a lane of the crude, or of another crop, something else.',
    });
  if (lanes[0]?.spots.length === 0)
    remarks.push({
      code: 'tlc-product-blank',
      severity: 'warning',
      message: 'The lane of the product shows no spot.',
      hint: 'Apply more, or look at the plate in another way: the product may not be visible so.',
    });
  if (lanes.length === 0)
    remarks.push({
      code: 'tlc-no-product',
      severity: 'warning',
      message: 'No lane of this plate is the product.',
      hint: 'Say which lane it is; without it the plate says nothing of the product.',
    });
  if (entered.visualisations.length === 0)
    remarks.push({
      code: 'tlc-not-visualised',
      severity: 'warning',
      message: 'Nothing says how the plate was looked at.',
      hint: 'Add UV 254 nm, a dip or the like. What is not made visible is not seen.',
    });
  if (product.length > 0 && product.every(isAtEdge))
    remarks.push({
      code: 'tlc-at-edge',
      severity: 'note',
      message: 'All spots of the product lie at the start line or at the front.',
      hint: AT_EDGE,
    });
  if (placed.some((spot) => spot.entered.tailing === true))
    remarks.push({
      code: 'tlc-tailing',
      severity: 'note',
      message: 'A spot has a tail, so that its place is known less well.',
      hint: 'Apply less; add a little acid for an acid, a little triethylamine for an amine.',
    });
  return remarks;
}
