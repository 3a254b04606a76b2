/** Two lists of texts laid beside each other. */
export interface Alignment {
  /** Places in the first list and in the second, in the order of the second. */
  readonly pairs: readonly { readonly before: number; readonly after: number }[];
  /** Pairs whose order against the others is not kept: moved. */
  readonly moved: ReadonlySet<number>;
  readonly removed: readonly number[];
  readonly added: readonly number[];
}

/** Less than half of the words in common: another sentence. */
const LEAST_SIMILAR = 0.5;

/**
 * Pairs what says the same, wherever it stands; then what is most alike, down to half of the words.
 * The pairs that keep their order and hold the most text stay; the others have moved.
 */
export function align(before: readonly string[], after: readonly string[]): Alignment {
  const a = before.map(wordsOf);
  const b = after.map(wordsOf);
  const toAfter = new Map<number, number>();
  const taken = new Set<number>();
  const pair = (i: number, j: number): void => {
    toAfter.set(i, j);
    taken.add(j);
  };
  pairEqual(a, b, pair);
  for (const { i, j } of candidates(a, b, toAfter, taken))
    if (!toAfter.has(i) && !taken.has(j)) pair(i, j);
  const pairs = [...toAfter]
    .map(([i, j]) => ({ before: i, after: j }))
    .sort((x, y) => x.after - y.after);
  return {
    pairs,
    moved: movedOf(pairs, before),
    removed: before.map((_, i) => i).filter((i) => !toAfter.has(i)),
    added: after.map((_, j) => j).filter((j) => !taken.has(j)),
  };
}

/** Words and figures in lower case: how a sentence is set does not count. */
export function wordsOf(text: string): readonly string[] {
  return text.toLowerCase().match(/[\p{L}\p{N}.,%°µ]*[\p{L}\p{N}%°]/gu) ?? [];
}

function pairEqual(
  a: readonly (readonly string[])[],
  b: readonly (readonly string[])[],
  pair: (i: number, j: number) => void,
): void {
  const places = new Map<string, number[]>();
  b.forEach((words, j) => {
    const key = words.join(' ');
    places.set(key, [...(places.get(key) ?? []), j]);
  });
  a.forEach((words, i) => {
    const j = places.get(words.join(' '))?.shift();
    if (j !== undefined) pair(i, j);
  });
}

/** The likest first; of those that are as like, the ones that stand nearest to each other. */
function candidates(
  a: readonly (readonly string[])[],
  b: readonly (readonly string[])[],
  toAfter: ReadonlyMap<number, number>,
  taken: ReadonlySet<number>,
): { readonly i: number; readonly j: number }[] {
  const found: { i: number; j: number; like: number }[] = [];
  a.forEach((words, i) => {
    if (toAfter.has(i)) return;
    b.forEach((others, j) => {
      if (taken.has(j)) return;
      const like = likeness(words, others);
      if (like >= LEAST_SIMILAR) found.push({ i, j, like });
    });
  });
  const apart = ({ i, j }: { i: number; j: number }) => Math.abs(i - j);
  return found.sort(
    (x, y) => y.like - x.like || apart(x) - apart(y) || x.i + x.j - (y.i + y.j) || x.i - y.i,
  );
}

/** Twice the words in common over all words (Dice, Ecology 1945, 26, 297). */
function likeness(a: readonly string[], b: readonly string[]): number {
  const left = new Map<string, number>();
  for (const word of a) left.set(word, (left.get(word) ?? 0) + 1);
  let common = 0;
  for (const word of b) {
    const count = left.get(word) ?? 0;
    if (count === 0) continue;
    common++;
    left.set(word, count - 1);
  }
  return a.length + b.length === 0 ? 0 : (2 * common) / (a.length + b.length);
}

/** What lies outside the heaviest increasing run of pairs, each weighing as much as its text. */
function movedOf(pairs: Alignment['pairs'], before: readonly string[]): ReadonlySet<number> {
  const best: { weight: number; from: number }[] = [];
  pairs.forEach((pair, k) => {
    let weight = 0;
    let from = -1;
    for (let m = 0; m < k; m++) {
      if (pairs[m]!.before < pair.before && best[m]!.weight > weight) {
        weight = best[m]!.weight;
        from = m;
      }
    }
    best.push({ weight: weight + before[pair.before]!.length + 1, from });
  });
  const kept = new Set<number>();
  let at = best.reduce((top, each, k) => (each.weight > (best[top]?.weight ?? -1) ? k : top), -1);
  while (at >= 0) {
    kept.add(at);
    at = best[at]!.from;
  }
  return new Set(pairs.map((_, k) => k).filter((k) => !kept.has(k)));
}
