import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Run } from '../../src/wire/run.ts';
import { experimentNamed, heading, ready } from './at-the-desk.ts';
import { placesIn } from './places.ts';
import type { Place } from './places.ts';
import { openWorld, SIZES } from './world.ts';
import type { World } from './world.ts';

let world: World;
let page: Page;
let context: BrowserContext;
let places: readonly Place[];
beforeAll(async () => {
  world = await openWorld();
  ({ context, page } = await world.signedIn());
  places = await placesIn(context.request, world.origin);
});
afterAll(() => world.close());

describe('what a page may run', () => {
  it('is said with every page, and no page asks for more', async () => {
    const broken: string[] = [];
    await page.exposeFunction('broke', (what: string) => broken.push(what));
    await page.addInitScript(() => {
      document.addEventListener('securitypolicyviolation', (event) => {
        const { broke } = window as unknown as { broke: (what: string) => void };
        broke(`${location.pathname}: ${event.effectiveDirective} ${event.blockedURI}`);
      });
    });
    for (const { path, shows } of places) {
      await page.goto('about:blank');
      const answer = await page.goto(path);
      const policy = answer!.headers()['content-security-policy'] ?? '';
      expect(policy, path).toContain("default-src 'self'");
      expect(policy, path).toContain("script-src 'self' 'wasm-unsafe-eval'");
      expect(policy, path).not.toMatch(/unsafe-inline|'unsafe-eval'/);
      await ready(page, shows);
      await page.waitForLoadState('networkidle');
    }
    expect(broken).toEqual([]);
  });

  it('is kept to: a script that is slipped into a page does not run', async () => {
    // A context of its own, since the browser complains of the script on the console.
    const storageState = await context.storageState();
    const own = await world.browser.newContext({ baseURL: world.origin, storageState });
    const victim = await own.newPage();
    await victim.goto('/');
    await heading(victim).filter({ hasText: 'experiments' }).waitFor();
    const ran = await victim.evaluate(() => {
      const script = document.createElement('script');
      script.textContent = 'window.slippedIn = true';
      document.head.append(script);
      return 'slippedIn' in window;
    });
    expect(ran).toBe(false);
    await own.close();
  });

  it('asks nothing of any other host', async () => {
    const hosts = new Set<string>();
    const hear = (request: { url(): string }) => hosts.add(new URL(request.url()).origin);
    page.on('request', hear);
    for (const { path, shows } of places) {
      await page.goto('about:blank');
      await page.goto(path);
      await ready(page, shows);
    }
    page.off('request', hear);
    expect([...hosts].filter((origin) => origin !== 'null' && origin !== world.origin)).toEqual([]);
  });

  it('does not let a name that looks like markup become markup', async () => {
    const text =
      '# <img src=x onerror="window.slippedIn=1"> & <b>bold</b>\n\n## Procedure\n1. <svg onload="window.slippedIn=1">\n';
    const data = { id: 'markup-experiment', text };
    await context.request.post('/api/experiments', { data, headers: { origin: world.origin } });
    for (const path of ['/', '/experiments/markup-experiment']) {
      await page.goto(path);
      await page.getByText('<b>bold</b>').first().waitFor();
      expect(await page.evaluate(() => 'slippedIn' in window)).toBe(false);
      expect(await page.getByRole('img', { name: 'x' }).count()).toBe(0);
    }
  });
});

describe('without a session', () => {
  it('every page says how to come in and shows nothing', async () => {
    const { title } = await experimentNamed(context.request, '4-Methylcyclohexanol');
    const stranger = await world.browser.newContext({ baseURL: world.origin });
    const door = await stranger.newPage();
    for (const { name, path } of places) {
      if (name === 'nowhere') continue;
      await door.goto('about:blank');
      await door.goto(path);
      await heading(door)
        .filter({ hasText: /You need a link|is not signed in/ })
        .waitFor();
      const shown = await door.content();
      expect(shown, path).not.toContain(title.slice(0, 24));
      expect(shown, path).not.toContain('Sallowfield');
    }
    await stranger.close();
  });

  it('a link lets in once', async () => {
    const answer = await context.request.post('/api/links', {
      data: { run: null },
      headers: { origin: world.origin },
    });
    const { path } = (await answer.json()) as { path: string };
    for (const [turn, shows] of [
      ['first', /experiments/],
      ['second', /used already|time is over/],
    ] as const) {
      const guest = await world.browser.newContext({ baseURL: world.origin });
      const door = await guest.newPage();
      await door.goto(path);
      await heading(door).filter({ hasText: shows }).waitFor();
      expect(door.url(), turn).not.toContain('#');
      await guest.close();
    }
  });

  it('signing out shuts the pages of this device', async () => {
    const { context: own, page: leaving } = await world.signedIn();
    await leaving.goto('/settings');
    await leaving.getByRole('button', { name: 'Sign out here' }).click();
    await heading(leaving).filter({ hasText: 'You need a link' }).waitFor();
    await leaving.goto('/');
    await heading(leaving).filter({ hasText: 'You need a link' }).waitFor();
    await own.close();
  });
});

describe('a session of a bench', () => {
  it('sees its own record and its result, and nothing else', async () => {
    const { id } = await experimentNamed(context.request, '4-Methylcyclohexanol');
    const runs = (await (await context.request.get(`/api/runs?experiment=${id}`)).json()) as Run[];
    const [own, other] = [runs[0]!.id, runs[1]!.id];
    const answer = await context.request.post('/api/links', {
      data: { run: own },
      headers: { origin: world.origin },
    });
    const { path } = (await answer.json()) as { path: string };
    const pocket = await world.browser.newContext({
      baseURL: world.origin,
      viewport: SIZES.phone,
    });
    const phone = await pocket.newPage();
    await phone.goto(path);
    await phone.waitForURL(`**/bench/${own}`);
    await heading(phone).filter({ hasText: '4-Methylcyclohexanol' }).waitFor();
    await phone.goto(`/runs/${own}`);
    await heading(phone).filter({ hasText: '%' }).waitFor();
    for (const elsewhere of ['/', `/experiments/${id}`, '/settings', '/help', `/runs/${other}`]) {
      await phone.goto(elsewhere);
      await phone.getByText('This device is signed in for one bench record.').waitFor();
    }
    await phone.goto(`/bench/${other}`);
    await heading(phone).filter({ hasText: 'signed in for one bench' }).waitFor();
    expect(await phone.content()).not.toContain('Charge the');
    const asked = [
      ['GET', '/api/experiments'],
      ['GET', `/api/experiments/${id}`],
      ['GET', `/api/runs?experiment=${id}`],
      ['GET', `/api/runs/${other}`],
      ['GET', `/api/runs/${other}/entries`],
      ['GET', `/api/runs/${other}/feed`],
      ['GET', '/api/export'],
      ['POST', '/api/links'],
      ['POST', `/api/runs/${other}/entries`],
      ['PUT', '/api/settings'],
    ] as const;
    for (const [method, at] of asked) {
      const headers = { origin: world.origin };
      const data = method === 'GET' ? {} : { data: {} };
      const refused = await pocket.request.fetch(at, { method, headers, ...data });
      expect(refused.status(), `${method} ${at}`).toBe(403);
    }
    await pocket.close();
  });
});
