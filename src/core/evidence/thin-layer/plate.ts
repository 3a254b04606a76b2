import { formatWithUncertainty } from '../../quantity/print.ts';
import { standardUncertainty } from '../../quantity/uncertain.ts';
import type { DerivationStep } from '../statement.ts';
import type { PlacedSpot } from './retention.ts';
import type { ThinLayerEntered } from './schema.ts';

/** A plate with its spots placed: what every statement is made from. */
export interface Plate {
  readonly entered: ThinLayerEntered;
  readonly placed: readonly PlacedSpot[];
  readonly product: readonly PlacedSpot[];
  readonly productName: string;
}

export const PLATE_LIMITS =
  'A plate shows only what was applied, stayed on it and was made visible; what runs alike ' +
  'looks like one spot, and what evaporates is gone. Rf values hold for this plate alone.';

export const AT_EDGE =
  'Near the start line or the front everything runs together. Choose an eluent that brings the ' +
  'spot to Rf 0.2 to 0.8.';

export function rfText({ rf }: PlacedSpot): string {
  return `Rf ${formatWithUncertainty(rf.value, 2 * standardUncertainty(rf))}`;
}

export function listOf(spots: readonly PlacedSpot[]): string {
  return spots.map(rfText).join('; ');
}

export function stepsOf(spots: readonly PlacedSpot[]): DerivationStep[] {
  return spots.map((spot) => ({
    label: `Lane ${spot.lane + 1}, spot ${spot.spot + 1}`,
    formula: 'Rf = (spot − start)/(front − start); ± is 2 u',
    value: rfText(spot),
    source: 'IUPAC, Pure Appl. Chem. 1993, 65, 819',
  }));
}
