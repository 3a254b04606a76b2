import type { Kysely, Transaction } from 'kysely';
import type { StoreKind } from './store.ts';
import type { Tables } from './tables.ts';

export interface StoreOptions {
  /** ISO 8601 in UTC, to the millisecond. */
  readonly now?: () => string;
}

export const systemNow = (): string => new Date().toISOString();

/** A database that was opened, with its tables as they should be. */
export interface Connection {
  readonly kind: StoreKind;
  readonly db: Kysely<Tables>;
  readonly now: () => string;
  /**
   * All or nothing, one writer after the other, on the disk when it resolves. The work awaits only
   * the database: with SQLite everything else waits for it, and a backup must not see half of it.
   */
  writing<T>(work: (trx: Transaction<Tables>) => Promise<T>): Promise<T>;
  /** Several questions about one moment. */
  reading<T>(work: (trx: Transaction<Tables>) => Promise<T>): Promise<T>;
  backupTo(path: string): Promise<void>;
  close(): Promise<void>;
}
