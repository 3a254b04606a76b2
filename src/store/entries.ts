import type { Transaction } from 'kysely';
import { sql } from 'kysely';
import type { BenchEntry } from '../core/record/entry.ts';
import type { Acknowledged, KeptEntry } from '../wire/run.ts';
import type { Connection } from './connection.ts';
import { plainText } from './documents.ts';
import { kept, refused } from './refusal.ts';
import type { Kept, Receipt } from './store.ts';
import type { EntryRow, Tables } from './tables.ts';

/** What one call of `addEntries` asks to be kept. */
export interface EntriesCall {
  readonly run: string;
  readonly entries: readonly BenchEntry[];
  readonly by: string;
}

export interface EntriesAnswer {
  readonly answer: Kept<Acknowledged>;
  /** Those that were not there before. */
  readonly added: readonly KeptEntry[];
}

/** Below what SQLite (32,766) and PostgreSQL (65,535) take as parameters of one statement. */
const ROWS_AT_ONCE = 500;

/** JSON with its fields in order of name: equal entries have equal texts. */
export function entryText(entry: BenchEntry): string {
  const fields = Object.entries(entry).filter(([, value]) => value !== undefined);
  fields.sort(([a], [b]) => (a < b ? -1 : 1));
  return JSON.stringify(Object.fromEntries(fields));
}

interface Held {
  readonly seq: number;
  readonly content: string;
}

/** By the id as a database gives it back: no table holds half a surrogate pair. */
const keyOf = (run: string, id: string): string => `${run}\n${plainText(id)}`;

/** Keeps what several calls ask, in one transaction; each is kept whole or refused by itself. */
export async function keepEntries(
  connection: Connection,
  calls: readonly EntriesCall[],
): Promise<readonly EntriesAnswer[]> {
  return connection.writing(async (trx) => {
    const held = await heldAlready(trx, calls);
    const runs = await knownRuns(trx, calls);
    let seq = await lastSeq(trx);
    const receivedAt = connection.now();
    const rows: EntryRow[] = [];
    const answers = calls.map((call): EntriesAnswer => {
      if (!runs.has(call.run)) return { answer: unknownRun(call.run), added: [] };
      const judged = judge(call, held, seq);
      if (!judged.ok) return { answer: judged, added: [] };
      const { acknowledged, fresh } = judged.value;
      seq += fresh.length;
      const added: KeptEntry[] = [];
      for (const { entry, content, seq: number } of fresh) {
        held.set(keyOf(call.run, entry.id), { seq: number, content });
        rows.push({
          seq: number,
          run: call.run,
          id: plainText(entry.id),
          content,
          received_at: receivedAt,
          received_by: plainText(call.by),
        });
        added.push({ seq: number, receivedAt, entry });
      }
      return { answer: kept({ acknowledged }), added };
    });
    await insertEntries(trx, rows);
    return answers;
  });
}

export async function insertEntries(
  trx: Transaction<Tables>,
  rows: readonly EntryRow[],
): Promise<void> {
  for (let i = 0; i < rows.length; i += ROWS_AT_ONCE)
    await trx
      .insertInto('entries')
      .values(rows.slice(i, i + ROWS_AT_ONCE))
      .execute();
}

interface Fresh extends Held {
  readonly entry: BenchEntry;
}

/** Which entries of a call are new, numbered on from `after`; a refusal where one differs. */
function judge(
  { run, entries }: EntriesCall,
  held: ReadonlyMap<string, Held>,
  after: number,
): Kept<{ acknowledged: Acknowledged['acknowledged']; fresh: readonly Fresh[] }> {
  const fresh = new Map<string, Fresh>();
  const acknowledged: Acknowledged['acknowledged'] = [];
  for (const entry of entries) {
    const content = entryText(entry);
    const key = keyOf(run, entry.id);
    const before = held.get(key) ?? fresh.get(key);
    if (before !== undefined && before.content !== content) return differs(entry.id);
    const seq = before?.seq ?? after + fresh.size + 1;
    if (before === undefined) fresh.set(key, { entry, content, seq });
    acknowledged.push({ id: entry.id, seq });
  }
  return kept({ acknowledged, fresh: [...fresh.values()] });
}

async function heldAlready(
  trx: Transaction<Tables>,
  calls: readonly EntriesCall[],
): Promise<Map<string, Held>> {
  const wanted = calls.flatMap(({ run, entries }) => entries.map(({ id }) => ({ run, id })));
  const held = new Map<string, Held>();
  for (let i = 0; i < wanted.length; i += ROWS_AT_ONCE) {
    const pairs = wanted
      .slice(i, i + ROWS_AT_ONCE)
      .map(({ run, id }) => sql`(${run}, ${plainText(id)})`);
    const { rows } = await sql<EntryRow>`select run, id, seq, content from entries
      where (run, id) in (values ${sql.join(pairs)})`.execute(trx);
    for (const { run, id, seq, content } of rows) held.set(keyOf(run, id), { seq, content });
  }
  return held;
}

async function knownRuns(
  trx: Transaction<Tables>,
  calls: readonly EntriesCall[],
): Promise<Set<string>> {
  const wanted = [...new Set(calls.map(({ run }) => run))];
  const rows = await trx.selectFrom('runs').select('id').where('id', 'in', wanted).execute();
  return new Set(rows.map(({ id }) => id));
}

async function lastSeq(trx: Transaction<Tables>): Promise<number> {
  const last = await trx
    .selectFrom('entries')
    .select((eb) => eb.fn.max('seq').as('seq'))
    .executeTakeFirst();
  return last?.seq ?? 0;
}

export async function entriesOf(
  { db }: Connection,
  run: string,
  { afterSeq = 0, upToSeq = Number.MAX_SAFE_INTEGER }: { afterSeq?: number; upToSeq?: number },
): Promise<Receipt[]> {
  const rows = await db
    .selectFrom('entries')
    .select(['seq', 'content', 'received_at', 'received_by'])
    .where('run', '=', run)
    .where('seq', '>', afterSeq)
    .where('seq', '<=', upToSeq)
    .orderBy('seq')
    .execute();
  return rows.map(({ seq, content, received_at, received_by }) => ({
    seq,
    receivedAt: received_at,
    receivedBy: received_by,
    entry: JSON.parse(content) as BenchEntry,
  }));
}

function unknownRun(run: string): Kept<never> {
  return refused(
    'run-unknown',
    `No bench record has the id "${run}".`,
    'Begin the bench record first, then send this again.',
  );
}

function differs(id: string): Kept<never> {
  return refused(
    'entry-differs',
    `Another entry was kept under the id "${id}", and nothing of this was kept.`,
    'Write it as a new entry. To correct the one that was kept, write a correction that names it.',
  );
}
