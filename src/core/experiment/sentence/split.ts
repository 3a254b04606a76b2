import type { Piece } from '../text.ts';
import { trimPiece } from '../text.ts';

/** A stop after one of these does not end a sentence. */
const ABBREVIATION =
  /(?:^|[\s(])(?:ca|approx|eq|equiv|e\.g|i\.e|cf|vs|no|fig|temp|conc|dil|sat|aq|anh|abs|soln|wt|vol|min|mins|sec|hrs?|h|r\.t|r|t|d|b\.p|m\.p|b|m|p|sp|gr|lit|dr)\.$/i;

/**
 * Parts an item into sentences at full stops, and into the clauses that a semicolon parts. A stop
 * counts when space and a capital (or the end) follow and no usual abbreviation comes before it.
 */
export function splitSentences(item: Piece): Piece[] {
  const found: Piece[] = [];
  let begin = 0;
  let depth = 0;
  const { text } = item;
  const cut = (end: number) => {
    const piece = trimPiece({ text: text.slice(begin, end), start: item.start + begin });
    if (piece.text !== '') found.push(piece);
  };
  for (let i = 0; i < text.length; i++) {
    const c = text[i]!;
    if (c === '(' || c === '[') depth++;
    else if ((c === ')' || c === ']') && depth > 0) depth--;
    const ends =
      (c === '.' || c === '!' || c === '?') &&
      depth === 0 &&
      /^\s*$|^\s+["“(]?(?:[A-Z0-9]|[a-z]{1,5}-[A-Z])/.test(text.slice(i + 1, i + 12)) &&
      isStop(text, i);
    if (ends) {
      cut(i);
      begin = i + 1;
    } else if (c === ';' && depth === 0) {
      cut(i);
      begin = i + 1;
    }
  }
  cut(text.length);
  return found;
}

function isStop(text: string, at: number): boolean {
  if (/^\s*$/.test(text.slice(at + 1))) return true;
  // "min. The" ends a sentence, "conc. HCl" and "ca. 2 g" do not
  const before = text.slice(Math.max(0, at - 12), at + 1);
  if (!ABBREVIATION.test(before)) return true;
  return (
    /(?:min|mins|sec|hrs?|h|temp|r\.t)\.$/i.test(before) &&
    /^\s+[A-Z][a-z]+\s/.test(text.slice(at + 1))
  );
}
