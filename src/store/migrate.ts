import type { Kysely, Transaction } from 'kysely';
import { sql } from 'kysely';
import type { Migration } from './migrations/migration.ts';
import { kept, refused } from './refusal.ts';
import type { Kept, StoreKind } from './store.ts';
import type { Tables } from './tables.ts';

interface Migrating {
  readonly kind: StoreKind;
  readonly now: () => string;
  readonly writing: <T>(work: (trx: Transaction<Tables>) => Promise<T>) => Promise<T>;
}

/**
 * Brings the tables forward, all or nothing. Refuses a store that a newer program has written:
 * this one does not know what is in it. Gives how many steps were taken.
 */
export async function migrate(
  { kind, now, writing }: Migrating,
  migrations: readonly Migration[],
): Promise<Kept<number>> {
  return writing(async (trx) => {
    await sql`create table if not exists migrations (
      number integer primary key,
      name text not null,
      applied_at text not null
    )`.execute(trx);
    const applied = await appliedIn(trx);
    if (applied > migrations.length) return newer(applied, migrations.length);
    for (const { number, name, statements } of migrations.slice(applied)) {
      for (const statement of statements[kind]) await sql.raw(statement).execute(trx);
      await trx.insertInto('migrations').values({ number, name, applied_at: now() }).execute();
    }
    return kept(migrations.length - applied);
  });
}

async function appliedIn(db: Kysely<Tables>): Promise<number> {
  const last = await db
    .selectFrom('migrations')
    .select((eb) => eb.fn.max('number').as('number'))
    .executeTakeFirst();
  return last?.number ?? 0;
}

export function newer(theirs: number, ours: number): Kept<never> {
  return refused(
    'store-newer',
    `This store was written by a newer Weighboat: its tables are at step ${theirs}, and this one knows ${ours}.`,
    'Install the newer Weighboat again. Nothing was changed.',
  );
}
