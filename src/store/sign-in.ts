import type { Kysely } from 'kysely';
import type { Role, Session } from '../wire/session.ts';
import type { Connection } from './connection.ts';
import { plainText } from './documents.ts';
import type { Store } from './store.ts';
import type { Tables, TokenRow } from './tables.ts';

type Person = Parameters<Store['addPerson']>[0];
type Link = Parameters<Store['addLink']>[0];
type NewSession = Parameters<Store['addSession']>[0];

/** A person who is there already gets the name that is given now. */
export async function addPerson({ writing }: Connection, { id, name }: Person): Promise<void> {
  const given = { name: plainText(name) };
  await writing((trx) =>
    trx
      .insertInto('persons')
      .values({ id, ...given })
      .onConflict((conflict) => conflict.column('id').doUpdateSet(given))
      .execute(),
  );
}

/** Whatever has run out goes, so that neither table grows for ever. */
async function keepToken(
  { writing, now }: Connection,
  table: 'links' | 'sessions',
  row: TokenRow,
): Promise<void> {
  await writing(async (trx) => {
    await trx.deleteFrom(table).where('expires_at', '<=', now()).execute();
    await trx.insertInto(table).values(row).execute();
  });
}

/** As the clock writes it, so that instants sort as text. */
const instant = (at: string): string => new Date(at).toISOString();

export function addLink(connection: Connection, link: Link): Promise<void> {
  return keepToken(connection, 'links', {
    token_hash: link.tokenHash,
    person: link.person,
    role: link.role,
    run: link.run,
    expires_at: instant(link.expiresAt),
  });
}

/** The link is gone with its first use. */
export async function useLink(
  { writing }: Connection,
  tokenHash: string,
  now: string,
): Promise<Session | undefined> {
  return writing(async (trx) => {
    const session = await valid(trx, 'links', tokenHash, now);
    await trx.deleteFrom('links').where('token_hash', '=', tokenHash).execute();
    return session;
  });
}

export function addSession(
  connection: Connection,
  { tokenHash, session, expiresAt }: NewSession,
): Promise<void> {
  return keepToken(connection, 'sessions', {
    token_hash: tokenHash,
    person: session.person.id,
    role: session.role,
    run: session.run,
    expires_at: instant(expiresAt),
  });
}

export function session({ db }: Connection, tokenHash: string, now: string) {
  return valid(db, 'sessions', tokenHash, now);
}

export async function endSession({ writing }: Connection, tokenHash: string): Promise<void> {
  await writing((trx) => trx.deleteFrom('sessions').where('token_hash', '=', tokenHash).execute());
}

async function valid(
  db: Kysely<Tables>,
  table: 'links' | 'sessions',
  tokenHash: string,
  now: string,
): Promise<Session | undefined> {
  const row = await db
    .selectFrom(table)
    .innerJoin('persons', 'persons.id', `${table}.person`)
    .select(['persons.id', 'persons.name', `${table}.role`, `${table}.run`, `${table}.expires_at`])
    .where(`${table}.token_hash`, '=', tokenHash)
    .executeTakeFirst();
  if (row === undefined || row.expires_at <= instant(now)) return undefined;
  return { person: { id: row.id, name: row.name }, role: row.role as Role, run: row.run };
}
