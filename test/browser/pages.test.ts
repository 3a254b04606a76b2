import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { heading, ready } from './at-the-desk.ts';
import { overhang_px, smallTargets } from './layout.ts';
import { placesIn } from './places.ts';
import type { Place } from './places.ts';
import { axeFindings, openWorld, picture, SIZES } from './world.ts';
import type { World } from './world.ts';

/** Gloves and splashes at the bench; elsewhere what WCAG 2.2 asks for. */
const TARGET_px = { bench: 44, desk: 24 } as const;

describe.each(['light', 'dark'] as const)('every page, %s', (colorScheme) => {
  let world: World;
  let context: BrowserContext;
  let page: Page;
  let places: readonly Place[];
  beforeAll(async () => {
    world = await openWorld();
    ({ context, page } = await world.signedIn({ colorScheme }));
    places = await placesIn(context.request, world.origin);
  });
  afterAll(() => world.close());

  it.each(Object.entries(SIZES))('at the size of a %s', async (size, viewport) => {
    await page.setViewportSize(viewport);
    const wrong: string[] = [];
    for (const place of places) {
      await open(page, place);
      await picture(page, `page-${place.name}-${size}-${colorScheme}`);
      wrong.push(...(await faultsOf(page, place)).map((fault) => `${place.name}: ${fault}`));
    }
    expect(wrong).toEqual([]);
  });
});

async function open(page: Page, { path, shows }: Place): Promise<void> {
  // From nowhere: two views of the bench record differ in what stands behind the # alone.
  await page.goto('about:blank');
  await page.goto(path);
  await ready(page, shows);
  await page.evaluate(() => document.fonts.ready);
}

async function faultsOf(page: Page, { bench }: Place): Promise<string[]> {
  const faults = await axeFindings(page);
  const headings = await heading(page).count();
  if (headings !== 1) faults.push(`${headings} first headings`);
  const over_px = await overhang_px(page);
  if (over_px > 0) faults.push(`${over_px} px wider than the window`);
  const least_px = bench ? TARGET_px.bench : TARGET_px.desk;
  const small = await smallTargets(page, least_px);
  return [...faults, ...small.map((target) => `smaller than ${least_px} px: ${target}`)];
}
