import type { Span } from './step.ts';

/** Turns offsets into lines and columns; built once for a document. */
export interface LineMap {
  readonly text: string;
  span(start: number, end: number): Span;
}

export function lineMap(text: string): LineMap {
  const starts = [0];
  for (let i = text.indexOf('\n'); i >= 0; i = text.indexOf('\n', i + 1)) starts.push(i + 1);
  return {
    text,
    span(start, end) {
      let low = 0;
      let high = starts.length - 1;
      while (low < high) {
        const middle = (low + high + 1) >> 1;
        if (starts[middle]! <= start) low = middle;
        else high = middle - 1;
      }
      return { start, end, line: low + 1, column: start - starts[low]! + 1 };
    },
  };
}

/** A stretch of the document. */
export interface Piece {
  readonly text: string;
  readonly start: number;
}

export function trimPiece(piece: Piece): Piece {
  const lead = piece.text.length - piece.text.trimStart().length;
  return { text: piece.text.trim(), start: piece.start + lead };
}

export function slicePiece(piece: Piece, from: number, to = piece.text.length): Piece {
  return { text: piece.text.slice(from, to), start: piece.start + from };
}
