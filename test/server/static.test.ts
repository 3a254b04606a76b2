import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { describe, expect, it, onTestFinished } from 'vitest';
import { NONCE_MARK } from '../../src/server/nonce.ts';
import { serving } from './serving.ts';
import type { Ask } from './serving.ts';

/** A folder as the build leaves it, with nothing in its files but what tells them apart. */
async function servingPages(signedIn = false): Promise<Ask> {
  const folder = mkdtempSync(join(tmpdir(), 'weighboat-web-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  mkdirSync(join(folder, 'assets'));
  const page = (name: string) => `<meta property="csp-nonce" nonce="${NONCE_MARK}"><p>${name}</p>`;
  writeFileSync(join(folder, 'index.html'), page('the pages'));
  writeFileSync(join(folder, 'bench.html'), page('the bench record'));
  writeFileSync(join(folder, 'sw.js'), '// worker');
  writeFileSync(join(folder, 'assets', 'a-1234.js'), 'export const a = 1;');
  writeFileSync(join(folder, 'assets', 'a-1234.js.gz'), gzipSync('export const a = 1;'));
  const { as, signIn } = await serving({ webFolder: folder });
  return as(signedIn ? await signIn() : null);
}

describe('the pages', () => {
  it.each([
    ['/', 'the pages'],
    ['/experiments/experiment-1', 'the pages'],
    ['/experiments/experiment-1/compare?a=1.2&b=2', 'the pages'],
    ['/sign-in', 'the pages'],
    ['/bench/run-number-1', 'the bench record'],
    ['/bench', 'the bench record'],
    ['/benches', 'the pages'],
  ])('%s is %s', async (path, name) => {
    const ask = await servingPages();
    const { status, text, headers } = await ask('GET', path);
    expect([status, text]).toEqual([200, expect.stringContaining(`<p>${name}</p>`)]);
    expect(headers).toMatchObject({
      'content-type': 'text/html; charset=utf-8',
      'cache-control': 'no-cache',
    });
  });

  it('have a nonce of their own in each answer, and nothing else runs inline', async () => {
    const ask = await servingPages();
    const nonces: string[] = [];
    for (let n = 0; n < 2; n++) {
      const { text, headers } = await ask('GET', '/');
      const nonce = /nonce="([^"]+)"/.exec(text)![1]!;
      expect(headers['content-security-policy']).toContain(`style-src 'self' 'nonce-${nonce}'`);
      expect(headers['content-security-policy']).toContain("script-src 'self' 'wasm-unsafe-eval';");
      nonces.push(nonce);
    }
    expect(nonces[0]).not.toBe(nonces[1]);
    expect(nonces).not.toContain(NONCE_MARK);
  });

  it('are sent only where they get their nonce', async () => {
    const ask = await servingPages();
    for (const path of ['/index.html', '/bench.html'])
      expect([path, (await ask('GET', path)).status]).toEqual([path, 404]);
  });
});

describe('their files', () => {
  it('whose name holds a hash are kept for good, and sent compressed', async () => {
    const ask = await servingPages();
    const plain = await ask('GET', '/assets/a-1234.js');
    expect([plain.text, plain.headers['cache-control']]).toEqual([
      'export const a = 1;',
      'public, max-age=31536000, immutable',
    ]);
    const packed = await ask('GET', '/assets/a-1234.js', undefined, { 'accept-encoding': 'gzip' });
    expect(packed.headers).toMatchObject({
      'content-encoding': 'gzip',
      'content-type': expect.stringContaining('javascript'),
      'cache-control': 'public, max-age=31536000, immutable',
      vary: expect.stringMatching(/accept-encoding/i),
    });
  });

  it('whose name never changes are asked for again each time', async () => {
    const ask = await servingPages();
    const { status, headers } = await ask('GET', '/sw.js');
    expect([status, headers['cache-control']]).toEqual([200, 'no-cache']);
  });

  it('that are not there are refused, and no page stands in for them', async () => {
    const ask = await servingPages();
    const paths = [
      '/assets/no-such.js',
      '/favicon.ico',
      '/../package.json',
      '/..%2fpackage.json',
      '/assets/..%2f..%2fpackage.json',
    ];
    for (const path of paths) {
      const { status, text } = await ask('GET', path);
      expect([path, [400, 403, 404].includes(status), text.includes('"name"')]).toEqual([
        path,
        true,
        false,
      ]);
    }
    expect((await ask('POST', '/experiments/experiment-1', {})).status).toBe(404);
  });

  it('of the interface are none', async () => {
    const ask = await servingPages(true);
    const { status, body } = await ask('GET', '/api/nothing');
    expect([status, body()]).toEqual([404, expect.objectContaining({ code: 'not-found' })]);
  });
});
