import type { Uncertain } from '../../quantity/uncertain.ts';

/** Why a value cannot be compared with the literature at all. */
export type Obstacle = string | undefined;

export interface Found {
  readonly name: string;
  readonly specific: Uncertain;
  readonly pure: Uncertain;
  readonly excess: Uncertain;
  readonly expected: string;
  readonly obstacle: Obstacle;
  /** Neither this sample nor a pure one would turn the light by an angle that can be read. */
  readonly tooDilute: boolean;
  /** What the pure enantiomer would turn it by, degrees. */
  readonly full_deg: number;
}

/** What every rotation leaves open. */
export const LIMITS =
  'A small amount of a strongly rotating impurity, or of an inactive one, shifts it; the specific rotation also depends on concentration, temperature and solvent. A separation of the enantiomers is surer.';
