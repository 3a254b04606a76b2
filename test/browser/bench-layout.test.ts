/** What of the page of a bench record has to stay where it is, on a phone. */
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { ExperimentSummary } from '../../src/wire/experiment.ts';
import { beginAt } from './at-the-bench.ts';
import { openWorld, SIZES } from './world.ts';
import type { World } from './world.ts';

const RUN = 'bench-layout-run';
let world: World;
let page: Page;

beforeAll(async () => {
  world = await openWorld();
  const { context, page: opened } = await world.signedIn({
    viewport: SIZES.phone,
    hasTouch: true,
  });
  page = opened;
  const headers = { origin: world.origin };
  const answer = await context.request.get(`${world.origin}/api/experiments`);
  const experiments = (await answer.json()) as ExperimentSummary[];
  const ketone = experiments.find(({ title }) => title.startsWith('4-Methylcyclohexanol'))!;
  const { id: experiment, head } = ketone;
  const data = { id: RUN, experiment, document: head.document, bench: 'Bench 4' };
  await context.request.post(`${world.origin}/api/runs`, { data, headers });
  await page.goto(`${world.origin}/bench/${RUN}`);
});
afterAll(() => world.close());

async function boxOf(locator: Locator) {
  const box = await locator.boundingBox();
  if (box === null) throw new Error('It is not on the page.');
  return box;
}

async function goTo(step: string): Promise<void> {
  await page.evaluate((hash) => void (window.location.hash = hash), `#step-${step}`);
  await page.locator('.bench-sentence .bench-number', { hasText: step }).waitFor();
}

it('leads an instructor back to the experiment', async () => {
  const link = page.getByRole('link', { name: 'Back to the experiment' });
  await link.waitFor();
  expect(await link.getAttribute('href')).toMatch(/^\/experiments\//);
  await beginAt(page, 'RK');
});

it('has the way on at one place, however long a step is', async () => {
  const places = new Set<number>();
  for (const step of ['1', '3', '4', '19b']) {
    await goTo(step);
    places.add((await boxOf(page.getByRole('link', { name: 'Next' }))).y);
  }
  expect(places.size).toBe(1);
  await page.evaluate(() => window.scrollTo(0, document.body.scrollHeight));
  expect((await boxOf(page.getByRole('link', { name: 'Next' }))).y).toBe([...places][0]);
});

it('has what is planned under the name, before and after it is filled', async () => {
  await goTo('1');
  const ethanol = page.locator('.bench-field', { hasText: 'ethanol' });
  const place = async () => {
    const label = await boxOf(ethanol.locator('.bench-field-label > span').first());
    const plan = await boxOf(ethanol.locator('.bench-field-aside'));
    return { left: plan.x - label.x, below: plan.y >= label.y + label.height };
  };
  expect(await place()).toEqual({ left: 0, below: true });
  await page.getByRole('button', { name: /^Enter 95/ }).click();
  await page.keyboard.type('10');
  await page.keyboard.press('Enter');
  await ethanol.locator('button.bench-line-target').waitFor();
  expect(await place()).toEqual({ left: 0, below: true });
});

it('has keys for the words of an observation, and its line away from the photo', async () => {
  await goTo('4');
  const seen = page.getByRole('region', { name: 'Observations' });
  for (const word of await seen.locator('.bench-word').all()) {
    const { width, height } = await boxOf(word);
    expect(Math.min(width, height)).toBeGreaterThanOrEqual(56);
  }
  const line = await boxOf(seen.getByRole('textbox'));
  const photo = await boxOf(seen.locator('.bench-photo'));
  expect(photo.y - line.y - line.height).toBeGreaterThan(56);
  const flash = await seen
    .locator('.bench-word')
    .first()
    .evaluate((word) => getComputedStyle(word).getPropertyValue('-webkit-tap-highlight-color'));
  expect(flash).toBe('rgba(0, 0, 0, 0)');
});

it('says how it stands with the network on one line, and shows a clock once', async () => {
  await page.context().setOffline(true);
  await goTo('4b');
  await page.getByRole('button', { name: /^Start/ }).click();
  const status = page.locator('.bench-status', { hasText: 'No network, 1 to send' });
  await status.waitFor();
  const { height } = await boxOf(status);
  expect(height).toBeLessThan(30);
  expect(await page.getByRole('button', { name: /^Done/ }).count()).toBe(1);
  await page.context().setOffline(false);
});
