import { once } from 'node:events';
import { connect } from 'node:net';
import type { AddressInfo } from 'node:net';
import { describe, expect, it } from 'vitest';
import type { RouteOptions } from 'fastify';
import { HOST, serving, withRun } from './serving.ts';
import type { Served } from './serving.ts';

type Method = 'GET' | 'HEAD' | 'POST' | 'PUT' | 'PATCH' | 'DELETE';
interface Route {
  readonly method: Method;
  readonly path: string;
}

/** The only ones that nobody needs a session for. */
const OPEN = ['GET /api/health', 'HEAD /api/health', 'POST /api/session'];

/** What a bench reaches in its own record, and what it reaches besides. */
const OF_A_BENCH = [
  'DELETE /api/session',
  'GET /api/attachments/:hash',
  'GET /api/drawings',
  'GET /api/openapi.json',
  'GET /api/runs/:id',
  'GET /api/runs/:id/entries',
  'GET /api/runs/:id/feed',
  'GET /api/runs/:id/sheet',
  'GET /api/session',
  'GET /api/settings',
  'GET /api/spectra',
  'POST /api/runs/:id/entries',
  'POST /api/spectra/search',
  'POST /api/structures/facts',
  'PUT /api/attachments/:hash',
];

async function servingWithRoutes(): Promise<Served & { readonly routes: readonly Route[] }> {
  const routes: Route[] = [];
  const onRoute = ({ method, url }: RouteOptions): void => {
    for (const one of [method].flat()) routes.push({ method: one as Method, path: url });
  };
  return { ...(await serving({ onRoute })), routes };
}

const nameOf = ({ method, path }: Route): string => `${method} ${path}`;

/** A path of the route with something in the place of each parameter. */
const pathOf = ({ path }: Route, run = 'some-run-or-other'): string =>
  path
    .replace(':hash', 'a'.repeat(64))
    .replace(':number', '1')
    .replace(':id', path.includes('/runs/') ? run : 'some-id-or-other');

const bodyOf = ({ method }: Route): object | undefined =>
  method === 'POST' || method === 'PUT' || method === 'PATCH' ? {} : undefined;

describe('without a session', () => {
  it('every route of the router is refused, but three', async () => {
    const { routes, as } = await servingWithRoutes();
    const ask = as(null);
    const let_in: string[] = [];
    for (const route of routes) {
      const { status } = await ask(route.method, pathOf(route), bodyOf(route));
      if (status !== 401) let_in.push(nameOf(route));
    }
    expect(routes.length).toBeGreaterThan(30);
    expect([...let_in].sort()).toEqual([...OPEN].sort());
  });

  it('every route is refused however its address is written', async () => {
    const { routes, as } = await servingWithRoutes();
    const ask = as(null);
    const isOpen = (route: Route): boolean => OPEN.includes(nameOf(route));
    for (const route of routes.filter((each) => !isOpen(each))) {
      const path = pathOf(route).replace('/api', '/%61pi');
      const { status } = await ask(route.method, path, bodyOf(route));
      expect([route.method, path, status]).toEqual([route.method, path, 401]);
    }
  });

  it('a whole URL in the place of a path opens nothing either', async () => {
    const { app } = await serving();
    await app.listen({ port: 0, host: '127.0.0.1' });
    const { port } = app.server.address() as AddressInfo;
    const line = connect(port, '127.0.0.1').setEncoding('utf8');
    line.write(
      `GET http://${HOST}/api/experiments HTTP/1.1\r\nhost: ${HOST}\r\nconnection: close\r\n\r\n`,
    );
    let text = '';
    line.on('data', (part: string) => void (text += part));
    await once(line, 'close');
    expect(text).toMatch(/^HTTP\/1\.1 401 /);
  });

  it('says what to do', async () => {
    const { as } = await serving();
    const { body, status } = await as(null)('GET', '/api/experiments');
    expect(status).toBe(401);
    expect(body()).toEqual({
      code: 'not-signed-in',
      message: 'Nobody is signed in on this device.',
      hint: expect.stringContaining('sign-in link'),
    });
  });

  it('a cookie that is none, or has run out, or was signed out, is nobody', async () => {
    const served = await serving();
    const cookie = await served.signIn();
    const ask = served.as(cookie);
    expect((await served.as('weighboat=nonsense')('GET', '/api/session')).status).toBe(401);
    expect((await ask('GET', '/api/session')).status).toBe(200);
    expect((await ask('DELETE', '/api/session')).status).toBe(204);
    expect((await ask('GET', '/api/session')).status).toBe(401);
    const again = served.as(await served.signIn());
    served.later(30 * 24 * 3_600_000 + 1);
    expect((await again('GET', '/api/session')).status).toBe(401);
  });
});

