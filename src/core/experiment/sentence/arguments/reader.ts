import type { VesselDeclaration } from '../../step.ts';
import type { Piece } from '../../text.ts';
import type { Argument } from '../../verbs/verb.ts';
import type { MaterialTrouble } from '../materials.ts';

/** What is known of names while sentences are read. */
export interface Vocabulary {
  readonly vessels: readonly VesselDeclaration[];
  /** Names of declared products, lower case. */
  readonly products: readonly string[];
  /** Whether a name is a material that can be looked up. */
  knows(name: string): boolean;
  /** Whether a sentence may begin with a word: no name of a material does. */
  begins?(word: string): boolean;
}

export interface ReadArgument {
  readonly argument: Argument;
  /** Nought where nothing speaks against the reading. */
  readonly cost: number;
  readonly trouble?: readonly MaterialTrouble[];
}

export type Reader = (piece: Piece, vocabulary: Vocabulary) => ReadArgument | undefined;
