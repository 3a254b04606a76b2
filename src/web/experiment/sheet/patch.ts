/** A piece of a drawing under a name of its own, drawn from 0 and moved down by `y`. */
export interface Part {
  readonly key: string;
  readonly y: number;
  readonly svg: string;
}

export type PatchStep =
  | { readonly kind: 'remove'; readonly key: string }
  /** Makes the part, or makes it anew, before another one (null: at the end). */
  | { readonly kind: 'put'; readonly part: Part; readonly before: string | null }
  | { readonly kind: 'move'; readonly key: string; readonly before: string | null }
  /** Up or down, with nothing drawn anew. */
  | { readonly kind: 'shift'; readonly key: string; readonly y: number };

/**
 * What turns one drawing into another, touching only what differs. The steps go from the end to the
 * beginning, so that the part that another is put before is always there.
 */
export function patchOf(from: readonly Part[], to: readonly Part[]): PatchStep[] {
  const held = new Map(from.map((part) => [part.key, part]));
  const wanted = new Set(to.map(({ key }) => key));
  const steps: PatchStep[] = from
    .filter(({ key }) => !wanted.has(key))
    .map(({ key }) => ({ kind: 'remove', key }));
  // Parts that stay in their order need not move.
  const standing = from.filter(({ key }) => wanted.has(key)).map(({ key }) => key);
  const moved = new Set<string>();
  let before: string | null = null;
  for (const part of [...to].reverse()) {
    const { key, svg, y } = part;
    while (standing.length > 0 && moved.has(standing.at(-1)!)) standing.pop();
    const inPlace = standing.at(-1) === key;
    if (inPlace) standing.pop();
    else moved.add(key);
    const old = held.get(key);
    if (old === undefined || old.svg !== svg) steps.push({ kind: 'put', part, before });
    else {
      if (!inPlace) steps.push({ kind: 'move', key, before });
      if (old.y !== y) steps.push({ kind: 'shift', key, y });
    }
    before = key;
  }
  return steps;
}
