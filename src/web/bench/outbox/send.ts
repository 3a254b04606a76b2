import { Refused } from '../../api/request.ts';
import type { BenchDatabase, Waiting } from './database.ts';
import { acknowledge, readDevice, refuse } from './outbox.ts';
import type { Server } from './server.ts';

/** How far a round of sending came. */
export type Sent =
  | { readonly kind: 'all' }
  /** No network, a server that is busy or being mended: try again by and by. */
  | { readonly kind: 'later'; readonly refused?: Refused }
  /** Nobody is signed in here, or for another bench: of no use until that changes. */
  | { readonly kind: 'not-let-in'; readonly refused: Refused };

const AT_ONCE = 50;

/** The server has looked at what came and will not take it, however often it comes. */
const NEVER: ReadonlySet<number> = new Set([400, 409, 413, 415, 422]);
export const NOT_LET_IN: ReadonlySet<number> = new Set([401, 403, 404]);

/**
 * Sends what waits, in the order of writing; photos before the entries that name them. Whatever is
 * not acknowledged stays. To send twice does no harm: the server knows an entry by its id.
 */
export async function sendWaiting(
  database: BenchDatabase,
  run: string,
  server: Server,
): Promise<Sent> {
  // Once a batch was refused, one by one, to find which of it the server will not take.
  let alone = 0;
  for (;;) {
    const { waiting } = await readDevice(database, run);
    const left = waiting.filter(({ refusal }) => refusal === undefined);
    if (left.length === 0) return { kind: 'all' };
    const batch = left.slice(0, alone > 0 ? 1 : AT_ONCE);
    try {
      await sendFiles(database, batch, server);
      const entries = batch.map(({ entry }) => entry);
      const { acknowledged } = await server.sendEntries(run, entries);
      const ids = acknowledged.map(({ id }) => id).filter((id) => batch.some((e) => e.id === id));
      await acknowledge(database, run, ids);
      if (ids.length === 0) return { kind: 'later' };
      alone -= 1;
    } catch (error) {
      const stopped = stoppedBy(error);
      if (stopped !== undefined) return stopped;
      if (batch.length === 1) {
        await refuse(database, run, batch[0]!.id, (error as Refused).refusal);
        alone -= 1;
      } else alone = batch.length;
    }
  }
}

/** Undefined where the server refused what was sent, and only that. */
function stoppedBy(error: unknown): Sent | undefined {
  if (!(error instanceof Refused)) return { kind: 'later' };
  if (NEVER.has(error.status)) return undefined;
  return { kind: NOT_LET_IN.has(error.status) ? 'not-let-in' : 'later', refused: error };
}

/** A photo that the server will not take does not hold back the words that came with it. */
async function sendFiles(
  database: BenchDatabase,
  batch: readonly Waiting[],
  server: Server,
): Promise<void> {
  const named = new Set(batch.flatMap(({ entry }) => entry.attachments ?? []));
  for (const hash of named) {
    const file = await database.get('files', hash);
    if (file === undefined || file.sent || file.refusal !== undefined) continue;
    try {
      await server.sendFile(file);
      await database.put('files', { ...file, sent: true });
    } catch (error) {
      if (stoppedBy(error) !== undefined) throw error;
      await database.put('files', { ...file, refusal: (error as Refused).refusal });
    }
  }
}
