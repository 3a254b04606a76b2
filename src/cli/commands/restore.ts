import type { Command } from '../command.ts';
import { FOLDER_OPTION } from '../serving/store-place.ts';

export const restoreCommand: Command = {
  name: 'restore',
  summary: 'puts a backup in the place of what is kept now',
  takes: 'FILE',
  about:
    'Reads a backup through, then puts it into the folder. What was there is moved aside under a name ' +
    'that is printed; nothing is written over. Weighboat must not be running in that folder.',
  options: { folder: FOLDER_OPTION },
  examples: ['restore 2026-03-02.backup'],
  arity: [1, 1],
  run: (call) => call.io.keeping.restore(call),
};
