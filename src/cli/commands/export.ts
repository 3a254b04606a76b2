import type { Command } from '../command.ts';
import { FOLDER_OPTION } from '../serving/store-place.ts';

export const exportCommand: Command = {
  name: 'export',
  summary: 'writes everything as open files, in one zip',
  takes: 'FILE.zip',
  about:
    'Every version of every experiment as Markdown, every bench record as JSON and CSV, attachments as ' +
    'they are. Weighboat must not be running in that folder; while it runs, its settings page exports. ' +
    'Never writes over a file.',
  options: { folder: FOLDER_OPTION },
  examples: ['export course-2026.zip'],
  arity: [1, 1],
  run: (call) => call.io.keeping.exportTo(call),
};
