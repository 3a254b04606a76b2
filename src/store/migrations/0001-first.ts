import type { Migration } from './migration.ts';

/** What the two databases call the same thing. Text is compared by its bytes in both. */
interface Words {
  readonly text: string;
  readonly whole: string;
  readonly bytes: string;
}

function tables({ text, whole, bytes }: Words): string[] {
  return [
    `create table documents (
      hash ${text} primary key,
      text ${text} not null,
      title ${text} not null,
      course ${text}
    )`,
    `create table experiments (
      id ${text} primary key,
      put_away ${whole} not null default 0
    )`,
    `create table versions (
      experiment ${text} not null references experiments (id),
      number ${whole} not null check (number >= 1),
      document ${text} not null references documents (hash),
      saved_at ${text} not null,
      saved_by ${text} not null,
      name ${text},
      primary key (experiment, number)
    )`,
    `create table runs (
      id ${text} primary key,
      experiment ${text} not null,
      version_number ${whole} not null,
      document ${text} not null references documents (hash),
      bench ${text} not null,
      started_at ${text} not null,
      foreign key (experiment, version_number) references versions (experiment, number)
    )`,
    'create index runs_of_experiment on runs (experiment)',
    `create table entries (
      seq ${whole} primary key,
      run ${text} not null references runs (id),
      id ${text} not null,
      content ${text} not null,
      received_at ${text} not null,
      received_by ${text} not null,
      unique (run, id)
    )`,
    'create index entries_of_run on entries (run, seq)',
    `create table attachments (
      hash ${text} primary key,
      media_type ${text} not null,
      bytes ${bytes} not null
    )`,
    `create table settings (
      number ${whole} primary key check (number = 1),
      content ${text} not null
    )`,
    `create table persons (
      id ${text} primary key,
      name ${text} not null
    )`,
    ...['links', 'sessions'].map(
      (name) => `create table ${name} (
      token_hash ${text} primary key,
      person ${text} not null references persons (id),
      role ${text} not null,
      run ${text} references runs (id),
      expires_at ${text} not null
    )`,
    ),
  ];
}

/** What is only ever added to, and what of it may change after all. */
const KEPT_FOR_GOOD: readonly { readonly table: string; readonly fixed?: string }[] = [
  { table: 'documents' },
  { table: 'entries' },
  { table: 'attachments' },
  { table: 'runs' },
  { table: 'versions', fixed: 'experiment, number, document, saved_at, saved_by' },
];

const sqliteGuards = KEPT_FOR_GOOD.flatMap(({ table, fixed }) =>
  [`update${fixed === undefined ? '' : ` of ${fixed}`}`, 'delete'].map(
    (change) => `create trigger ${table}_no_${change.slice(0, 6)} before ${change} on ${table}
      begin select raise(abort, '${table} are only ever added'); end`,
  ),
);

const postgresGuards = [
  `create function only_ever_added() returns trigger language plpgsql as $$
    begin raise exception '% are only ever added', tg_table_name; end $$`,
  ...KEPT_FOR_GOOD.flatMap(({ table, fixed }) => [
    `create trigger ${table}_no_change
      before update${fixed === undefined ? '' : ` of ${fixed}`} or delete on ${table}
      for each row execute function only_ever_added()`,
    `create trigger ${table}_no_truncate before truncate on ${table}
      for each statement execute function only_ever_added()`,
  ]),
];

/** "Wbht": tells a store from any other SQLite file. */
export const APPLICATION_ID = 0x57626874;

export const first: Migration = {
  number: 1,
  name: 'first',
  statements: {
    sqlite: [
      `pragma application_id = ${APPLICATION_ID}`,
      ...tables({ text: 'text', whole: 'integer', bytes: 'blob' }),
      ...sqliteGuards,
    ],
    postgres: [
      ...tables({ text: 'text collate "C"', whole: 'bigint', bytes: 'bytea' }),
      ...postgresGuards,
    ],
  },
};
