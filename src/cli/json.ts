/** Data as indented JSON: maps become objects, sets lists; what has no number in JSON becomes a word. */
export function toJson(data: unknown): string {
  return JSON.stringify(data, plainly, 2) ?? 'null';
}

function plainly(_key: string, value: unknown): unknown {
  if (value instanceof Map) return Object.fromEntries(value);
  if (value instanceof Set) return [...(value as Set<unknown>)];
  if (typeof value === 'bigint') return value.toString();
  if (value === Infinity) return 'unlimited';
  if (typeof value === 'number' && !Number.isFinite(value)) return null;
  return value;
}
