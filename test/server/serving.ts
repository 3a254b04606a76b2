import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { InjectOptions } from 'fastify';
import { onTestFinished } from 'vitest';
import type { App } from '../../src/server/app.ts';
import { LIFE_ms } from '../../src/server/limits.ts';
import { buildServer } from '../../src/server/server.ts';
import type { ServerOptions } from '../../src/server/server.ts';
import { hashOf, newToken } from '../../src/server/tokens.ts';
import { openSqliteStore } from '../../src/store/sqlite.ts';
import type { Store } from '../../src/store/store.ts';
import { loadStructureKit } from '../../src/structures/rdkit.ts';
import type { Role } from '../../src/wire/session.ts';

export const HOST = '127.0.0.1:7420';
export const ORIGIN = `http://${HOST}`;
/** What a browser sends along from a page of ours. */
export const OWN_PAGE = { host: HOST, origin: ORIGIN, 'sec-fetch-site': 'same-origin' } as const;

export const BENZOIC = `# Benzoic acid from sodium benzoate

Course: Preparative chemistry 1

## Reaction
sodium benzoate + HCl -> benzoic acid + NaCl

## Vessels
- beaker: 100 mL beaker

## Procedure
1. Charge the beaker with sodium benzoate 1.44 g and water 20 mL.
2. Add 2 M hydrochloric acid 6 mL to the beaker dropwise.
3. Cool the beaker in ice for 10 min.
4. Filter the beaker under vacuum; keep the solid.
5. Weigh the solid.

## Product
benzoic acid
`;

export interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, unknown>>;
  readonly text: string;
  readonly bytes: Buffer;
  /** Of a JSON answer. */
  readonly body: () => never;
}

export type Ask = (
  method: NonNullable<InjectOptions['method']>,
  url: string,
  body?: unknown,
  headers?: Readonly<Record<string, string>>,
) => Promise<Answer>;

export interface Served {
  readonly app: App;
  readonly store: Store;
  readonly faults: readonly unknown[];
  /** Moves the server's clock on. */
  readonly later: (time_ms: number) => void;
  /** Signs a fresh session in and gives its cookie. */
  readonly signIn: (role?: Role, run?: string | null) => Promise<string>;
  /** Asks as a page of ours does, with this cookie. */
  readonly as: (cookie: string | null) => Ask;
}

const START_ms = Date.UTC(2026, 0, 15, 9);

/** A server over a fresh store in a folder of its own, both gone when the test ends. */
export async function serving(options: Partial<ServerOptions> = {}): Promise<Served> {
  const folder = mkdtempSync(join(tmpdir(), 'weighboat-server-'));
  let now_ms = START_ms;
  const opened = await openSqliteStore(folder, { now: () => new Date(now_ms).toISOString() });
  if (!opened.ok) throw new Error(opened.refusal.message);
  const store = opened.value;
  const faults: unknown[] = [];
  const app = await buildServer({
    store,
    structures: () => loadStructureKit(),
    clock: () => now_ms,
    onFault: (error) => void faults.push(error),
    ...options,
  });
  onTestFinished(async () => {
    await app.close();
    await store.close();
    rmSync(folder, { recursive: true, force: true });
  });
  const as: Served['as'] = (cookie) => (method, url, body, headers) =>
    ask(app, method, url, body, { ...OWN_PAGE, ...(cookie !== null && { cookie }), ...headers });
  const signIn: Served['signIn'] = async (role = 'instructor', run = null) => {
    const person = { id: 'person-one', name: 'R. Thorne' };
    await store.addPerson(person);
    const token = newToken();
    await store.addSession({
      tokenHash: hashOf(token),
      session: { person, role, run },
      expiresAt: new Date(now_ms + LIFE_ms.session).toISOString(),
    });
    return `weighboat=${token}`;
  };
  return { app, store, faults, later: (time_ms) => void (now_ms += time_ms), signIn, as };
}

async function ask(
  app: App,
  method: NonNullable<InjectOptions['method']>,
  url: string,
  body: unknown,
  headers: Readonly<Record<string, string>>,
): Promise<Answer> {
  const raw = typeof body === 'string' || Buffer.isBuffer(body);
  const {
    statusCode,
    headers: given,
    rawPayload,
  } = await app.inject({
    method,
    url,
    headers: {
      ...(body !== undefined && !raw && { 'content-type': 'application/json' }),
      ...headers,
    },
    ...(body !== undefined && { payload: raw ? body : JSON.stringify(body) }),
  });
  const text = rawPayload.toString('utf8');
  return {
    status: statusCode,
    headers: given,
    text,
    bytes: rawPayload,
    body: () => JSON.parse(text) as never,
  };
}

/** An experiment and a bench record of it, made through the interface. */
export async function withRun(given: Served): Promise<{
  readonly instructor: Ask;
  readonly experiment: string;
  readonly document: string;
  readonly run: string;
}> {
  const instructor = given.as(await given.signIn());
  const experiment = 'experiment-1';
  const made = await instructor('POST', '/api/experiments', { id: experiment, text: BENZOIC });
  const { head }: { head: { document: string } } = made.body();
  const run = 'run-number-1';
  await instructor('POST', '/api/runs', {
    id: run,
    experiment,
    document: head.document,
    bench: 'Bench 4',
  });
  return { instructor, experiment, document: head.document, run };
}

export const entry = (id: string, more: Readonly<Record<string, unknown>> = {}) => ({
  id,
  at: '2026-01-15T09:30:00Z',
  by: 'Bench 4',
  kind: 'charge',
  step: '1',
  item: 'sodium benzoate',
  value: 1.4412,
  unit: 'g',
  ...more,
});
