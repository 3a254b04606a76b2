import { keyOf, locantFreeKey, stereoFreeKey } from './name-key.ts';
import type { Substance } from './substance-make.ts';
import { builtInSubstances } from './substance-rows.ts';

/** How strictly a name is meant: as it is, without stereodescriptors, without locants. */
export type KeyKind = 'full' | 'stereoFree' | 'locantFree';

const KEYS: Record<KeyKind, (name: string) => string> = {
  full: keyOf,
  stereoFree: stereoFreeKey,
  locantFree: locantFreeKey,
};

/** Built-in substances with a document's own laid over them; the document's own win. */
export interface SubstanceTable {
  /** The document's own. */
  readonly own: readonly Substance[];
  /** By canonical name in lower case (a substance's id). */
  readonly byName: {
    get(id: string): Substance | undefined;
    has(id: string): boolean;
  };
  /** Every substance that goes by the key, under its name or a synonym. */
  named(kind: KeyKind, key: string): readonly Substance[];
  /** All substances, the document's own first. */
  all(): readonly Substance[];
}

type Index = Map<string, Substance[]>;

function indexOf(substances: readonly Substance[], kind: KeyKind): Index {
  const index: Index = new Map();
  for (const substance of substances) {
    for (const name of [substance.name, ...substance.synonyms]) {
      const key = KEYS[kind](name);
      const there = index.get(key);
      if (there === undefined) index.set(key, [substance]);
      else if (!there.includes(substance)) there.push(substance);
    }
  }
  return index;
}

/** One set of substances, each index made when it is first needed. */
class Layer {
  readonly byId: ReadonlyMap<string, Substance>;
  readonly #indexes = new Map<KeyKind, Index>();

  constructor(readonly substances: readonly Substance[]) {
    this.byId = new Map(substances.map((substance) => [substance.id, substance]));
  }

  named(kind: KeyKind, key: string): readonly Substance[] {
    let index = this.#indexes.get(kind);
    if (index === undefined) {
      index = indexOf(this.substances, kind);
      this.#indexes.set(kind, index);
    }
    return index.get(key) ?? [];
  }
}

let builtInLayer: Layer | undefined;
let plain: SubstanceTable | undefined;

/**
 * The built-in substances with `extra` laid over them. Cheap enough for every keystroke: only the
 * extra ones are indexed, and the built-in ones once.
 */
export function tableWith(extra: readonly Substance[] = []): SubstanceTable {
  if (extra.length === 0 && plain !== undefined) return plain;
  builtInLayer ??= new Layer(builtInSubstances());
  const base = builtInLayer;
  const own = new Layer(extra);
  let all: readonly Substance[] | undefined;
  const table: SubstanceTable = {
    own: extra,
    byName: {
      get: (id) => own.byId.get(id) ?? base.byId.get(id),
      has: (id) => own.byId.has(id) || base.byId.has(id),
    },
    named(kind, key) {
      const mine = own.named(kind, key);
      if (mine.length > 0 && kind !== 'locantFree') return mine;
      const theirs = base.named(kind, key).filter((substance) => !own.byId.has(substance.id));
      const replaced = base.named(kind, key).flatMap((s) => own.byId.get(s.id) ?? []);
      return [...new Set([...mine, ...replaced, ...theirs])];
    },
    all() {
      all ??= [...extra, ...base.substances.filter((s) => !own.byId.has(s.id))];
      return all;
    },
  };
  if (extra.length === 0) plain = table;
  return table;
}
