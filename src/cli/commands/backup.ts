import type { Command } from '../command.ts';
import { FOLDER_OPTION } from '../serving/store-place.ts';

export const backupCommand: Command = {
  name: 'backup',
  summary: 'copies everything into one file, also while Weighboat runs',
  takes: 'FILE',
  about:
    'Writes one moment of the store into a file that restore takes, reads it through before it gets its ' +
    'name, and never writes over a file. It may be done while Weighboat is in use. A PostgreSQL ' +
    'database is backed up with pg_dump.',
  options: { folder: FOLDER_OPTION },
  examples: ['backup 2026-03-02.backup', 'backup D:/weighboat.backup --folder course-2026'],
  arity: [1, 1],
  run: (call) => call.io.keeping.backup(call),
};
