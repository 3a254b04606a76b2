export interface TextPiece {
  readonly text: string;
  /** Which of the numbers looked for this is. */
  readonly number?: number;
}

/** A sentence parted at the numbers that it contains, each found once, in the order of the sentence. */
export function piecesOf(sentence: string, numbers: readonly string[]): TextPiece[] {
  const pieces: TextPiece[] = [];
  let at = 0;
  while (at < sentence.length) {
    let next: { from: number; number: number } | undefined;
    numbers.forEach((wanted, number) => {
      if (wanted === '' || pieces.some((piece) => piece.number === number)) return;
      const from = sentence.indexOf(wanted, at);
      if (from >= 0 && (next === undefined || from < next.from)) next = { from, number };
    });
    if (next === undefined) break;
    const text = numbers[next.number]!;
    if (next.from > at) pieces.push({ text: sentence.slice(at, next.from) });
    pieces.push({ text, number: next.number });
    at = next.from + text.length;
  }
  if (at < sentence.length) pieces.push({ text: sentence.slice(at) });
  return pieces;
}
