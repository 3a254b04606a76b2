import { readSmiles } from '../../chemistry/smiles.ts';
import { skeletonOf } from '../../chemistry/skeleton.ts';
import { stereocentres, symmetryClasses } from '../../chemistry/symmetry.ts';
import { standardUncertainty } from '../../quantity/uncertain.ts';
import { ownRotation } from './specific.ts';
import type { RotationEntered } from './schema.ts';

/** Whether a drawing has no carbon with four different neighbours, and no centre written as one. */
export function drawnAchiral(smiles: string | undefined): boolean {
  if (smiles === undefined || smiles.includes('@') || !readSmiles(smiles).ok) return false;
  const skeleton = skeletonOf(smiles);
  return stereocentres(skeleton, symmetryClasses(skeleton)).length === 0;
}

/** Whether the sample turns the light at all: by more than twice the uncertainty of the reading. */
export function turns(entered: RotationEntered): boolean {
  const alpha = ownRotation(entered);
  return Math.abs(alpha.value) > 2 * standardUncertainty(alpha);
}

/** What follows where nothing of the product can rotate. */
export const achiralSays = (name: string, isTurned: boolean): string =>
  isTurned
    ? `${name} has no stereocentre and cannot rotate: something else in the tube does.`
    : `${name} has no stereocentre, and the sample does not rotate.`;