describe('a session of one bench', () => {
  it('reaches its own record and nothing of the rest', async () => {
    const served = await servingWithRoutes();
    const { run } = await withRun(served);
    const ask = served.as(await served.signIn('bench', run));
    const refusedWith = async (route: Route, path: string): Promise<boolean> => {
      const { status, text } = await ask(route.method, path, bodyOf(route));
      return status === 403 && text.includes('not-this-bench');
    };
    const reached: string[] = [];
    const reachedOfAnother: string[] = [];
    // The feed never ends by itself; signing out would end the session: both are asked for elsewhere.
    const asked = served.routes.filter(
      (route) => !route.path.endsWith('/feed') && nameOf(route) !== 'DELETE /api/session',
    );
    for (const route of asked.filter(({ method }) => method !== 'HEAD')) {
      const name = nameOf(route);
      if (OPEN.includes(name)) continue;
      if (!(await refusedWith(route, pathOf(route, run)))) reached.push(name);
      if (route.path.includes('/runs/:id') && !(await refusedWith(route, pathOf(route))))
        reachedOfAnother.push(name);
    }
    const expected = OF_A_BENCH.filter((name) => !/feed$|^DELETE/.test(name));
    expect(reached.sort()).toEqual(expected);
    expect(reachedOfAnother).toEqual([]);
    expect((await ask('GET', '/api/runs/some-run-or-other/feed')).status).toBe(403);
    expect((await ask('DELETE', '/api/session')).status).toBe(204);
  });

  it('enters under the name of its bench', async () => {
    const served = await serving();
    const { instructor, run } = await withRun(served);
    const { path }: { path: string } = (await instructor('POST', '/api/links', { run })).body();
    const token = path.split('#')[1];
    const { headers, body } = await served.as(null)('POST', '/api/session', { token });
    expect(body()).toMatchObject({ person: { name: 'Bench 4' }, role: 'bench', run });
    expect(String(headers['set-cookie'])).toMatch(/; Path=\/; HttpOnly; SameSite=Strict/);
  });
});

describe('a request from somewhere else', () => {
  it('changes nothing, whatever the route', async () => {
    const served = await servingWithRoutes();
    const ask = served.as(await served.signIn());
    const unsafe = served.routes.filter(({ method }) => method !== 'GET' && method !== 'HEAD');
    expect(unsafe.length).toBeGreaterThan(10);
    for (const route of unsafe) {
      const site = { 'sec-fetch-site': 'cross-site', origin: 'https://elsewhere.example' };
      const { status, text } = await ask(route.method, pathOf(route), bodyOf(route), site);
      expect([nameOf(route), status, text]).toEqual([
        nameOf(route),
        403,
        expect.stringContaining('"other-page"'),
      ]);
    }
  });

  it('is refused by another name, pages included', async () => {
    const served = await serving();
    const ask = served.as(await served.signIn());
    for (const path of ['/api/health', '/api/experiments', '/', '/api/nothing']) {
      const { status } = await ask('GET', path, undefined, { host: 'rebound.example:7420' });
      expect([path, status]).toEqual([path, 421]);
    }
    expect((await ask('GET', '/api/health', undefined, { host: HOST })).status).toBe(200);
  });
});

describe('the headers of every answer', () => {
  it('let nothing inline run, no frame hold it and no address leave with a link', async () => {
    const served = await serving();
    const { headers } = await served.as(null)('GET', '/api/experiments');
    expect(headers['content-security-policy']).toContain("script-src 'self' 'wasm-unsafe-eval'");
    expect(headers['content-security-policy']).toContain("frame-ancestors 'none'");
    expect(headers['content-security-policy']).not.toContain('unsafe-inline');
    expect(headers).toMatchObject({
      'referrer-policy': 'no-referrer',
      'x-content-type-options': 'nosniff',
    });
  });
});

describe('too much', () => {
  it('guessing at links is slowed down', async () => {
    const { as } = await serving();
    const token = 'a-token-that-nobody-made';
    const statuses: number[] = [];
    for (let n = 0; n < 61; n++)
      statuses.push((await as(null)('POST', '/api/session', { token })).status);
    expect([statuses[0], statuses[59], statuses[60]]).toEqual([401, 401, 429]);
  });

  it('a document of more than 8 MB is refused in words', async () => {
    const served = await serving();
    const ask = served.as(await served.signIn());
    const { status, body } = await ask('POST', '/api/experiments', {
      id: 'experiment-1',
      text: 'x'.repeat(8 * 1024 * 1024),
    });
    expect(status).toBe(413);
    expect(body()).toMatchObject({ code: 'too-large' });
  });
});
