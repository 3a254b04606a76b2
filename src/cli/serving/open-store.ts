import { homedir } from 'node:os';
import { resolve } from 'node:path';
import { openPostgresStore } from '../../store/postgres.ts';
import { refusalOf } from '../../store/refusal.ts';
import { openSqliteStore } from '../../store/sqlite.ts';
import type { Kept, Store } from '../../store/store.ts';
import { optionText, refusal } from '../command.ts';
import type { Answer, Call } from '../command.ts';
import { storePlace } from './store-place.ts';
import type { StorePlace } from './store-place.ts';

/** The place that this call means, a folder from where the person stands. */
export function placeOf(call: Call): StorePlace {
  const around = { env: process.env, platform: process.platform, home: homedir() };
  const place = storePlace(optionText(call, 'folder'), around);
  return place.kind === 'folder' ? { ...place, folder: resolve(place.folder) } : place;
}

async function openStore(place: StorePlace): Promise<Kept<Store>> {
  if (place.kind === 'database') return openPostgresStore(place.url);
  return openSqliteStore(place.folder);
}

/** Opens the store, which nothing else may have open, and closes it when the work is done. */
export async function withStore(
  place: StorePlace,
  work: (store: Store) => Promise<Answer>,
): Promise<Answer> {
  const opened = await openStore(place);
  if (!opened.ok) return refusal(opened.refusal.message, opened.refusal.hint);
  try {
    return await work(opened.value);
  } catch (error) {
    const why = refusalOf(error);
    if (why === undefined) throw error;
    return refusal(why.message, why.hint);
  } finally {
    await opened.value.close();
  }
}

/** For people; a database's address may hold a password. */
export const placeText = (place: StorePlace): string =>
  place.kind === 'folder' ? place.folder : 'the database of DATABASE_URL';
