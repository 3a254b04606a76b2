import type { Piece } from '../../text.ts';
import type { Argument } from '../../verbs/verb.ts';
import type { MaterialTrouble } from '../materials.ts';
import type { Vocabulary } from '../vocabulary.ts';

export interface ReadArgument {
  readonly argument: Argument;
  /** Nought where nothing speaks against the reading. */
  readonly cost: number;
  readonly trouble?: readonly MaterialTrouble[];
}

export type Reader = (piece: Piece, vocabulary: Vocabulary) => ReadArgument | undefined;
