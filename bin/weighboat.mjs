#!/usr/bin/env node
import { existsSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { bundle, buildIfStale, installIfMissing } from '../scripts/prepare.mjs';

// Only a missing bundle is built here: looking through every source would cost each command its start.
if (!existsSync(bundle)) {
  installIfMissing();
  await buildIfStale();
}
const { main, processIo } = await import(pathToFileURL(bundle).href);
process.exitCode = await main(process.argv.slice(2), processIo());
