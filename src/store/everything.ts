import { sql } from 'kysely';
import type { Kysely, Transaction } from 'kysely';
import type { Connection } from './connection.ts';
import { documentOf, keepDocument, plainText } from './documents.ts';
import { entryText, insertEntries } from './entries.ts';
import { kept, refused } from './refusal.ts';
import { setSettings, settings } from './settings.ts';
import { spectra, spectrumRow } from './spectra.ts';
import type { Catalogue, CataloguedExperiment, CataloguedRun, Everything, Kept } from './store.ts';
import type { DocumentRow, Tables } from './tables.ts';
import { versionFrom } from './versions.ts';

export async function isEmpty(db: Kysely<Tables>): Promise<boolean> {
  const row = await db
    .selectNoFrom((eb) => [
      eb.exists(eb.selectFrom('experiments').select('id')).as('experiments'),
      eb.exists(eb.selectFrom('attachments').select('hash')).as('attachments'),
    ])
    .executeTakeFirstOrThrow();
  return !row.experiments && !row.attachments;
}

export function catalogue({ reading }: Connection): Promise<Catalogue> {
  return reading(async (trx) => {
    const last = await trx
      .selectFrom('entries')
      .select((eb) => eb.fn.max('seq').as('seq'))
      .executeTakeFirst();
    return {
      settings: await settings(trx),
      experiments: await experimentsIn(trx),
      runs: await runsIn(trx),
      attachments: await trx
        .selectFrom('attachments')
        .select(['hash', 'media_type as mediaType', sql<number>`length(bytes)`.as('size_bytes')])
        .orderBy('hash')
        .execute(),
      spectra: (await spectra(trx)).sort((a, b) => (a.id < b.id ? -1 : 1)),
      lastSeq: last?.seq ?? 0,
    };
  });
}

async function experimentsIn(trx: Transaction<Tables>): Promise<CataloguedExperiment[]> {
  const rows = await trx
    .selectFrom('versions')
    .innerJoin('experiments', 'experiments.id', 'versions.experiment')
    .innerJoin('documents', 'documents.hash', 'versions.document')
    .selectAll('versions')
    .select(['experiments.put_away', 'documents.title'])
    .orderBy('experiment')
    .orderBy('number')
    .execute();
  const byId = new Map<string, CataloguedExperiment>();
  for (const { experiment: id, put_away, title, ...row } of rows) {
    const before = byId.get(id)?.versions ?? [];
    const versions = [...before, versionFrom(row)];
    byId.set(id, { id, title, putAway: put_away !== 0, versions });
  }
  return [...byId.values()];
}

async function runsIn(trx: Transaction<Tables>): Promise<CataloguedRun[]> {
  return trx
    .selectFrom('runs')
    .select([
      'id',
      'experiment',
      'document',
      'version_number as versionNumber',
      'bench',
      'started_at as startedAt',
    ])
    .orderBy('id')
    .execute();
}

/** In one transaction, so that a power cut on the way leaves an empty store. */
export async function putEverything(
  { writing }: Connection,
  everything: Everything,
): Promise<Kept<null>> {
  const documents: DocumentRow[] = [];
  for (const text of everything.documents.values()) {
    const document = await documentOf(text);
    if (!document.ok) return document;
    documents.push(document.value);
  }
  return writing(async (trx) => {
    if (!(await isEmpty(trx))) return notEmpty();
    await setSettings(trx, everything.settings);
    for (const document of documents) await keepDocument(trx, document);
    await putExperiments(trx, everything);
    await putRuns(trx, everything);
    for (const { hash, mediaType, bytes } of everything.attachments)
      await trx.insertInto('attachments').values({ hash, media_type: mediaType, bytes }).execute();
    for (const { spectrum, print } of everything.spectra)
      await trx.insertInto('spectra').values(spectrumRow(spectrum, print)).execute();
    return kept(null);
  });
}

async function putExperiments(
  trx: Transaction<Tables>,
  { experiments }: Everything,
): Promise<void> {
  for (const { id, putAway, versions } of experiments) {
    await trx
      .insertInto('experiments')
      .values({ id, put_away: putAway ? 1 : 0 })
      .execute();
    for (const { number, document, savedAt, savedBy, name } of versions)
      await trx
        .insertInto('versions')
        .values({
          experiment: id,
          number,
          document,
          saved_at: savedAt,
          saved_by: plainText(savedBy),
          name: name === null ? null : plainText(name),
        })
        .execute();
  }
}

async function putRuns(trx: Transaction<Tables>, { runs, receipts }: Everything): Promise<void> {
  for (const { id, experiment, versionNumber, document, bench, startedAt } of runs) {
    await trx
      .insertInto('runs')
      .values({
        id,
        experiment,
        version_number: versionNumber,
        document,
        bench: plainText(bench),
        started_at: startedAt,
      })
      .execute();
    await insertEntries(
      trx,
      (receipts.get(id) ?? []).map(({ seq, receivedAt, receivedBy, entry }) => ({
        seq,
        run: id,
        id: plainText(entry.id),
        content: entryText(entry),
        received_at: receivedAt,
        received_by: plainText(receivedBy),
      })),
    );
  }
}

function notEmpty(): Kept<never> {
  return refused(
    'store-not-empty',
    'There are experiments in this store, and an import goes only into an empty one.',
    'Choose an empty folder for the import. Nothing was changed.',
  );
}
