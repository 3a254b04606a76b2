import type { CleanText } from '../sentence/clean.ts';
import { readCompound } from '../sentence/compound.ts';
import type { SentenceReading } from '../sentence/read-sentence.ts';
import { splitSentences } from '../sentence/split.ts';
import type { Piece } from '../text.ts';
import { slicePiece } from '../text.ts';
import { isConditional } from './remarks.ts';
import { ready } from './sentence-reader.ts';
import type { SentenceReader } from './sentence-reader.ts';

/** A sentence does not go on for ever. */
const JOINED_LIMIT = 1000;
const KEEPING = /^(?:and )?(?:keep|save|retain|collect|combine|discard and keep)\b/i;

export interface ItemSentence {
  readonly piece: Piece;
  readonly reading: SentenceReading | undefined;
}

const ITEMS_REMEMBERED = 2000;
const remembered = new WeakMap<SentenceReader, Map<string, readonly ItemSentence[]>>();

/** Sentences of an item. While one item is typed in, the others are what they were. */
export function readItem(clean: CleanText, read: SentenceReader): readonly ItemSentence[] {
  const memory = remembered.get(read) ?? new Map<string, readonly ItemSentence[]>();
  remembered.set(read, memory);
  const before = memory.get(clean.text);
  if (before) return before;
  const found = readAfresh(clean, read);
  if (memory.size >= ITEMS_REMEMBERED) memory.clear();
  memory.set(clean.text, found);
  return found;
}

/** "keep the solid" goes with the sentence before it. */
function readAfresh(clean: CleanText, read: SentenceReader): ItemSentence[] {
  const found: ItemSentence[] = [];
  for (const piece of splitSentences({ text: clean.text, start: 0 })) {
    const before = found.at(-1);
    if (before?.reading && KEEPING.test(piece.text) && before.piece.text.length < JOINED_LIMIT) {
      const joined = join(clean, before.piece, piece);
      const reading = read(joined.text);
      if (reading && reading.cost <= before.reading.cost + 1.5) {
        found[found.length - 1] = { piece: joined, reading };
        continue;
      }
    }
    if (isConditional(piece.text)) {
      found.push({ piece, reading: undefined });
      continue;
    }
    for (const part of timedLead(piece))
      for (const { start, end, reading } of readCompound(part.text, ready(), read))
        found.push({
          piece: { text: part.text.slice(start, end), start: part.start + start },
          reading,
        });
  }
  return found;
}

/** "After 10 min, filter ..." waits first. */
function timedLead(piece: Piece): Piece[] {
  const lead =
    /^after (?:a further |another |about )?(?:(?:\d[\d.,–-]*|two|three|four|five|ten|fifteen|twenty|thirty|forty|forty-five)\s*(?:min|minutes|h|hours?|s|seconds)\b|an hour|half an hour),?\s+/i.exec(
      piece.text,
    );
  if (!lead) return [piece];
  const wait = `wait for ${lead[0].replace(/^after\s+/i, '').replace(/[,\s]+$/, '')}`;
  return [{ text: wait, start: piece.start }, slicePiece(piece, lead[0].length)];
}

function join(clean: CleanText, first: Piece, second: Piece): Piece {
  const between = clean.text
    .slice(first.start + first.text.length, second.start)
    .replace(/[.!?]/, ';');
  return { text: `${first.text}${between}${second.text}`, start: first.start };
}
