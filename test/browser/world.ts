/** A Weighboat of its own in a temporary folder, served as a user serves it, and browsers on it. */
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { spawn } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { launchChromium } from './chromium.ts';

export const root = fileURLToPath(new URL('../..', import.meta.url));

/** Phone, tablet, desktop. */
export const SIZES = {
  phone: { width: 390, height: 844 },
  tablet: { width: 820, height: 1180 },
  desktop: { width: 1440, height: 900 },
} as const;

export interface World {
  readonly origin: string;
  readonly browser: Browser;
  /** A browser context that has followed a sign-in link of its own. */
  signedIn(options?: BrowserContextOptions): Promise<{ context: BrowserContext; page: Page }>;
  /** Stops the server as a failing machine does, and starts it again over the same folder. */
  crashAndRestart(): Promise<void>;
  close(): Promise<void>;
}

interface Served {
  readonly process: ChildProcess;
  readonly link: string;
  readonly origin: string;
}

async function serve(folder: string, port: number): Promise<Served> {
  const args = ['bin/weighboat.mjs', 'serve', '--folder', folder, '--port', String(port)];
  const child = spawn(process.execPath, args, { cwd: root, stdio: ['ignore', 'pipe', 'pipe'] });
  let said = '';
  const link = await new Promise<string>((resolve, reject) => {
    const hear = (chunk: Buffer) => {
      said += chunk.toString();
      const found = /https?:\/\/\S+\/sign-in#\S+/.exec(said);
      if (found) resolve(found[0]);
    };
    child.stdout.on('data', hear);
    child.stderr.on('data', hear);
    child.once('exit', () => reject(new Error(`The server ended: ${said}`)));
  });
  return { process: child, link, origin: new URL(link).origin };
}

/** What a page says on its console when something is wrong makes the test fail too. */
function watch(page: Page, faults: string[]): void {
  page.on('pageerror', (error) => faults.push(`${page.url()}: ${error.message}`));
  page.on('console', (message) => {
    const text = message.text();
    // A browser logs each refused or lost request itself; that is no fault of the page.
    if (message.type() === 'error' && !text.startsWith('Failed to load resource'))
      faults.push(`${page.url()}: ${text}`);
  });
}

async function freePort(): Promise<number> {
  const probe = createServer().listen(0, '127.0.0.1');
  await once(probe, 'listening');
  const { port } = probe.address() as AddressInfo;
  probe.close();
  await once(probe, 'close');
  return port;
}

export async function openWorld(): Promise<World> {
  const folder = mkdtempSync(join(tmpdir(), 'weighboat-'));
  // The cookie is named after the port that was asked for: after a crash it has to be the same one.
  let served = await serve(folder, await freePort());
  const browser = await launchChromium();
  const faults: string[] = [];

  // The console's link signs in once; everyone after is let in by someone who is there.
  const keeper = await browser.newContext();
  const door = await keeper.newPage();
  await door.goto(served.link);
  await door.waitForURL(`${served.origin}/`);
  await door.close();

  async function link(): Promise<string> {
    const answer = await keeper.request.post(`${served.origin}/api/links`, {
      data: { run: null },
      headers: { origin: served.origin },
    });
    const { path } = (await answer.json()) as { path: string };
    return served.origin + path;
  }

  return {
    get origin() {
      return served.origin;
    },
    browser,
    async signedIn(options = {}) {
      const context = await browser.newContext({
        viewport: SIZES.desktop,
        baseURL: served.origin,
        ...options,
      });
      const page = await context.newPage();
      watch(page, faults);
      await page.goto(await link());
      await page.waitForURL(`${served.origin}/`);
      return { context, page };
    },
    async crashAndRestart() {
      const { port } = new URL(served.origin);
      const gone = once(served.process, 'exit');
      served.process.kill('SIGKILL');
      await gone;
      served = await serve(folder, Number(port));
    },
    async close() {
      await browser.close();
      const gone = once(served.process, 'exit');
      served.process.kill('SIGTERM');
      await gone;
      rmSync(folder, { recursive: true, force: true });
      if (faults.length > 0) throw new Error(`Pages complained:\n${faults.join('\n')}`);
    },
  };
}

/** What axe finds against WCAG 2.2 AA and its best practice, a line each; none is right. */
export async function axeFindings(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  return violations.flatMap(({ id, help, nodes }) =>
    nodes.map(({ target }) => `${id}: ${help} at ${target.join(' ')}`),
  );
}

/** Pictures for the eye, where PICTURES names a folder; no test looks at them. */
export async function picture(page: Page, name: string): Promise<void> {
  const folder = process.env['PICTURES'];
  if (folder === undefined) return;
  mkdirSync(folder, { recursive: true });
  await page.screenshot({ path: join(folder, `${name}.png`), fullPage: true });
}
