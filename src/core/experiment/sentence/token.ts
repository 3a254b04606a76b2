import type { Piece } from '../text.ts';

/** A word of a sentence; a comma after a word is a word of its own. */
export interface Token {
  readonly text: string;
  /** Lower case, without quotation marks. */
  readonly word: string;
  readonly start: number;
  readonly end: number;
  /** How many brackets are open where it begins. */
  readonly depth: number;
}

export function tokenise(sentence: Piece): Token[] {
  const tokens: Token[] = [];
  let depth = 0;
  for (const match of sentence.text.matchAll(/\S+/g)) {
    let text = match[0];
    let start = sentence.start + match.index;
    const push = (piece: string, at: number) => {
      tokens.push({
        text: piece,
        word: piece.toLowerCase().replace(/["“”]/g, ''),
        start: at,
        end: at + piece.length,
        depth,
      });
      for (const c of piece) {
        if (c === '(' || c === '[') depth++;
        else if (c === ')' || c === ']') depth = Math.max(0, depth - 1);
      }
    };
    const tail = /[,:;]+$/.exec(text);
    if (tail && text.length > tail[0].length) {
      push(text.slice(0, tail.index), start);
      start += tail.index;
      text = tail[0];
    }
    push(text, start);
  }
  return tokens;
}

/** The text of the document that a run of tokens covers. */
export function textOf(
  document: string,
  tokens: readonly Token[],
  from: number,
  to: number,
): Piece {
  if (from >= to) return { text: '', start: tokens[from]?.start ?? 0 };
  const start = tokens[from]!.start;
  return { text: document.slice(start, tokens[to - 1]!.end), start };
}
