/** A stretch of a changed sentence. */
export interface WordRun {
  readonly kind: 'same' | 'removed' | 'added';
  readonly text: string;
}

const MOST_WORDS = 600;

/** What was struck and what was written, word by word (longest common subsequence); blanks go with the word before. */
export function wordRuns(before: string, after: string): WordRun[] {
  const a = before.match(/\S+\s*/g) ?? [];
  const b = after.match(/\S+\s*/g) ?? [];
  if (a.length > MOST_WORDS || b.length > MOST_WORDS)
    return [
      { kind: 'removed', text: before },
      { kind: 'added', text: after },
    ];
  const lengths = commonLengths(a, b);
  const runs: WordRun[] = [];
  const put = (kind: WordRun['kind'], text: string): void => {
    const last = runs.at(-1);
    if (last?.kind === kind) runs[runs.length - 1] = { kind, text: last.text + text };
    else runs.push({ kind, text });
  };
  let i = 0;
  let j = 0;
  while (i < a.length || j < b.length) {
    if (i < a.length && j < b.length && bare(a[i]!) === bare(b[j]!)) {
      put('same', b[j]!);
      i++;
      j++;
    } else if (i < a.length && (j >= b.length || lengths[i + 1]![j]! >= lengths[i]![j + 1]!))
      put('removed', a[i++]!);
    else put('added', b[j++]!);
  }
  return runs;
}

const bare = (word: string): string => word.trimEnd();

/** How many words the rests from i and from j have in common. */
function commonLengths(a: readonly string[], b: readonly string[]): number[][] {
  const lengths = Array.from({ length: a.length + 1 }, () =>
    Array.from({ length: b.length + 1 }, () => 0),
  );
  for (let i = a.length - 1; i >= 0; i--)
    for (let j = b.length - 1; j >= 0; j--)
      lengths[i]![j] =
        bare(a[i]!) === bare(b[j]!)
          ? lengths[i + 1]![j + 1]! + 1
          : Math.max(lengths[i + 1]![j]!, lengths[i]![j + 1]!);
  return lengths;
}
