/**
 * Compiles every table of data/ into src/core/facts/, so that the core, which does no IO, can
 * import it in Node and in a browser alike. `--check` says whether what is committed is current.
 */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { readCsv } from './csv.ts';

const dataFolder = new URL('../data/', import.meta.url);
const factsFolder = new URL('../src/core/facts/', import.meta.url);

/** The compiled text of one table; a source repeated in many rows is written once. */
export function compileTable(csv: string, name: string): string {
  const [columns, ...body] = readCsv(csv.replace(/^\uFEFF/, ''));
  if (columns === undefined) throw new Error(`${name}: the table is empty`);
  const at = columns.indexOf('source');
  if (at < 0) throw new Error(`${name}: every table has a source column`);
  const sources: string[] = [];
  const rows = body.map((cells, i) => {
    if (cells.length !== columns.length)
      throw new Error(`${name}, row ${i + 2}: ${cells.length} cells for ${columns.length} columns`);
    const source = cells[at]!;
    if (source.trim() === '') throw new Error(`${name}, row ${i + 2}: no source`);
    if (!sources.includes(source)) sources.push(source);
    return cells.map((cell, j) => (j === at ? sources.indexOf(source) : cell));
  });
  const lines = rows.map((row) => JSON.stringify(row)).join(',\n');
  return `{"columns":${JSON.stringify(columns)},\n"sources":${JSON.stringify(sources)},\n"rows":[\n${lines}\n]}\n`;
}

let stale = 0;
for (const file of readdirSync(dataFolder)
  .filter((f) => f.endsWith('.csv'))
  .sort()) {
  const compiled = compileTable(readFileSync(new URL(file, dataFolder), 'utf8'), file);
  const target = new URL(file.replace(/\.csv$/, '.json'), factsFolder);
  const current = existsSync(target) ? readFileSync(target, 'utf8') : '';
  if (current === compiled) continue;
  stale++;
  if (process.argv.includes('--check'))
    console.error(`data/${file} is newer than its compiled facts: npm run facts`);
  else {
    writeFileSync(target, compiled);
    console.log(`data/${file}: ${compiled.length} characters compiled`);
  }
}
if (process.argv.includes('--check') && stale > 0) process.exit(1);
