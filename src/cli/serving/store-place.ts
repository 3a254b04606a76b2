import { posix, win32 } from 'node:path';
import type { OptionSpec } from '../command.ts';

/** Where everything is kept. */
export type StorePlace =
  | { readonly kind: 'folder'; readonly folder: string }
  | { readonly kind: 'database'; readonly url: string };

export interface Surroundings {
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly platform: NodeJS.Platform;
  readonly home: string;
}

export const FOLDER_OPTION: OptionSpec = {
  type: 'string',
  value: 'FOLDER',
  about: 'Where everything is kept; else WEIGHBOAT_FOLDER, else your own data folder.',
};

/** The folder that the system has for a person's data. */
function dataFolder({ env, platform, home }: Surroundings): string {
  if (platform === 'win32')
    return win32.join(env['LOCALAPPDATA'] || win32.join(home, 'AppData', 'Local'), 'Weighboat');
  if (platform === 'darwin') return posix.join(home, 'Library', 'Application Support', 'Weighboat');
  return posix.join(env['XDG_DATA_HOME'] || posix.join(home, '.local', 'share'), 'weighboat');
}

/** A folder that was named comes before a database, and both before what is usual. */
export function storePlace(named: string | undefined, around: Surroundings): StorePlace {
  const { env } = around;
  if (named !== undefined) return { kind: 'folder', folder: named };
  if (env['DATABASE_URL']) return { kind: 'database', url: env['DATABASE_URL'] };
  return { kind: 'folder', folder: env['WEIGHBOAT_FOLDER'] || dataFolder(around) };
}
