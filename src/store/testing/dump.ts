import type Database from 'better-sqlite3';

interface Part {
  readonly type: 'table' | 'index' | 'trigger';
  readonly name: string;
  readonly sql: string;
}

const ORDER = { table: 0, index: 1, trigger: 2 } as const;

function parts(database: Database.Database): Part[] {
  const rows = database
    .prepare('select type, name, sql from sqlite_master where sql is not null order by name')
    .all() as Part[];
  return rows.sort((a, b) => ORDER[a.type] - ORDER[b.type]);
}

/** Tables, indexes and triggers, each as the text that made it. */
export function tablesOf(database: Database.Database): Record<string, string> {
  return Object.fromEntries(
    parts(database).map(({ type, name, sql }) => [`${type} ${name}`, sql.replace(/\s+/g, ' ')]),
  );
}

/** A whole database as SQL. */
export function dumpOf(database: Database.Database): string {
  const id = String(database.pragma('application_id', { simple: true }));
  const all = parts(database);
  const tables = all.filter(({ type }) => type === 'table');
  return [
    `pragma application_id = ${id}`,
    ...tables.map(({ sql }) => sql),
    ...tables.flatMap(({ name }) => insertsInto(database, name)),
    ...all.filter(({ type }) => type !== 'table').map(({ sql }) => sql),
  ]
    .map((statement) => `${statement};\n`)
    .join('');
}

function insertsInto(database: Database.Database, table: string): string[] {
  const rows = database.prepare(`select * from ${table} order by 1, 2`).raw().all() as unknown[][];
  return rows.map((row) => `insert into ${table} values (${row.map(literal).join(', ')})`);
}

function literal(value: unknown): string {
  if (value === null) return 'null';
  if (value instanceof Uint8Array) return `x'${Buffer.from(value).toString('hex')}'`;
  return typeof value === 'string' ? `'${value.replaceAll("'", "''")}'` : JSON.stringify(value);
}
