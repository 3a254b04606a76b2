/**
 * Chemical names as people write them, brought to one spelling for looking up: case, spaces,
 * hyphens and brackets do not count; Greek letters and their names, sulfur and sulphur, aluminium
 * and aluminum, hydrogencarbonate and bicarbonate are the same.
 */

const LONGEST = 120;

const SPELLINGS: readonly (readonly [RegExp, string])[] = [
  [/[−–—‐‑]/g, '-'],
  [/[′’‘]/g, "'"],
  [/α/g, 'alpha'],
  [/β/g, 'beta'],
  [/γ/g, 'gamma'],
  [/δ/g, 'delta'],
  [/ε/g, 'epsilon'],
  [/ω/g, 'omega'],
  [/\(\s*±\s*\)/g, '(rac)'],
  [/\(\s*\+\/?-\s*\)/g, '(rac)'],
  [/\(\s*\+\s*\)/g, '(plus)'],
  [/\(\s*-\s*\)/g, '(minus)'],
  [/\.(?=\s|$)/g, ' '],
  [/sulph/g, 'sulf'],
  [/aluminum/g, 'aluminium'],
  [/\bcesium/g, 'caesium'],
  [/hydrogen\s+(?=carbonate|sulfate|sulfite|phosphate)/g, 'hydrogen'],
  [/\bbi(?=carbonate|sulfate|sulfite)/g, 'hydrogen'],
  [/colour/g, 'color'],
  [/decolorising/g, 'decolorizing'],
];

const MOST_KEPT = 10_000;

/** Remembers results, since names come again at every keystroke. Emptied when it is full. */
function remembered(compute: (name: string) => string): (name: string) => string {
  const kept = new Map<string, string>();
  return (name) => {
    const before = kept.get(name);
    if (before !== undefined) return before;
    const result = compute(name);
    if (kept.size >= MOST_KEPT) kept.clear();
    if (name.length <= LONGEST) kept.set(name, result);
    return result;
  };
}

/** The name in lower case and one spelling, with its spaces and hyphens still in place. */
export const spelled = remembered(spell);

function spell(name: string): string {
  let text = name.normalize('NFKC').slice(0, LONGEST).toLowerCase();
  for (const [pattern, replacement] of SPELLINGS) text = text.replace(pattern, replacement);
  return text.replace(/\s+/g, ' ').trim();
}

function squeezed(text: string): string {
  return text.replace(/[\s\-()[\]{}/]/g, '');
}

/** What two writings of one name have in common. */
export const keyOf = remembered((name) => squeezed(spelled(name)));

const STEREO =
  /^(?:\((?:\d*[rsez](?:,\d*[rsez])*|rac|plus|minus)\)-?|(?:cis|trans|rac|dl|d|l|endo|exo|meso)-)+/;

/** The key without the stereodescriptors at the head of the name: `(R)-limonene` is `limonene`. */
export function stereoFreeKey(name: string): string {
  return squeezed(spelled(name).replace(STEREO, ''));
}

const LOCANT = /(^|[-\s])(?:\d+'?(?:,\d+'?)*|[omp]|ortho|meta|para)(?=-)/g;

/** The key without locants: `1-naphthol` and `2-naphthol` are both `naphthol`. */
export function locantFreeKey(name: string): string {
  return squeezed(spelled(name).replace(LOCANT, '$1'));
}

/** Whether the name says where its groups are, so that it is not one name for several isomers. */
export function hasLocants(name: string): boolean {
  return spelled(name).search(LOCANT) >= 0;
}

/**
 * Number of insertions, deletions, replacements and swaps of neighbours that make `a` into `b`
 * (Damerau, Commun. ACM 1964, 7, 171; the restricted form), or Infinity beyond `limit`.
 */
export function editDistance(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) > limit) return Infinity;
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = Array.from({ length: b.length + 1 }, (_, j) => (j === 0 ? i : limit + 1));
    const to = Math.min(b.length, i + limit);
    let least = i;
    for (let j = Math.max(1, i - limit); j <= to; j++) {
      const same = a[i - 1] === b[j - 1];
      let cost = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        cost = Math.min(cost, beforeLast[j - 2]! + 1);
      row[j] = cost;
      least = Math.min(least, cost);
    }
    if (least > limit) return Infinity;
    beforeLast = last;
    last = row;
  }
  return last[b.length]! > limit ? Infinity : last[b.length]!;
}
