import { beforeEach, describe, expect, it, vi } from 'vitest';

type Work = (event: unknown) => void;

/** What a browser keeps between two versions of a worker. */
const stored = new Map<string, Map<string, string>>();
/** What the server has; undefined: no network. */
let served: ((path: string) => string) | undefined;

const pathOf = (wanted: Request | string) =>
  typeof wanted === 'string' ? wanted : new URL(wanted.url).pathname;

const answerOf = (path: string): Response => {
  if (served === undefined) throw new TypeError('no network');
  return new Response(served(path));
};

function cacheNamed(name: string) {
  const held = stored.get(name) ?? new Map<string, string>();
  stored.set(name, held);
  return {
    // All or nothing, as a browser does it.
    addAll: async (wanted: (Request | string)[]) => {
      const got = await Promise.all(
        wanted.map(async (each) => [pathOf(each), await answerOf(pathOf(each)).text()] as const),
      );
      for (const [path, text] of got) held.set(path, text);
    },
    match: async (wanted: Request | string) => {
      const text = held.get(pathOf(wanted));
      return text === undefined ? undefined : new Response(text);
    },
  };
}

const caches = {
  open: async (name: string) => cacheNamed(name),
  keys: async () => [...stored.keys()],
  delete: async (name: string) => stored.delete(name),
  match: async (wanted: Request | string) => {
    for (const name of stored.keys()) {
      const found = await cacheNamed(name).match(wanted);
      if (found !== undefined) return found;
    }
    return undefined;
  },
};

class RequestHere extends Request {
  constructor(input: string, init?: RequestInit) {
    super(new URL(input, 'https://lab.test'), init);
  }
}

/** A version of the program, started as the browser starts it. */
async function worker(version: string, files: readonly string[]) {
  const works = new Map<string, Work>();
  vi.stubGlobal('self', {
    caches,
    clients: { claim: async () => {} },
    skipWaiting: async () => {},
    location: { origin: 'https://lab.test' },
    addEventListener: (type: string, work: Work) => works.set(type, work),
  });
  vi.stubGlobal('BENCH_FILES', files);
  vi.stubGlobal('BENCH_VERSION', version);
  vi.stubGlobal('Request', RequestHere);
  vi.stubGlobal('fetch', async (wanted: Request) => answerOf(pathOf(wanted)));
  vi.resetModules();
  await import('./sw.ts');
  const run = async (type: string) => {
    let done: Promise<unknown> | undefined;
    works.get(type)!({ waitUntil: (work: Promise<unknown>) => (done = work) });
    await done;
  };
  const ask = async (path: string, mode: string): Promise<string | undefined> => {
    let answer: Promise<Response> | undefined;
    const request = { method: 'GET', mode, url: `https://lab.test${path}` };
    works.get('fetch')!({
      request,
      respondWith: (given: Promise<Response>) => (answer = given),
    });
    return (await answer)?.text();
  };
  return { install: () => run('install'), activate: () => run('activate'), ask };
}

const version = (number: number) => (path: string) => `${path} of version ${number}`;

beforeEach(() => {
  stored.clear();
  served = version(1);
});

async function installed(number: number, files: readonly string[]) {
  served = version(number);
  const started = await worker(`v${number}`, files);
  await started.install();
  await started.activate();
  return started;
}

describe('the program on a device', () => {
  it('opens without a network, whichever record is asked for', async () => {
    const { ask } = await installed(1, ['/assets/bench-1.js']);
    served = undefined;
    expect(await ask('/bench/some-run-1', 'navigate')).toBe('/bench/ of version 1');
    expect(await ask('/assets/bench-1.js', 'cors')).toBe('/assets/bench-1.js of version 1');
  });

  it('leaves other pages and the server’s answers alone', async () => {
    const { ask } = await installed(1, []);
    expect(await ask('/experiments/1', 'navigate')).toBeUndefined();
    expect(await ask('/api/runs/1', 'cors')).toBeUndefined();
  });

  it('goes over to a new version whole', async () => {
    await installed(1, ['/assets/bench-1.js']);
    const { ask } = await installed(2, ['/assets/bench-2.js']);
    served = undefined;
    expect(await ask('/bench/some-run-1', 'navigate')).toBe('/bench/ of version 2');
    expect(await ask('/assets/bench-2.js', 'cors')).toBe('/assets/bench-2.js of version 2');
    // A page of the version before may still be open.
    expect(await ask('/assets/bench-1.js', 'cors')).toBe('/assets/bench-1.js of version 1');
  });

  it('stays with the old version where the new one cannot be fetched whole', async () => {
    const old = await installed(1, ['/assets/bench-1.js']);
    const fresh = await worker('v2', ['/assets/bench-2.js']);
    served = (path) => {
      if (path === '/assets/bench-2.js') throw new TypeError('no network');
      return version(2)(path);
    };
    await expect(fresh.install()).rejects.toThrow();
    served = undefined;
    expect(await old.ask('/bench/some-run-1', 'navigate')).toBe('/bench/ of version 1');
  });

  it('keeps one version before, not all of them', async () => {
    await installed(1, []);
    await installed(2, []);
    await installed(3, []);
    expect([...stored.keys()]).toEqual(['weighboat-bench v2', 'weighboat-bench v3']);
  });
});
