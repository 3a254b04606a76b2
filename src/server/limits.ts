const KB = 1024;
const MB = 1024 * KB;
const MINUTE_ms = 60_000;
const HOUR_ms = 60 * MINUTE_ms;

/** What is taken of a request. A document may have 2,000,000 characters, of up to four bytes. */
export const BODY_bytes = {
  usual: 64 * KB,
  document: 8 * MB,
  entries: MB,
  attachment: 10 * MB,
  import: 500 * MB,
} as const;

/** How long each kind of token is good for. */
export const LIFE_ms = {
  session: 30 * 24 * HOUR_ms,
  ownLink: 10 * MINUTE_ms,
  benchLink: 12 * HOUR_ms,
} as const;

/**
 * Requests a minute. A session is what is counted, and before there is one the address: a whole
 * class may share that, so signing in is tight against guessing rather than against thirty phones.
 */
export const RATE = {
  usual: 1200,
  entries: 3000,
  signIn: 60,
  /** Each reads a file through. */
  spectra: 300,
  /** Each asks hundreds of patterns of several structures. */
  structures: 300,
} as const;

/** A browser opens six connections to one host and a feed holds one of them. */
export const FEEDS_PER_SESSION = 8;

/** A structure that a teaching laboratory draws has a fifth of this. */
export const LONGEST_SMILES = 500;
