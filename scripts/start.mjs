/**
 * `npm start`: from a fresh clone to the pages in a browser. Installs and builds what is missing, then
 * serves, and keeps everything in `.weighboat` beside this project unless another place is named.
 * `npm start -- --port 8000` hands on what `weighboat serve --help` lists.
 */
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { buildIfStale, bundle, installIfMissing, root } from './prepare.mjs';

installIfMissing();
await buildIfStale();
process.env.WEIGHBOAT_FOLDER ||= join(root, '.weighboat');
// npm moves to the project's folder; a path is meant from where the user stands.
if (process.env.INIT_CWD) process.chdir(process.env.INIT_CWD);
const { main, processIo } = await import(pathToFileURL(bundle).href);
process.exitCode = await main(['serve', ...process.argv.slice(2)], processIo());
