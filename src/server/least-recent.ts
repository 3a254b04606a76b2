export interface LeastRecent<T> {
  readonly get: (key: string) => T | undefined;
  readonly set: (key: string, value: T, size: number) => void;
}

/**
 * Remembers values up to so many, and up to a size in all (in whatever unit the caller counts);
 * the one that was asked for longest ago goes first. What is larger than the whole is not kept.
 */
export function leastRecent<T>(most: number, mostSize: number): LeastRecent<T> {
  const held = new Map<string, { readonly value: T; readonly size: number }>();
  let total = 0;
  const drop = (key: string): void => {
    total -= held.get(key)?.size ?? 0;
    held.delete(key);
  };
  return {
    get: (key) => {
      const entry = held.get(key);
      if (entry === undefined) return undefined;
      // A map keeps the order of insertion, so the freshest is put in again.
      held.delete(key);
      held.set(key, entry);
      return entry.value;
    },
    set: (key, value, size) => {
      drop(key);
      if (size > mostSize) return;
      held.set(key, { value, size });
      total += size;
      for (const oldest of held.keys()) {
        if (held.size <= most && total <= mostSize) break;
        drop(oldest);
      }
    },
  };
}
