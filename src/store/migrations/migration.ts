import type { StoreKind } from '../store.ts';

/** One step forward of the tables. There is no step back: a backup is. */
export interface Migration {
  readonly number: number;
  readonly name: string;
  readonly statements: Readonly<Record<StoreKind, readonly string[]>>;
}
