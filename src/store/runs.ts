import type { Kysely } from 'kysely';
import { sql } from 'kysely';
import type { NewRun, Run } from '../wire/run.ts';
import type { Connection } from './connection.ts';
import { plainText } from './documents.ts';
import { kept, refused } from './refusal.ts';
import type { Kept } from './store.ts';
import type { RunRow, Tables } from './tables.ts';
import { unknownExperiment } from './versions.ts';

function withCounts(db: Kysely<Tables>) {
  return db
    .selectFrom('runs')
    .innerJoin('documents', 'documents.hash', 'runs.document')
    .selectAll('runs')
    .select('documents.title')
    .select(sql<number>`(select count(*) from entries where entries.run = runs.id)`.as('entries'));
}

function runFrom(row: RunRow & { readonly title: string; readonly entries: number }): Run {
  return {
    id: row.id,
    experiment: row.experiment,
    document: row.document,
    versionNumber: row.version_number,
    title: row.title,
    bench: row.bench,
    startedAt: row.started_at,
    entries: row.entries,
  };
}

/** That which began last comes first. */
export async function runs({ db }: Connection, experiment?: string): Promise<Run[]> {
  const all = withCounts(db).orderBy('runs.started_at', 'desc').orderBy('runs.id');
  const rows = await (
    experiment === undefined ? all : all.where('runs.experiment', '=', experiment)
  ).execute();
  return rows.map(runFrom);
}

export async function run(db: Kysely<Tables>, id: string): Promise<Run | undefined> {
  const row = await withCounts(db).where('runs.id', '=', id).executeTakeFirst();
  return row && runFrom(row);
}

/** Pins the newest version that has this text. The same run again is answered as it stands now. */
export async function addRun({ writing, now }: Connection, given: NewRun): Promise<Kept<Run>> {
  const { id, experiment, document } = given;
  const bench = plainText(given.bench);
  return writing(async (trx) => {
    const before = await run(trx, id);
    if (before !== undefined) {
      const same =
        before.experiment === experiment && before.document === document && before.bench === bench;
      return same ? kept(before) : runDiffers(id);
    }
    const pinned = await trx
      .selectFrom('versions')
      .select('number')
      .where('experiment', '=', experiment)
      .where('document', '=', document)
      .orderBy('number', 'desc')
      .limit(1)
      .executeTakeFirst();
    if (pinned === undefined) {
      const known = await trx
        .selectFrom('experiments')
        .select('id')
        .where('id', '=', experiment)
        .executeTakeFirst();
      return known === undefined ? unknownExperiment(experiment) : unknownVersion();
    }
    const row = { id, experiment, version_number: pinned.number, document, bench };
    await trx
      .insertInto('runs')
      .values({ ...row, started_at: now() })
      .execute();
    return kept((await run(trx, id))!);
  });
}

function runDiffers(id: string): Kept<never> {
  return refused(
    'run-differs',
    `Another bench record was begun under the id "${id}".`,
    'Give the new one an id of its own.',
  );
}

function unknownVersion(): Kept<never> {
  return refused(
    'version-unknown',
    'No version of this experiment has that text.',
    'Save the experiment first, then begin the bench record from the version that was saved.',
  );
}
