import type { Command } from '../command.ts';
import { FOLDER_OPTION } from '../serving/store-place.ts';

export const importCommand: Command = {
  name: 'import',
  summary: 'reads an export into an empty store',
  takes: 'FILE.zip',
  about:
    'Takes a zip that export wrote, all of it or nothing. The store must be empty (name a new folder) ' +
    'and Weighboat must not be running in it.',
  options: { folder: FOLDER_OPTION },
  examples: ['import course-2026.zip --folder course-2026'],
  arity: [1, 1],
  run: (call) => call.io.keeping.importFrom(call),
};
