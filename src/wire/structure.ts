import type { StructureFacts } from '../core/evidence/structure.ts';

/** Where atoms stand in the drawing of a structure: px, in the order of the SMILES. */
export interface AtomPlaces {
  readonly width: number;
  readonly height: number;
  readonly atoms: readonly { readonly x: number; readonly y: number }[];
}

export interface StructureDrawn extends StructureFacts {
  readonly places?: AtomPlaces;
}

/** Which groups a structure holds, or why it could not be read. */
export type StructureAnswered =
  StructureDrawn | { readonly smiles: string; readonly message: string };
