import type { Kysely, Transaction } from 'kysely';
import type { Settings } from '../wire/settings.ts';
import { DEFAULT_SETTINGS } from '../wire/settings.ts';
import type { Tables } from './tables.ts';

/** A setting that came with a later program has its default until it is set. */
export async function settings(db: Kysely<Tables>): Promise<Settings> {
  const row = await db.selectFrom('settings').select('content').executeTakeFirst();
  return row === undefined
    ? DEFAULT_SETTINGS
    : { ...DEFAULT_SETTINGS, ...(JSON.parse(row.content) as Settings) };
}

export async function setSettings(trx: Transaction<Tables>, given: Settings): Promise<void> {
  const content = JSON.stringify(given);
  await trx
    .insertInto('settings')
    .values({ number: 1, content })
    .onConflict((conflict) => conflict.column('number').doUpdateSet({ content }))
    .execute();
}
