import * as z from 'zod';
import { refusalSchema } from '../wire/common.ts';
import type { Refusal } from '../wire/common.ts';
import type { Kept } from '../store/store.ts';

/** Thrown by a handler and turned into the answer by `faults.ts`; it never leaves this layer. */
export class Refused extends Error {
  constructor(
    readonly status: number,
    readonly refusal: Refusal,
  ) {
    super(refusal.message);
  }
}

export function refused(status: number, code: string, message: string, hint?: string): Refused {
  return new Refused(status, { code, message, ...(hint !== undefined && { hint }) });
}

/** What is not there is answered with 404. */
export function found<T>(value: T | undefined, what: string): T {
  if (value === undefined)
    throw refused(
      404,
      'not-found',
      `There is no ${what} here under that name.`,
      'Start at the shelf: it may be kept in another Weighboat.',
    );
  return value;
}

/** Refusals of the store that are not a clash with what is kept already. */
const STATUS: Readonly<Record<string, number>> = {
  'attachment-differs': 400,
  'document-not-text': 400,
  'import-too-large': 413,
  'import-no-zip': 422,
  'import-unreadable': 422,
  'import-damaged': 422,
  'import-newer': 422,
  'import-contradicts-itself': 422,
  'disk-full': 507,
  'disk-failed': 503,
  'store-damaged': 503,
  'store-closed': 503,
  'store-busy': 503,
  'database-unreachable': 503,
  'database-refused': 503,
};

/** The refusal of the store with the status that says the same. */
export function refusedBy(refusal: Refusal): Refused {
  return new Refused(
    STATUS[refusal.code] ?? (refusal.code.endsWith('-unknown') ? 404 : 409),
    refusal,
  );
}

/** The value that the store kept, or its refusal as an answer. */
export function kept<T>(answer: Kept<T>): T {
  if (!answer.ok) throw refusedBy(answer.refusal);
  return answer.value;
}

const answer = (description: string) => refusalSchema.meta({ description });

/** What any route may answer. */
const ALWAYS = {
  400: answer('The request does not have the form that this page says.'),
  401: answer('Nobody is signed in.'),
  403: answer('Another page sent this, or the session may not do it.'),
  413: answer('More than is taken at once.'),
  415: answer('Not of the media type that this page says.'),
  421: answer('Called by a name that this server does not answer to.'),
  429: answer('Too many requests; after a minute there is room again.'),
  500: answer('A fault of Weighboat.'),
  503: answer('The store, or something else that is needed, does not answer.'),
} as const;

/** No such thing. */
export const MISSING = { 404: answer('There is nothing under this name.') } as const;
/** Something else is kept already. */
export const CLASHES = { 409: answer('What is kept stands against it.') } as const;
export const NO_ROOM = { 507: answer('The disk is full; nothing of it was kept.') } as const;
export const UNREADABLE = { 422: answer('Well formed, but it cannot be made sense of.') } as const;

/** The answers of a route: its own, and those that every route may give. */
export const answers = <T extends Readonly<Record<number, unknown>>>(own: T) => ({
  ...ALWAYS,
  ...own,
});

export const nothing = z.undefined().meta({ description: 'Done; there is nothing to say.' });
