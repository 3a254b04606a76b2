import type { Kysely, Transaction } from 'kysely';
import type { KeptBand } from '../core/evidence/spectrum/library/kept-bands.ts';
import type { Spectrum } from '../wire/spectrum.ts';
import type { Connection } from './connection.ts';
import { plainText } from './documents.ts';
import { kept, refused } from './refusal.ts';
import type { Kept } from './store.ts';
import type { SpectrumRow, Tables } from './tables.ts';

/**
 * What a spectrum is found by: worked out from its file, and made anew by a program whose fingerprints
 * have another form. Form 0 with no bytes: the file could not be read.
 */
export interface SpectrumPrint {
  readonly form: number;
  readonly fingerprint: Uint8Array;
  readonly bands: readonly KeptBand[];
}

export type SpectrumGiven = Pick<Spectrum, 'id' | 'name' | 'smiles' | 'state' | 'file'>;

export interface SpectrumChanged {
  readonly name?: string;
  readonly smiles?: string | null;
  readonly putAway?: boolean;
  /** How it was measured weighs its heights, so that both change together. */
  readonly measured?: { readonly state: Spectrum['state']; readonly print: SpectrumPrint };
}

const COLUMNS = [
  'id',
  'name',
  'smiles',
  'state',
  'file',
  'added_at',
  'added_by',
  'put_away',
] as const;

const spectrumFrom = (row: Pick<SpectrumRow, (typeof COLUMNS)[number]>): Spectrum => ({
  id: row.id,
  name: row.name,
  smiles: row.smiles,
  state: row.state as Spectrum['state'],
  file: row.file,
  addedAt: row.added_at,
  addedBy: row.added_by,
  putAway: row.put_away !== 0,
});

export function spectrumRow(spectrum: Spectrum, print: SpectrumPrint): SpectrumRow {
  return {
    id: spectrum.id,
    name: plainText(spectrum.name),
    smiles: spectrum.smiles === null ? null : plainText(spectrum.smiles),
    state: spectrum.state,
    file: spectrum.file,
    added_at: spectrum.addedAt,
    added_by: plainText(spectrum.addedBy),
    put_away: spectrum.putAway ? 1 : 0,
    ...columnsOf(print),
  };
}

const columnsOf = ({ form, fingerprint, bands }: SpectrumPrint) => ({
  form,
  fingerprint,
  bands: JSON.stringify(bands),
});

/** By name, those that are put away among them. */
export async function spectra(db: Kysely<Tables>): Promise<Spectrum[]> {
  const rows = await db
    .selectFrom('spectra')
    .select(COLUMNS)
    .orderBy('name')
    .orderBy('id')
    .execute();
  return rows.map(spectrumFrom);
}

export async function spectrum(db: Kysely<Tables>, id: string): Promise<Spectrum | undefined> {
  const row = await db
    .selectFrom('spectra')
    .select(COLUMNS)
    .where('id', '=', id)
    .executeTakeFirst();
  return row && spectrumFrom(row);
}

/** Whether a file belongs to the library, put away or not. */
export async function isSpectrumFile({ db }: Connection, hash: string): Promise<boolean> {
  const row = await db
    .selectFrom('spectra')
    .select('id')
    .where('file', '=', hash)
    .executeTakeFirst();
  return row !== undefined;
}

/** A question names no more at once than any database takes. */
const AT_ONCE = 500;

/** Of those ids that are there. */
export async function spectrumPrints(
  { db }: Connection,
  ids: readonly string[],
): Promise<(SpectrumPrint & { readonly id: string })[]> {
  const prints: (SpectrumPrint & { readonly id: string })[] = [];
  for (let n = 0; n < ids.length; n += AT_ONCE) {
    const rows = await db
      .selectFrom('spectra')
      .select(['id', 'form', 'fingerprint', 'bands'])
      .where('id', 'in', ids.slice(n, n + AT_ONCE))
      .execute();
    for (const { id, form, fingerprint, bands } of rows)
      prints.push({ id, form, fingerprint, bands: JSON.parse(bands) as KeptBand[] });
  }
  return prints;
}

/** The same spectrum again is answered as it stands now. A file is in the library once. */
export async function addSpectrum(
  { writing, now }: Connection,
  given: SpectrumGiven,
  print: SpectrumPrint,
  by: string,
): Promise<Kept<Spectrum>> {
  return writing(async (trx) => {
    const before = await spectrum(trx, given.id);
    if (before !== undefined) return before.file === given.file ? kept(before) : differs(given.id);
    const clash = await clashOf(trx, given.file);
    if (clash !== undefined) return clash;
    const row = spectrumRow({ ...given, addedAt: now(), addedBy: by, putAway: false }, print);
    await trx.insertInto('spectra').values(row).execute();
    return kept(spectrumFrom(row));
  });
}

async function clashOf(trx: Transaction<Tables>, file: string): Promise<Kept<never> | undefined> {
  const same = await trx
    .selectFrom('spectra')
    .select(['name', 'put_away'])
    .where('file', '=', file)
    .executeTakeFirst();
  if (same !== undefined)
    return refused(
      'spectrum-there',
      `This file is in the library already, as “${same.name}”${same.put_away === 0 ? '' : ', put away'}.`,
      same.put_away === 0
        ? 'Change what is said of it there.'
        : 'Bring it back from what is put away.',
    );
  const attachment = await trx
    .selectFrom('attachments')
    .select('hash')
    .where('hash', '=', file)
    .executeTakeFirst();
  return attachment === undefined
    ? refused('attachment-unknown', 'The file of this spectrum is not here.', 'Send it first.')
    : undefined;
}

function differs(id: string): Kept<never> {
  return refused(
    'spectrum-differs',
    `Another spectrum was kept under the id "${id}".`,
    'Give the new one an id of its own.',
  );
}

/** As it stands after the change; undefined where there is no such spectrum. */
export async function changeSpectrum(
  { writing }: Connection,
  id: string,
  { name, smiles, putAway, measured }: SpectrumChanged,
): Promise<Spectrum | undefined> {
  const columns = {
    ...(name !== undefined && { name: plainText(name) }),
    ...(smiles !== undefined && { smiles: smiles === null ? null : plainText(smiles) }),
    ...(putAway !== undefined && { put_away: putAway ? 1 : 0 }),
    ...(measured !== undefined && { state: measured.state, ...columnsOf(measured.print) }),
  };
  return writing(async (trx) => {
    if (Object.keys(columns).length > 0)
      await trx.updateTable('spectra').set(columns).where('id', '=', id).execute();
    return spectrum(trx, id);
  });
}
