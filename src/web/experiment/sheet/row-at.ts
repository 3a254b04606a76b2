/** The part of a drawing that a height lies in: the last that begins above it. */
export function partAt<P extends { readonly y: number }>(
  parts: readonly P[],
  y: number,
): P | undefined {
  let found: P | undefined;
  for (const part of parts)
    if (part.y <= y && (found === undefined || part.y >= found.y)) found = part;
  return found;
}
