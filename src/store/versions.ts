import type { NewVersion, Version } from '../wire/experiment.ts';
import type { Connection } from './connection.ts';
import { documentOf, keepDocument, plainText } from './documents.ts';
import { kept, refused } from './refusal.ts';
import type { Kept } from './store.ts';
import type { VersionRow } from './tables.ts';

export const versionFrom = (row: Omit<VersionRow, 'experiment'>): Version => ({
  number: row.number,
  document: row.document,
  savedAt: row.saved_at,
  savedBy: row.saved_by,
  name: row.name,
});

/** Newest first. */
export async function versions({ db }: Connection, experiment: string): Promise<Version[]> {
  const rows = await db
    .selectFrom('versions')
    .selectAll()
    .where('experiment', '=', experiment)
    .orderBy('number', 'desc')
    .execute();
  return rows.map(versionFrom);
}

export async function version({ db }: Connection, experiment: string, number: number) {
  const row = await db
    .selectFrom('versions')
    .innerJoin('documents', 'documents.hash', 'versions.document')
    .selectAll('versions')
    .select('documents.text')
    .where('experiment', '=', experiment)
    .where('number', '=', number)
    .executeTakeFirst();
  return row && { ...versionFrom(row), text: row.text };
}

/**
 * The next version, unless another than `base` is the newest. A text that is the newest already is
 * answered with that version, whatever its base, so that a save may be sent again.
 */
export async function addVersion(
  { writing, now }: Connection,
  experiment: string,
  { text, base, name }: NewVersion,
  by: string,
): Promise<Kept<Version>> {
  const document = await documentOf(text);
  if (!document.ok) return document;
  const given = name === undefined ? null : plainText(name);
  return writing(async (trx) => {
    const head = await trx
      .selectFrom('versions')
      .selectAll()
      .where('experiment', '=', experiment)
      .orderBy('number', 'desc')
      .limit(1)
      .executeTakeFirst();
    if (head === undefined) return unknownExperiment(experiment);
    if (head.document === document.value.hash) {
      const named = { ...head, name: given ?? head.name };
      if (named.name !== head.name)
        await trx
          .updateTable('versions')
          .set({ name: named.name })
          .where('experiment', '=', experiment)
          .where('number', '=', head.number)
          .execute();
      return kept(versionFrom(named));
    }
    if (head.number !== base) return moved(head, base);
    const row: VersionRow = {
      experiment,
      number: head.number + 1,
      document: document.value.hash,
      saved_at: now(),
      saved_by: plainText(by),
      name: given,
    };
    await keepDocument(trx, document.value);
    await trx.insertInto('versions').values(row).execute();
    return kept(versionFrom(row));
  });
}

/** False where there is no such version. */
export async function nameVersion(
  { writing }: Connection,
  experiment: string,
  number: number,
  name: string | null,
): Promise<boolean> {
  const { numUpdatedRows } = await writing((trx) =>
    trx
      .updateTable('versions')
      .set({ name: name === null ? null : plainText(name) })
      .where('experiment', '=', experiment)
      .where('number', '=', number)
      .executeTakeFirstOrThrow(),
  );
  return numUpdatedRows > 0n;
}

export function unknownExperiment(id: string): Kept<never> {
  return refused(
    'experiment-unknown',
    `No experiment has the id "${id}".`,
    'Go back to the shelf and open it from there.',
  );
}

function moved(head: VersionRow, base: number): Kept<never> {
  return refused(
    'version-moved',
    `${head.saved_by} saved version ${head.number} while version ${base} was being edited here.`,
    'Nothing was overwritten. Look at what changed, then save on top of the newest version.',
  );
}
