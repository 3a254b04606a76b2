import type { Settings } from '../../wire/settings.ts';

interface Named {
  readonly id: string;
}

const same = (a: unknown, b: unknown) => JSON.stringify(a) === JSON.stringify(b);

/**
 * What this page changed since `base`, put on top of what others have kept meanwhile. Where both
 * changed one thing, this page's stands: its reader has just seen it.
 */
export function mergeSettings(theirs: Settings, mine: Settings, base: Settings): Settings {
  const chosen = <K extends 'decimalSign' | 'terms' | 'paper'>(key: K): Settings[K] =>
    mine[key] === base[key] ? theirs[key] : mine[key];
  return {
    decimalSign: chosen('decimalSign'),
    terms: chosen('terms'),
    paper: chosen('paper'),
    balances: mergeRows(theirs.balances, mine.balances, base.balances),
    glassware: mergeRows(theirs.glassware, mine.glassware, base.glassware),
  };
}

/** In my order, then what is theirs alone. */
function mergeRows<T extends Named>(
  theirs: readonly T[],
  mine: readonly T[],
  base: readonly T[],
): T[] {
  const find = (list: readonly T[], id: string) => list.find((each) => each.id === id);
  const kept = mine.flatMap((row) => {
    const before = find(base, row.id);
    if (before === undefined || !same(before, row)) return [row];
    // Untouched here: as they have it, and gone where they took it out.
    return find(theirs, row.id) ?? [];
  });
  const added = theirs.filter(
    ({ id }) => find(mine, id) === undefined && find(base, id) === undefined,
  );
  return [...kept, ...added];
}
