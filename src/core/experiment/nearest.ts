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
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        best = Math.min(best, previous[j - 2]! + 1);
      next.push(best);
    }
    previous = row;
    row = next;
  }
  return row[b.length]!;
}

interface Opening {
  readonly head: string;
  readonly form: string;
  readonly formText: string;
}

let openings: readonly Opening[] | undefined;

/** The first word of every head, once for each verb. */
function allOpenings(): readonly Opening[] {
  openings ??= VERBS.flatMap(({ heads, forms }) => {
    const form = forms[0]!;
    const words = new Set(heads.map((head) => head.split(' ')[0]!));
    return [...words].map((head) => ({ head, form, formText: form.toLowerCase() }));
  });
  return openings;
}

/** How far a word may be from a head that it is a slip of. */
function slips(first: string, head: string): number {
  const most = Math.max(1, head.length / 4);
  if (Math.abs(first.length - head.length) > most) return Infinity;
  const off = distance(first, head);
  return off <= most ? off : Infinity;
}

/** The form that a sentence comes nearest to, and its text with the verb put right where that is plain. */
export function nearestForm(text: string): { form: string; fix?: string } {
  const words =
    text
      .slice(0, 400)
      .toLowerCase()
      .match(/\p{L}[\p{L}-]*/gu)
      ?.slice(0, 40) ?? [];
  const first = words[0] ?? '';
  const there = new Set(words);
  const shares = new Map<string, number>();
  let best: { score: number; form: string; head: string; off: number } | undefined;
  for (const { head, form, formText } of allOpenings()) {
    const off = slips(first.slice(0, 20), head);
    let shared = shares.get(formText);
    if (shared === undefined) {
      shared = words.filter((word) => formText.includes(word)).length;
      shares.set(formText, shared);
    }
    const score = (off === Infinity ? 0 : 6 - off) + (there.has(head) ? 2 : 0) + 0.3 * shared;
    if (!best || score > best.score) best = { score, form, head, off };
  }
  if (!best) return { form: VERBS[0]!.forms[0]! };
  const typo = best.off > 0 && best.off <= 2 && best.head.length > 2;
  if (!typo || first === '') return { form: best.form };
  const at = text.toLowerCase().indexOf(first);
  const replaced = at === 0 ? best.head[0]!.toUpperCase() + best.head.slice(1) : best.head;
  return {
    form: best.form,
    fix: `${text.slice(0, at)}${replaced}${text.slice(at + first.length)}`,
  };
}
