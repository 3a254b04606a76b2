import { PNG } from 'pngjs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ALDOL, BENCH, TITLE, theory_g, yield_percent } from './aldol.ts';
import {
  beginAt,
  correct,
  enterNumber,
  keptIn,
  nextUntil,
  observe,
  photograph,
  status,
} from './at-the-bench.ts';
import {
  emptyText,
  heading,
  linesOf,
  putText,
  runIn,
  startExperiment,
  startRecord,
  textIn,
  typeText,
  untilKept,
} from './at-the-desk.ts';
import { overhang_px } from './layout.ts';
import { smallPhoto } from './picture.ts';
import { axeFindings, openWorld, picture, SIZES } from './world.ts';
import type { World } from './world.ts';

/** The whole job, begun by someone who has never seen it, ended with a page of paper. */
describe('the main job', () => {
  let world: World;
  beforeAll(async () => {
    world = await openWorld();
  });
  afterAll(() => world.close());

  it.each([
    ['phone', 'light'],
    ['tablet', 'dark'],
    ['desktop', 'light'],
  ] as const)('from a blank page to the printed result: %s, %s', async (size, colorScheme) => {
    const { context, page } = await world.signedIn({ viewport: SIZES[size], colorScheme });
    const looked = (name: string) => lookedAt(page, `${name}-${size}-${colorScheme}`);
    await heading(page).waitFor();
    await looked('shelf');

    await startExperiment(page);
    await looked('blank');
    await writeIt(page, size === 'desktop' ? typeText : putText);
    await looked('written');

    if (size === 'desktop') await onAPhone(world, page);
    else await atTheBench(page, looked);

    await resultOf(page);
    await looked('result');
    await printed(page);
    await context.close();
  });
});

async function lookedAt(page: Page, name: string): Promise<void> {
  await picture(page, `main-job-${name}`);
  expect(await axeFindings(page), name).toEqual([]);
  expect(await overhang_px(page), name).toBe(0);
  expect(await heading(page).count(), name).toBe(1);
}

async function writeIt(page: Page, write: typeof typeText): Promise<void> {
  await emptyText(page);
  await write(page, ALDOL);
  expect(linesOf(await textIn(page))).toEqual(linesOf(ALDOL));
  const most = theory_g(2.12, 0.58).toFixed(2);
  expect(await heading(page).textContent()).toBe(TITLE);
  await page.getByText(`Makes at most ${most} g`).first().waitFor();
  await page.getByRole('heading', { name: 'Nothing to mend' }).waitFor();
  const rows = page.getByRole('list', { name: 'Steps of the flow sheet' }).getByRole('listitem');
  expect(await rows.count()).toBe(11);
  await page.getByRole('img', { name: /benzaldehyde \+ acetone/ }).waitFor();
  await untilKept(page);
}

async function atTheBench(page: Page, looked: (name: string) => Promise<void>): Promise<void> {
  const run = await startRecord(page, 'Bench 4');
  await looked('bench-begin');
  await beginAt(page, 'M.K.');
  await fillRecord(page, looked);
  expect(runIn(page)).toBe(run);
  await page.getByRole('link', { name: 'To the result' }).click();
}

/** From the large screen the record goes to a phone, by the link that it shows. */
async function onAPhone({ browser, origin }: World, page: Page): Promise<void> {
  const experiment = page.url();
  const run = await startRecord(page, 'Bench 4');
  await page.goto(experiment);
  await page.getByRole('button', { name: /^Open on a phone/ }).click();
  const link = await page.getByRole('link', { name: /\/sign-in#/ }).getAttribute('href');
  const pocket = await browser.newContext({
    viewport: SIZES.phone,
    hasTouch: true,
    baseURL: origin,
  });
  const phone = await pocket.newPage();
  await phone.goto(link!);
  await phone.waitForURL(`**/bench/${run}`);
  await beginAt(phone, 'M.K.');
  await fillRecord(phone, (name) => lookedAt(phone, `${name}-by-link`));
  await pocket.close();
  await page.getByRole('link', { name: /^Result/ }).click();
}

async function fillRecord(page: Page, looked: (name: string) => Promise<void>): Promise<void> {
  await nextUntil(page, 3);
  await page.getByRole('button', { name: /^Enter benzaldehyde/ }).click();
  await looked('bench-keypad');
  await page.getByRole('button', { name: 'Close' }).click();
  await enterNumber(page, 'benzaldehyde', BENCH.benzaldehyde_g);
  await enterNumber(page, 'acetone', BENCH.acetone_g);
  await observe(page, 'a yellow precipitate after two minutes');
  await photograph(page, smallPhoto());
  await looked('bench-charged');
  await nextUntil(page, 8);
  await enterNumber(page, 'dish', BENCH.tare_g);
  await nextUntil(page, 11);
  await enterNumber(page, 'dish, with what it holds', BENCH.grossMisread_g);
  await correct(page, BENCH.grossMisread_g, BENCH.gross_g, 'digits swapped');
  await looked('bench-corrected');
  await status(page, 'All kept');
  const kept = await keptIn(page.request, runIn(page));
  expect(kept.map(({ kind }) => kind)).toEqual([
    'charge',
    'charge',
    'observation',
    'observation',
    'tare',
    'gross',
    'correction',
  ]);
  await page.getByRole('link', { name: 'To the end' }).click();
  await page.getByRole('heading', { name: 'What was entered' }).waitFor();
  await looked('bench-end');
}

async function resultOf(page: Page): Promise<void> {
  await page.waitForURL('**/runs/*');
  await heading(page).getByText('%').first().waitFor();
  const sentence = (await heading(page).textContent())!;
  expect(sentence).toMatch(/1\.834\sg/);
  const shown = /([\d.]+)(?:\s±\s[\d.]+)?\s%/.exec(sentence)![1]!;
  const decimals = shown.split('.')[1]?.length ?? 0;
  expect(decimals).toBeGreaterThan(0);
  expect(shown).toBe(yield_percent().toFixed(decimals));
  // What was struck stays legible, and the photo is there.
  const entered = page.getByRole('region', { name: 'What was weighed and measured out' });
  await entered.getByText(BENCH.grossMisread_g).first().waitFor();
  await entered.getByText('digits swapped').waitFor();
  const photo = page.getByRole('img', { name: /photo/i }).first();
  await expect
    .poll(() => photo.evaluate((img) => (img as HTMLImageElement).naturalWidth))
    .toBe(PNG.sync.read(smallPhoto()).width);
}

async function printed(page: Page): Promise<void> {
  const sentence = (await heading(page).textContent())!;
  const pdf = await page.pdf({ format: 'A4' });
  expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
  await page.emulateMedia({ media: 'print' });
  expect(await heading(page).isVisible()).toBe(true);
  expect(await heading(page).textContent()).toBe(sentence);
  expect(await page.getByText(/version \d+: [0-9a-f]{64}/).isVisible()).toBe(true);
  expect(await page.getByRole('navigation').count()).toBe(0);
  await page.emulateMedia({ media: null });
}
