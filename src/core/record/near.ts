/** Lower case, one space, no full stop or colon at the end: how names in a record are compared. */
export function plainName(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/\s+/g, ' ')
    .replace(/[.:]+$/, '');
}

/**
 * Edits between two words (insert, delete, change, swap of neighbours), or `limit + 1` where there
 * are more than `limit`. Optimal string alignment after Damerau (1964).
 */
export function editDistance(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) > limit) return limit + 1;
  let before: number[] = [];
  let above = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    let best = i;
    for (let j = 1; j <= b.length; j++) {
      const change = a[i - 1] === b[j - 1] ? 0 : 1;
      let cost = Math.min(above[j]! + 1, row[j - 1]! + 1, above[j - 1]! + change);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        cost = Math.min(cost, before[j - 2]! + 1);
      }
      row.push(cost);
      best = Math.min(best, cost);
    }
    if (best > limit) return limit + 1;
    before = above;
    above = row;
  }
  return Math.min(above[b.length]!, limit + 1);
}

/** The names that someone may have meant, nearest first. Offered, never put in place. */
export function nearNames(name: string, known: readonly string[], most = 3): string[] {
  const wanted = plainName(name).slice(0, 100);
  if (wanted === '') return [];
  const limit = Math.max(1, Math.floor(wanted.length / 4));
  const found: { name: string; distance: number }[] = [];
  for (const candidate of new Set(known)) {
    const plain = plainName(candidate).slice(0, 100);
    const within = wanted.length >= 3 && (plain.includes(wanted) || wanted.includes(plain));
    const distance = within && plain !== '' ? 0.5 : editDistance(wanted, plain, limit);
    if (distance <= limit) found.push({ name: candidate, distance });
  }
  found.sort((a, b) => a.distance - b.distance || (a.name < b.name ? -1 : 1));
  return found.slice(0, most).map((each) => each.name);
}
