import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import pixelmatch from 'pixelmatch';
import type { BrowserContextOptions, Page } from 'playwright-core';
import { PNG } from 'pngjs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Run } from '../../src/wire/run.ts';
import { experimentNamed, ready } from './at-the-desk.ts';
import { openWorld, root, SIZES } from './world.ts';
import type { World } from './world.ts';

const LOOKS = join(root, 'test', 'browser', 'looks');
const DIFFERS = join(LOOKS, 'differs');

/** Edges of letters fall a little differently from machine to machine; a moved line is more. */
const MOST_PIXELS_share = 0.005;

const NOW = new Date('2026-03-02T10:00:00Z');

/** As much of a page as is looked at; what sticks to an edge is in its place only in a window. */
const WINDOWS = {
  desktop: SIZES.desktop,
  tall: { width: 1440, height: 1700 },
  phone: SIZES.phone,
  paper: { width: 794, height: 1123 },
} as const;

interface Look {
  readonly name: string;
  readonly at: 'shelf' | 'experiment' | 'result' | 'bench';
  readonly window: keyof typeof WINDOWS;
  readonly dark?: true;
  /** Scrolled until this region is in sight. */
  readonly region?: string;
}

const ALL: readonly Look[] = [
  { name: 'shelf', at: 'shelf', window: 'desktop' },
  { name: 'experiment', at: 'experiment', window: 'tall' },
  { name: 'experiment-dark', at: 'experiment', window: 'tall', dark: true },
  { name: 'experiment-phone', at: 'experiment', window: 'phone' },
  { name: 'flow-sheet-phone', at: 'experiment', window: 'phone', region: 'Flow sheet' },
  { name: 'bench-phone', at: 'bench', window: 'phone' },
  { name: 'result', at: 'result', window: 'tall' },
  { name: 'result-print', at: 'result', window: 'paper' },
];

let world: World;
let paths: Record<Look['at'], string>;
beforeAll(async () => {
  world = await openWorld();
  const { context } = await world.signedIn();
  const { id } = await experimentNamed(context.request, '4-Methylcyclohexanol');
  const runs = (await (await context.request.get(`/api/runs?experiment=${id}`)).json()) as Run[];
  const run = runs.find(({ bench }) => bench === 'Bench 3')!.id;
  paths = {
    shelf: '/',
    experiment: `/experiments/${id}`,
    result: `/runs/${run}`,
    bench: `/bench/${run}#step-1`,
  };
});
afterAll(() => world.close());

it.each(ALL)('$name looks as it did', async ({ name, at, window, dark, region }) => {
  const { page, context } = await stillPage({
    viewport: WINDOWS[window],
    colorScheme: dark ? 'dark' : 'light',
  });
  await page.goto(paths[at]);
  await ready(page);
  if (window === 'paper') await page.emulateMedia({ media: 'print' });
  if (region !== undefined)
    await page
      .getByRole('region', { name: region })
      .evaluate((element) => element.scrollIntoView({ block: 'start' }));
  const actual = await settled(page);
  await context.close();
  compare(name, actual);
});

/** Everything that is another on every day and every machine is fixed: clock, zone, times of saving. */
async function stillPage(options: BrowserContextOptions) {
  const opened = await world.signedIn({
    ...options,
    timezoneId: 'Europe/London',
    locale: 'en-GB',
    reducedMotion: 'reduce',
    deviceScaleFactor: 1,
    serviceWorkers: 'block',
  });
  const { page } = opened;
  await page.clock.setFixedTime(NOW);
  await page.route(/\/api\/(?:experiments|runs)(?:\/[\w-]+)?(?:\?.*)?$/, async (route) => {
    const answer = await route.fetch();
    const body = await answer.text();
    return route.fulfill({
      response: answer,
      body: body.replace(/"savedAt":"[^"]+"/g, `"savedAt":"2026-03-02T09:41:00.000Z"`),
    });
  });
  return opened;
}

/** Fonts and drawings are there, and nothing has moved for a moment. */
async function settled(page: Page): Promise<Buffer> {
  await page.evaluate(() => document.fonts.ready);
  let before: Buffer = Buffer.alloc(0);
  for (let i = 0; i < 20; i += 1) {
    const now = await page.screenshot({ animations: 'disabled', caret: 'hide' });
    if (now.equals(before)) return now;
    before = now;
    await new Promise((resolve) => setTimeout(resolve, 250));
  }
  throw new Error('The page does not come to rest.');
}

function compare(name: string, actual: Buffer): void {
  const file = join(LOOKS, `${name}.png`);
  if (process.env['LOOKS'] === 'write') {
    mkdirSync(LOOKS, { recursive: true });
    writeFileSync(file, actual);
    return;
  }
  const kept = PNG.sync.read(readFileSync(file));
  const now = PNG.sync.read(actual);
  const asLarge = kept.width === now.width && kept.height === now.height;
  const picture = new PNG({ width: now.width, height: now.height });
  const pixels = asLarge
    ? pixelmatch(kept.data, now.data, picture.data, now.width, now.height, { threshold: 0.1 })
    : now.width * now.height;
  const share = pixels / (now.width * now.height);
  const paths = ['actual', 'difference'].map((what) => join(DIFFERS, `${name}-${what}.png`));
  if (share <= MOST_PIXELS_share) return paths.forEach((path) => rmSync(path, { force: true }));
  mkdirSync(DIFFERS, { recursive: true });
  writeFileSync(paths[0]!, actual);
  if (asLarge) writeFileSync(paths[1]!, PNG.sync.write(picture));
  const size = asLarge ? '' : ` ${now.width} × ${now.height}, kept ${kept.width} × ${kept.height};`;
  expect.fail(
    `${name}:${size} ${(100 * share).toFixed(2)} % of it differs. Look at ${paths[0]}, and if it is right: LOOKS=write`,
  );
}
