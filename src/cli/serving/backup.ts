import { backUpFolder } from '../../store/backup.ts';
import { restoreFrom } from '../../store/restore.ts';
import { refusal } from '../command.ts';
import type { Answer, Call } from '../command.ts';
import { done } from './done.ts';
import { placeOf } from './open-store.ts';

const DATABASE = [
  'Everything is kept in the database of DATABASE_URL, which has backups of its own.',
  'PostgreSQL writes them with pg_dump and takes them back with pg_restore. For a folder write --folder.',
] as const;

/** The file is opened to be read only, so that a running Weighboat is not in the way. */
export async function backup(call: Call): Promise<Answer> {
  const place = placeOf(call);
  if (place.kind === 'database') return refusal(...DATABASE);
  const { folder } = place;
  const path = call.args[0]!;
  const kept = await backUpFolder(folder, path);
  if (!kept.ok) return refusal(kept.refusal.message, kept.refusal.hint);
  return done(
    { folder, backup: path },
    `Everything in ${folder} is now in ${path} as well, read through and sound.`,
    'Keep it on another disk.',
  );
}

export async function restore(call: Call): Promise<Answer> {
  const place = placeOf(call);
  if (place.kind === 'database') return refusal(...DATABASE);
  const { folder } = place;
  const path = call.args[0]!;
  const kept = await restoreFrom(path, folder);
  if (!kept.ok) return refusal(kept.refusal.message, kept.refusal.hint);
  const { setAside } = kept.value;
  return done(
    { folder, backup: path, setAside },
    `${folder} holds what was in ${path}.`,
    ...(setAside === null ? [] : [`What was there before is in ${setAside}.`]),
  );
}
