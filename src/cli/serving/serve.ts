import { existsSync } from 'node:fs';
import { networkInterfaces } from 'node:os';
import { join } from 'node:path';
import type { App } from '../../server/app.ts';
import { LIFE_ms } from '../../server/limits.ts';
import { makeLink } from '../../server/links.ts';
import { buildServer } from '../../server/server.ts';
import { refusalOf } from '../../store/refusal.ts';
import type { Store } from '../../store/store.ts';
import { loadStructureKit } from '../../structures/rdkit.ts';
import { refusal } from '../command.ts';
import type { Answer, Call } from '../command.ts';
import type { Io } from '../io.ts';
import { servedAddress, shownOrigin } from './address.ts';
import { loadDemonstration } from './demonstration.ts';
import { done } from './done.ts';
import { placeOf, placeText, withStore } from './open-store.ts';
import { projectFolder } from './project.ts';
import { serveWish } from './serve-wish.ts';
import type { ServeWish } from './serve-wish.ts';
import { onEnter, untilStopped } from './until-stopped.ts';

const INSTRUCTOR = { id: 'instructor', name: 'Instructor' } as const;
/** After the start there is time for what the first drawing would otherwise wait for. */
const WARM_UP_ms = 1500;
/** A browser that does not let go of its line is not waited for longer. */
const PATIENCE_ms = 3000;
const LET_GO_ms = 50;

/** Listens until somebody stops it; then everything is closed and kept. */
export async function serve(call: Call): Promise<Answer> {
  const wished = serveWish(call);
  if (!wished.ok) return refusal(wished.message, wished.hint);
  const { wish } = wished;
  const webFolder = join(projectFolder(), 'dist', 'web');
  if (!existsSync(join(webFolder, 'index.html')))
    return refusal('The pages are not built yet.', 'Build them with: npm run build');
  const place = placeOf(call);
  return withStore(place, async (store) => {
    const begun = await begin(store, wish);
    if (begun !== undefined) return begun;
    const app = await appFor(store, wish, webFolder, call.io);
    const trouble = await listen(app, wish);
    if (trouble !== undefined) return trouble;
    try {
      await serveUntilStopped(app, store, wish, placeText(place), call.io);
    } finally {
      await close(app);
    }
    return done({ stopped: true }, 'Weighboat has stopped. Everything is kept.');
  });
}

/** What a store needs before anybody signs in; a refusal where it cannot have that. */
async function begin(store: Store, { empty }: ServeWish): Promise<Answer | undefined> {
  if (!empty) {
    const loaded = await loadDemonstration(store, join(projectFolder(), 'examples'));
    if (!loaded.ok) return refusal(loaded.refusal.message, loaded.refusal.hint);
  }
  await store.addPerson(INSTRUCTOR);
  return undefined;
}

function appFor(store: Store, wish: ServeWish, webFolder: string, io: Io): Promise<App> {
  return buildServer({
    store,
    structures: () => loadStructureKit(),
    webFolder,
    address: servedAddress(wish),
    onFault: (error) =>
      io.err(`${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`),
  });
}

/** Why the port could not be had, for a person. */
function whyNot(code: string | undefined, { host, port }: ServeWish): Answer | undefined {
  if (code === 'EADDRINUSE')
    return refusal(
      `Port ${port} is taken on this machine.`,
      `If it is Weighboat, it runs already: look at http://127.0.0.1:${port}. Otherwise choose another: --port ${port + 1}`,
    );
  if (code === 'EACCES')
    return refusal(
      `Port ${port} is reserved on this machine.`,
      'Choose one above 1023: --port 7420',
    );
  if (code === 'EADDRNOTAVAIL' || code === 'ENOTFOUND' || code === 'EAI_AGAIN')
    return refusal(
      `${host} is no address of this machine.`,
      'Leave --host out for this machine alone, or write 0.0.0.0 for all its addresses.',
    );
  return undefined;
}

async function listen(app: App, wish: ServeWish): Promise<Answer | undefined> {
  try {
    await app.listen({ host: wish.host, port: wish.port });
    return undefined;
  } catch (error) {
    await app.close();
    const answer = whyNot((error as NodeJS.ErrnoException).code, wish);
    if (answer === undefined) throw error;
    return answer;
  }
}

async function serveUntilStopped(
  app: App,
  store: Store,
  wish: ServeWish,
  place: string,
  io: Io,
): Promise<void> {
  const [bound] = app.addresses();
  const port = typeof bound === 'object' ? bound.port : wish.port;
  const origin = shownOrigin(wish, port, networkInterfaces());
  const printLink = async (): Promise<void> => {
    const expiresAt = new Date(Date.now() + LIFE_ms.ownLink).toISOString();
    const { id: person } = INSTRUCTOR;
    const path = await makeLink(store, { person, role: 'instructor', run: null, expiresAt });
    io.out(`Sign in (once, within ${LIFE_ms.ownLink / 60_000} minutes): ${origin}${path}\n`);
  };
  io.out(`Weighboat listens at ${origin} and keeps everything in ${place}.\n`);
  await printLink();
  if (process.stdin.isTTY) io.out('Enter prints a new link, Ctrl+C stops.\n');
  const ignoreEnter = onEnter(() => {
    // A disk that is full keeps no link, and whoever is signed in goes on reading.
    printLink().catch((error: unknown) => io.err(`${whyNoLink(error)}\n`));
  });
  const warmUp = setTimeout(() => void loadStructureKit().catch(() => undefined), WARM_UP_ms);
  await untilStopped();
  clearTimeout(warmUp);
  ignoreEnter();
}

function whyNoLink(error: unknown): string {
  const why = refusalOf(error);
  return why === undefined ? String(error) : [why.message, why.hint].filter(Boolean).join(' ');
}

async function close(app: App): Promise<void> {
  // A line whose last answer went out meanwhile would be kept open for another question.
  const letGo = setInterval(() => app.server.closeIdleConnections(), LET_GO_ms);
  const force = setTimeout(() => app.server.closeAllConnections(), PATIENCE_ms);
  await app.close();
  clearTimeout(force);
  clearInterval(letGo);
}
