import type { Migration } from './migration.ts';

const table = (text: string, whole: string, bytes: string): string =>
  `create table spectra (
      id ${text} primary key,
      name ${text} not null,
      smiles ${text},
      state ${text},
      file ${text} not null unique references attachments (hash),
      added_at ${text} not null,
      added_by ${text} not null,
      put_away ${whole} not null default 0,
      form ${whole} not null,
      fingerprint ${bytes} not null,
      bands ${text} not null
    )`;

const FIXED = 'id, file, added_at, added_by';

/** A reference stays: what it is called and whether it is put away may change, its file never. */
export const spectra: Migration = {
  number: 2,
  name: 'spectra',
  statements: {
    sqlite: [
      table('text', 'integer', 'blob'),
      ...[`update of ${FIXED}`, 'delete'].map(
        (change) => `create trigger spectra_no_${change.slice(0, 6)} before ${change} on spectra
      begin select raise(abort, 'spectra are only ever added'); end`,
      ),
    ],
    postgres: [
      table('text collate "C"', 'bigint', 'bytea'),
      `create trigger spectra_no_change
      before update of ${FIXED} or delete on spectra
      for each row execute function only_ever_added()`,
      `create trigger spectra_no_truncate before truncate on spectra
      for each statement execute function only_ever_added()`,
    ],
  },
};
