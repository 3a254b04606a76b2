import { VERBS } from './verbs/index.ts';

/** Edits between two short words, a swap of neighbours being one (Damerau–Levenshtein, restricted). */
function distance(a: string, b: string): number {
  let previous: number[] = [];
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const cost = a[i - 1] === b[j - 1] ? 0 : 1;
      let best = Math.min(row[j]! + 1, next[j - 1]! + 1, row[j - 1]! + cost);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) best = Math.min(best, previous[j - 2]! + 1);
      next.push(best);
    }
    previous = row;
    row = next;
  }
  return row[b.length]!;
}

/** The form that a sentence comes nearest to, and its text with the verb put right where that is plain. */
export function nearestForm(text: string): { form: string; fix?: string } {
  const words = text.toLowerCase().match(/\p{L}[\p{L}-]*/gu)?.slice(0, 40) ?? [];
  const first = words[0] ?? '';
  let best: { score: number; form: string; head: string; typo: boolean } | undefined;
  for (const verb of VERBS) {
    for (const head of verb.heads) {
      const headWord = head.split(' ')[0]!;
      const off = Math.min(distance(first.slice(0, 20), headWord), 9);
      const form = verb.forms[0]!;
      const shared = words.filter((word) => form.toLowerCase().includes(word)).length;
      const anywhere = words.includes(headWord) ? 2 : 0;
      const score = (off <= Math.max(1, headWord.length / 4) ? 6 - off : 0) + anywhere + 0.3 * shared;
      if (!best || score > best.score) best = { score, form, head: headWord, typo: off > 0 && off <= 2 && headWord.length > 2 };
    }
  }
  if (!best) return { form: VERBS[0]!.forms[0]! };
  if (!best.typo || first === '') return { form: best.form };
  const at = text.toLowerCase().indexOf(first);
  const replaced = at === 0 ? best.head[0]!.toUpperCase() + best.head.slice(1) : best.head;
  return { form: best.form, fix: `${text.slice(0, at)}${replaced}${text.slice(at + first.length)}` };
}
