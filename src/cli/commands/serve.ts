import type { Command } from '../command.ts';
import { FOLDER_OPTION } from '../serving/store-place.ts';

export const serveCommand: Command = {
  name: 'serve',
  summary: 'opens Weighboat in a browser: everything it keeps, on every page',
  takes: '',
  about:
    'Serves the pages to this machine, or with --host to a laboratory’s network, until it is stopped, ' +
    'and prints a link that signs one browser in. An empty store begins with the demonstration course. ' +
    'DATABASE_URL names a PostgreSQL database to keep everything in; otherwise it is one file in a folder.',
  options: {
    folder: FOLDER_OPTION,
    port: {
      type: 'string',
      value: 'PORT',
      about: 'Where it listens; 7420, or 0 for any that is free.',
    },
    host: {
      type: 'string',
      value: 'HOST',
      about: 'Who can reach it: this machine alone, or with 0.0.0.0 every device of its network.',
    },
    url: {
      type: 'string',
      value: 'URL',
      about: 'The address that others use, where a proxy with HTTPS stands before it.',
    },
    empty: { type: 'boolean', about: 'Begin without the demonstration course.' },
  },
  examples: ['serve', 'serve --folder course-2026 --port 8000', 'serve --host 0.0.0.0'],
  arity: [0, 0],
  run: (call) => call.io.keeping.serve(call),
};
