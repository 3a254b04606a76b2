import type { Refusal } from '../wire/common.ts';
import type { Kept } from './store.ts';

export function refused(code: string, message: string, hint?: string): Kept<never> {
  return { ok: false, refusal: { code, message, ...(hint === undefined ? {} : { hint }) } };
}

export function kept<T>(value: T): Kept<T> {
  return { ok: true, value };
}

const DISK_FULL: Refusal = {
  code: 'disk-full',
  message: 'There is no room left on the disk, and nothing of this was kept.',
  hint: 'What was kept before is safe and can be read. Make room on the disk, then try again.',
};

const DISK_FAILED: Refusal = {
  code: 'disk-failed',
  message: 'The disk did not take this, and nothing of it was kept.',
  hint: 'Look whether the disk is there and may be written to, then try again. Make a backup to another disk soon.',
};

const DAMAGED: Refusal = {
  code: 'store-damaged',
  message: 'The file of this store is damaged.',
  hint: 'Keep a copy of its folder as it is, and restore the newest backup.',
};

const UNREACHABLE: Refusal = {
  code: 'database-unreachable',
  message: 'The database does not answer.',
  hint: 'Look whether it runs and whether DATABASE_URL names it, then try again. To send the same again does no harm.',
};

const BUSY: Refusal = {
  code: 'store-busy',
  message: 'Another program holds the store, and nothing of this was kept.',
  hint: 'Close whatever else has it open, then try again.',
};

const CLOSED: Refusal = {
  code: 'store-closed',
  message: 'Weighboat is being stopped, and nothing of this was kept.',
  hint: 'Try again when it runs.',
};

const NOT_LET_IN: Refusal = {
  code: 'database-refused',
  message: 'The database does not let Weighboat in.',
  hint: 'Look at the name, the password and the database in DATABASE_URL.',
};

/** By the code that the driver gives; SQLite's extended codes begin with the plain one. */
const BY_CODE: readonly (readonly [RegExp, Refusal])[] = [
  [/^(SQLITE_FULL|53100|ENOSPC|EDQUOT)$/, DISK_FULL],
  [/^(SQLITE_CORRUPT|SQLITE_NOTADB|XX001|XX002)/, DAMAGED],
  [/^(SQLITE_IOERR|SQLITE_READONLY|SQLITE_CANTOPEN|58030|EACCES|EPERM|EROFS|EIO)/, DISK_FAILED],
  [/^(SQLITE_BUSY|SQLITE_LOCKED|55P03|40001|40P01)/, BUSY],
  [/^(28...|3D000|42501)$/, NOT_LET_IN],
  [
    /^(08...|53300|57P0[1-3]|ECONNREFUSED|ECONNRESET|ENOTFOUND|ETIMEDOUT|EPIPE|EHOSTUNREACH|ENETUNREACH|EAI_AGAIN)$/,
    UNREACHABLE,
  ],
];

/** Messages of errors that the drivers give no code. */
const BY_MESSAGE: readonly (readonly [RegExp, Refusal])[] = [
  [/^(The database connection is not open|driver has already been destroyed)/, CLOSED],
  [/after calling end on the pool/, CLOSED],
  [
    /Connection terminated|connection error and is not queryable|timeout exceeded when trying to connect/,
    UNREACHABLE,
  ],
  [/^SASL: /, NOT_LET_IN],
];

/**
 * What an error of the store means to the person: no room, no disk, no database. A method that
 * cannot answer with a refusal throws such an error. Undefined: a mistake of this program.
 */
export function refusalOf(error: unknown): Refusal | undefined {
  if (!(error instanceof Error)) return undefined;
  if ('refusal' in error) return error.refusal as Refusal;
  const code = 'code' in error && typeof error.code === 'string' ? error.code : '';
  return (
    BY_CODE.find(([pattern]) => pattern.test(code))?.[1] ??
    BY_MESSAGE.find(([pattern]) => pattern.test(error.message))?.[1]
  );
}

/** For a method without an answer: `refusalOf` gives the refusal back. */
export function refusalError(refusal: Refusal): Error {
  return Object.assign(new Error(refusal.message), { refusal });
}

/** The answer of the work; a disk or a database that fails is a refusal as well. */
export async function keeping<T>(work: () => Promise<Kept<T>>): Promise<Kept<T>> {
  try {
    return await work();
  } catch (error) {
    const refusal = refusalOf(error);
    if (refusal === undefined) throw error;
    return { ok: false, refusal };
  }
}
