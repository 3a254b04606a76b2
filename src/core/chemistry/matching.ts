/**
 * A maximum matching of a graph given by lists of neighbours; returns the vertices left alone.
 * Edmonds' blossom algorithm (Canad. J. Math. 1965, 17, 449) in its breadth-first form, started
 * from a greedy matching; no recursion. Here the pairs are the double bonds of aromatic rings.
 */
export function unmatched(neighbours: readonly (readonly number[])[]): number[] {
  const n = neighbours.length;
  const mate = new Int32Array(n).fill(-1);
  for (let v = 0; v < n; v++) {
    if (mate[v] !== -1) continue;
    const free = neighbours[v]!.find((w) => w !== v && mate[w] === -1);
    if (free === undefined) continue;
    mate[v] = free;
    mate[free] = v;
  }
  for (let root = 0; root < n; root++)
    if (mate[root] === -1 && neighbours[root]!.length > 0) augment(neighbours, mate, root);
  return [...mate.keys()].filter((v) => mate[v] === -1);
}

/** Looks for an alternating path from `root` to another lone vertex and flips it. */
function augment(neighbours: readonly (readonly number[])[], mate: Int32Array, root: number): void {
  const n = neighbours.length;
  const parent = new Int32Array(n).fill(-1);
  const base = Int32Array.from({ length: n }, (_, v) => v);
  const reached = new Uint8Array(n);
  const queue = [root];
  reached[root] = 1;

  const commonBase = (a: number, b: number): number => {
    const above = new Set<number>();
    for (let v = a; ; v = parent[mate[v]!]!) {
      v = base[v]!;
      above.add(v);
      if (mate[v] === -1) break;
    }
    for (let v = b; ; v = parent[mate[v]!]!) {
      v = base[v]!;
      if (above.has(v)) return v;
    }
  };
  const markPath = (from: number, top: number, into: number, blossom: Set<number>): void => {
    let child = into;
    for (let v = from; base[v] !== top; v = parent[mate[v]!]!) {
      blossom.add(base[v]!);
      blossom.add(base[mate[v]!]!);
      parent[v] = child;
      child = mate[v]!;
    }
  };
  const shrink = (v: number, w: number): void => {
    const top = commonBase(v, w);
    const blossom = new Set<number>();
    markPath(v, top, w, blossom);
    markPath(w, top, v, blossom);
    for (let u = 0; u < n; u++) {
      if (!blossom.has(base[u]!)) continue;
      base[u] = top;
      if (reached[u]) continue;
      reached[u] = 1;
      queue.push(u);
    }
  };
  const flip = (end: number): void => {
    for (let v = end; v !== -1;) {
      const before = parent[v]!;
      const next = mate[before]!;
      mate[v] = before;
      mate[before] = v;
      v = next;
    }
  };

  for (let i = 0; i < queue.length; i++) {
    const v = queue[i]!;
    for (const w of neighbours[v]!) {
      if (base[v] === base[w] || mate[v] === w) continue;
      if (w === root || (mate[w] !== -1 && parent[mate[w]!] !== -1)) shrink(v, w);
      else if (parent[w] === -1) {
        parent[w] = v;
        if (mate[w] === -1) return flip(w);
        reached[mate[w]!] = 1;
        queue.push(mate[w]!);
      }
    }
  }
}
