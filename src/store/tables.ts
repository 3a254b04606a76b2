/** The tables as they stand after the last migration. Instants are ISO 8601 in UTC. */
export interface Tables {
  readonly documents: DocumentRow;
  readonly experiments: ExperimentRow;
  readonly versions: VersionRow;
  readonly runs: RunRow;
  readonly entries: EntryRow;
  readonly attachments: AttachmentRow;
  readonly spectra: SpectrumRow;
  readonly settings: SettingsRow;
  readonly persons: PersonRow;
  readonly links: TokenRow;
  readonly sessions: TokenRow;
  readonly migrations: MigrationRow;
}

/** Never changed: the hash is that of the text. Title and course are read out of it once. */
export interface DocumentRow {
  hash: string;
  text: string;
  title: string;
  course: string | null;
}

export interface ExperimentRow {
  id: string;
  put_away: number;
}

export interface VersionRow {
  experiment: string;
  number: number;
  document: string;
  saved_at: string;
  saved_by: string;
  name: string | null;
}

export interface RunRow {
  id: string;
  experiment: string;
  version_number: number;
  document: string;
  bench: string;
  started_at: string;
}

export interface EntryRow {
  seq: number;
  run: string;
  id: string;
  /** JSON with its fields in order of name, so that equal entries have equal texts. */
  content: string;
  received_at: string;
  received_by: string;
}

export interface AttachmentRow {
  hash: string;
  media_type: string;
  bytes: Uint8Array;
}

/** A reference of the library. What it is found by is worked out from its file. */
export interface SpectrumRow {
  id: string;
  name: string;
  smiles: string | null;
  state: string | null;
  /** An attachment. */
  file: string;
  added_at: string;
  added_by: string;
  put_away: number;
  /** Of the fingerprint; 0 where the file could not be read. */
  form: number;
  fingerprint: Uint8Array;
  /** JSON. */
  bands: string;
}

/** One row, of number 1. */
export interface SettingsRow {
  number: number;
  content: string;
}

export interface PersonRow {
  id: string;
  name: string;
}

export interface TokenRow {
  token_hash: string;
  person: string;
  role: string;
  run: string | null;
  expires_at: string;
}

export interface MigrationRow {
  number: number;
  name: string;
  applied_at: string;
}
