import { mkdirSync } from 'node:fs';
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

/** The folder is made where it is not there yet; what cannot be one is refused. */
export async function openStore(place: StorePlace): Promise<Kept<Store>> {
  if (place.kind === 'database') return openPostgresStore(place.url);
  const { folder } = place;
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
  } catch {
    const message = `${folder} cannot be made or used as a folder.`;
    const hint = 'Is there a file of that name, or may you not write there? Name another: --folder';
    return { ok: false, refusal: { code: 'folder-unusable', message, hint } };
  }
  return openSqliteStore(folder);
}

/** For people; a database's address may hold a password. */
export const placeText = (place: StorePlace): string =>
  place.kind === 'folder' ? place.folder : 'the database of DATABASE_URL';
