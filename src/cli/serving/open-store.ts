import { homedir } from 'node:os';
import { resolve } from 'node:path';
import { openPostgresStore } from '../../store/postgres.ts';
import { openSqliteStore } from '../../store/sqlite.ts';
import type { Kept, Store } from '../../store/store.ts';
import { optionText } from '../command.ts';
import type { Call } from '../command.ts';
import { storePlace } from './store-place.ts';
import type { StorePlace } from './store-place.ts';

/** The place that this call means, a folder from where the person stands. */
export function placeOf(call: Call): StorePlace {
  const around = { env: process.env, platform: process.platform, home: homedir() };
  const place = storePlace(optionText(call, 'folder'), around);
  return place.kind === 'folder' ? { ...place, folder: resolve(place.folder) } : place;
}

export const openStore = (place: StorePlace): Promise<Kept<Store>> =>
  place.kind === 'folder' ? openSqliteStore(place.folder) : openPostgresStore(place.url);

/** For people; a database's address may hold a password. */
export const placeText = (place: StorePlace): string =>
  place.kind === 'folder' ? place.folder : 'the database of DATABASE_URL';
