/**
 * Keeps the program of the bench record on the device: page, scripts, styles, fonts. What is in the
 * record is kept by the page itself (outbox/). Each version of the program has a cache of its own,
 * filled whole before it is used, so that a device never has half of one version and half of another.
 */

/** Put in by the build: the files that the program consists of, and a name that changes with them. */
declare const BENCH_FILES: readonly string[];
declare const BENCH_VERSION: string;

interface LongEvent extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface Fetched extends LongEvent {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}
interface Worker {
  readonly caches: CacheStorage;
  readonly clients: { claim(): Promise<void> };
  skipWaiting(): Promise<void>;
  addEventListener(type: 'install' | 'activate', work: (event: LongEvent) => void): void;
  addEventListener(type: 'fetch', work: (event: Fetched) => void): void;
}

const worker = self as unknown as Worker;
const PREFIX = 'weighboat-bench ';
const OWN = PREFIX + BENCH_VERSION;
/** Every bench record is the same page; it reads its address itself. */
const PAGE = '/bench/';

worker.addEventListener('install', (event) => {
  event.waitUntil(fill().then(() => worker.skipWaiting()));
});

worker.addEventListener('activate', (event) => {
  event.waitUntil(clear().then(() => worker.clients.claim()));
});

worker.addEventListener('fetch', (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== 'GET' || origin !== self.location.origin) return;
  if (request.mode === 'navigate') {
    if (pathname.startsWith(PAGE)) event.respondWith(held(PAGE, request));
  } else if (pathname.startsWith('/assets/') || pathname === '/icon.svg')
    event.respondWith(held(request, request));
});

async function fill(): Promise<void> {
  const cache = await worker.caches.open(OWN);
  // Past the browser's own cache, which may hold the page of an older version.
  const page = new Request(PAGE, { cache: 'reload' });
  await cache.addAll([page, '/icon.svg', ...BENCH_FILES]);
}

/**
 * The version before stays one turn longer: a page of it may still be open, and ask for a font. The
 * browser lists caches in the order in which they were made.
 */
async function clear(): Promise<void> {
  const others = (await worker.caches.keys()).filter(
    (name) => name.startsWith(PREFIX) && name !== OWN,
  );
  await Promise.all(others.slice(0, -1).map((name) => worker.caches.delete(name)));
}

/** From the own version, then from any other, then from the network. */
async function held(wanted: RequestInfo, request: Request): Promise<Response> {
  const cache = await worker.caches.open(OWN);
  return (
    (await cache.match(wanted, { ignoreVary: true })) ??
    (await worker.caches.match(wanted, { ignoreVary: true })) ??
    fetch(request)
  );
}

export {};
