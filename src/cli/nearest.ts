/** The word that a slip of the fingers most likely meant, or undefined where none is near. */
export function nearestWord(given: string, words: readonly string[]): string | undefined {
  if (given.length === 0 || given.length > 40) return undefined;
  const limit = Math.max(1, Math.floor(given.length / 3));
  let best: string | undefined;
  let least = limit + 1;
  for (const word of words) {
    const d = word.startsWith(given) ? 1 : distance(given.toLowerCase(), word);
    if (d < least) {
      least = d;
      best = word;
    }
  }
  return best;
}

/** Optimal string alignment: letters put in, left out, changed, or two swapped. */
function distance(a: string, b: string): number {
  let older: number[] = [];
  let old = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const cost = a[i - 1] === b[j - 1] ? 0 : 1;
      let d = Math.min(old[j]! + 1, row[j - 1]! + 1, old[j - 1]! + cost);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        d = Math.min(d, older[j - 2]! + 1);
      row.push(d);
    }
    older = old;
    old = row;
  }
  return old[b.length]!;
}
