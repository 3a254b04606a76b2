/** A run of items that both have, that only the first has, or that only the second has. */
export interface Edit {
  readonly kind: 'same' | 'out' | 'in';
  readonly items: readonly string[];
}

/** Past so many differences two texts count as different altogether. */
const MOST_EDITS = 600;

/**
 * The shortest way from one list to the other (E. W. Myers, Algorithmica 1 (1986) 251): what goes
 * out stands before what comes in.
 */
export function editsOf(from: readonly string[], to: readonly string[]): Edit[] {
  let start = 0;
  while (start < from.length && start < to.length && from[start] === to[start]) start++;
  let [endA, endB] = [from.length, to.length];
  while (endA > start && endB > start && from[endA - 1] === to[endB - 1])
    [endA, endB] = [endA - 1, endB - 1];
  const middle = between(from.slice(start, endA), to.slice(start, endB));
  return joined([
    { kind: 'same', items: from.slice(0, start) },
    ...middle,
    { kind: 'same', items: from.slice(endA) },
  ]);
}

function between(from: readonly string[], to: readonly string[]): Edit[] {
  const trail = trailOf(from, to);
  if (trail === undefined)
    return [
      { kind: 'out', items: from },
      { kind: 'in', items: to },
    ];
  const edits: Edit[] = [];
  let [x, y] = [from.length, to.length];
  for (let d = trail.length - 1; d >= 0; d--) {
    const reach = trail[d]!;
    const k = x - y;
    const down = d > 0 && (k === -d || (k !== d && at(reach, k - 1) < at(reach, k + 1)));
    const kBefore = down ? k + 1 : k - 1;
    const xBefore = d === 0 ? 0 : at(reach, kBefore);
    const yBefore = d === 0 ? 0 : xBefore - kBefore;
    while (x > xBefore && y > yBefore) {
      [x, y] = [x - 1, y - 1];
      edits.push({ kind: 'same', items: [from[x]!] });
    }
    if (d === 0) break;
    if (down) edits.push({ kind: 'in', items: [to[--y]!] });
    else edits.push({ kind: 'out', items: [from[--x]!] });
  }
  return edits.reverse();
}

type Reach = ReadonlyMap<number, number>;
const at = (reach: Reach, k: number) => reach.get(k) ?? -1;

/** For each number of differences, how far each diagonal had come before that step. */
function trailOf(from: readonly string[], to: readonly string[]): Reach[] | undefined {
  const reach = new Map<number, number>([[1, 0]]);
  const trail: Reach[] = [];
  const most = Math.min(from.length + to.length, MOST_EDITS);
  for (let d = 0; d <= most; d++) {
    trail.push(new Map(reach));
    for (let k = -d; k <= d; k += 2) {
      const down = k === -d || (k !== d && at(reach, k - 1) < at(reach, k + 1));
      let x = down ? at(reach, k + 1) : at(reach, k - 1) + 1;
      let y = x - k;
      while (x < from.length && y < to.length && from[x] === to[y]) [x, y] = [x + 1, y + 1];
      reach.set(k, x);
      if (x >= from.length && y >= to.length) return trail;
    }
  }
  return undefined;
}

/** Runs of one kind together; between two runs that stay, all that goes out before all that comes in. */
function joined(edits: readonly Edit[]): Edit[] {
  const result: Edit[] = [];
  let out: string[] = [];
  let come: string[] = [];
  let same: string[] = [];
  const flush = () => {
    if (same.length > 0) result.push({ kind: 'same', items: same });
    if (out.length > 0) result.push({ kind: 'out', items: out });
    if (come.length > 0) result.push({ kind: 'in', items: come });
    [out, come, same] = [[], [], []];
  };
  for (const { kind, items } of edits) {
    if (kind === 'same') {
      if (out.length + come.length > 0 && items.length > 0) flush();
      same.push(...items);
    } else (kind === 'out' ? out : come).push(...items);
  }
  flush();
  return result;
}
