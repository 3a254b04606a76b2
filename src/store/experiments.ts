import type { Kysely } from 'kysely';
import { sql } from 'kysely';
import type { ExperimentOpened, ExperimentSummary, NewExperiment } from '../wire/experiment.ts';
import type { Connection } from './connection.ts';
import { documentOf, keepDocument, plainText } from './documents.ts';
import { kept, refused } from './refusal.ts';
import type { Kept } from './store.ts';
import type { Tables } from './tables.ts';
import { versionFrom } from './versions.ts';

/** Each experiment with its newest version, the document of it and how many runs there are. */
function heads(db: Kysely<Tables>) {
  return db
    .selectFrom('experiments')
    .innerJoin('versions', 'versions.experiment', 'experiments.id')
    .innerJoin('documents', 'documents.hash', 'versions.document')
    .select([
      'experiments.id',
      'experiments.put_away',
      'documents.title',
      'documents.course',
      'versions.number',
      'versions.document',
      'versions.saved_at',
      'versions.saved_by',
      'versions.name',
    ])
    .select(
      sql<number>`(select count(*) from runs where runs.experiment = experiments.id)`.as('runs'),
    )
    .where(
      'versions.number',
      '=',
      sql<number>`(select max(number) from versions v where v.experiment = experiments.id)`,
    );
}

type Head = Awaited<ReturnType<ReturnType<typeof heads>['executeTakeFirstOrThrow']>>;

const summaryFrom = (row: Head): ExperimentSummary => ({
  id: row.id,
  title: row.title,
  course: row.course,
  head: versionFrom(row),
  runs: row.runs,
  putAway: row.put_away !== 0,
});

/** That which was saved last comes first. */
export async function experiments({ db }: Connection): Promise<ExperimentSummary[]> {
  const rows = await heads(db)
    .orderBy('versions.saved_at', 'desc')
    .orderBy('experiments.id')
    .execute();
  return rows.map(summaryFrom);
}

export async function experiment(
  db: Kysely<Tables>,
  id: string,
): Promise<ExperimentOpened | undefined> {
  const row = await heads(db)
    .select('documents.text')
    .where('experiments.id', '=', id)
    .executeTakeFirst();
  return row && { ...summaryFrom(row), text: row.text };
}

/** The same experiment again is answered as it stands now. */
export async function addExperiment(
  { writing, now }: Connection,
  { id, text }: NewExperiment,
  by: string,
): Promise<Kept<ExperimentOpened>> {
  const document = await documentOf(text);
  if (!document.ok) return document;
  return writing(async (trx) => {
    const first = await trx
      .selectFrom('versions')
      .select('document')
      .where('experiment', '=', id)
      .where('number', '=', 1)
      .executeTakeFirst();
    if (first !== undefined && first.document !== document.value.hash)
      return refused(
        'experiment-differs',
        `Another experiment was kept under the id "${id}".`,
        'Give the new one an id of its own.',
      );
    if (first === undefined) {
      await keepDocument(trx, document.value);
      await trx.insertInto('experiments').values({ id, put_away: 0 }).execute();
      await trx
        .insertInto('versions')
        .values({
          experiment: id,
          number: 1,
          document: document.value.hash,
          saved_at: now(),
          saved_by: plainText(by),
          name: null,
        })
        .execute();
    }
    return kept((await experiment(trx, id))!);
  });
}

/** False where there is no such experiment. */
export async function putAway({ writing }: Connection, id: string, away: boolean) {
  const { numUpdatedRows } = await writing((trx) =>
    trx
      .updateTable('experiments')
      .set({ put_away: away ? 1 : 0 })
      .where('id', '=', id)
      .executeTakeFirstOrThrow(),
  );
  return numUpdatedRows > 0n;
}
