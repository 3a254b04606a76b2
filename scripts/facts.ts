/**
 * Compiles every table of data/ into src/core/facts/, so that the core, which does no IO, can
 * import it in Node and in a browser alike. `--check` says whether what is committed is current.
 */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { readCsv } from './csv.ts';

const dataFolder = new URL('../data/', import.meta.url);
const factsFolder = new URL('../src/core/facts/', import.meta.url);

interface Derived {
  readonly column: string;
  readonly cell: (row: Record<string, string>) => string;
}

/**
 * A column that follows from the others and takes too long to work out wherever the core starts:
 * the composition of every substance, of which nothing is kept that contradicts itself.
 */
async function derivedOf(file: string): Promise<Derived | undefined> {
  if (file !== 'substances.csv') return undefined;
  // Read only now, since it rests on tables that this run may have compiled afresh
  const { compositionText } = await import('../src/core/chemistry/composition-text.ts');
  const { makeSubstance } = await import('../src/core/chemistry/substance-make.ts');
  const { factsIn } = await import('../src/core/chemistry/substance-rows.ts');
  return {
    column: 'composition',
    cell(row) {
      const made = makeSubstance(factsIn(row));
      if (!made.ok) throw new Error(`data/${file}, ${row['name']}: ${made.message}`);
      const { composition } = made.substance;
      return composition === undefined ? '' : compositionText(composition);
    },
  };
}

/** The compiled text of one table; a source repeated in many rows is written once. */
function compileTable(csv: string, name: string, derived?: Derived): string {
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
    const written = cells.map((cell, j) => (j === at ? sources.indexOf(source) : cell));
    const record = Object.fromEntries(columns.map((column, j) => [column, cells[j]!]));
    return derived === undefined ? written : [...written, derived.cell(record)];
  });
  const all = derived === undefined ? columns : [...columns, derived.column];
  const lines = rows.map((row) => JSON.stringify(row)).join(',\n');
  return `{"columns":${JSON.stringify(all)},\n"sources":${JSON.stringify(sources)},\n"rows":[\n${lines}\n]}\n`;
}

const check = process.argv.includes('--check');
let stale = 0;
const files = readdirSync(dataFolder).filter((file) => file.endsWith('.csv'));
const last = (file: string) => Number(file === 'substances.csv');
for (const file of files.sort((a, b) => last(a) - last(b) || (a < b ? -1 : 1))) {
  const csv = readFileSync(new URL(file, dataFolder), 'utf8');
  const compiled = compileTable(csv, file, await derivedOf(file));
  const target = new URL(file.replace(/\.csv$/, '.json'), factsFolder);
  const current = existsSync(target) ? readFileSync(target, 'utf8') : '';
  if (current === compiled) continue;
  stale++;
  if (check) console.error(`data/${file} is newer than its compiled facts: npm run facts`);
  else {
    writeFileSync(target, compiled);
    console.log(`data/${file}: ${compiled.length} characters compiled`);
  }
}
if (check && stale > 0) process.exit(1);
