/** A bench record through a lost network, a reload, a crash of the server and a second device. */
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { BenchEntry } from '../../src/core/record/entry.ts';
import type { ExperimentSummary } from '../../src/wire/experiment.ts';
import type { KeptEntry } from '../../src/wire/run.ts';
import { axeFindings, openWorld, picture, SIZES } from './world.ts';
import type { World } from './world.ts';

const RUN = 'bench-offline-run';
/** A red dot. */
const PHOTO = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mP8z8BQDwAEhQGAhKmMIQAAAABJRU5ErkJggg==',
  'base64',
);

let world: World;
let instructor: BrowserContext;

beforeAll(async () => {
  world = await openWorld();
  ({ context: instructor } = await world.signedIn());
  const experiments = (await (
    await instructor.request.get(`${world.origin}/api/experiments`)
  ).json()) as ExperimentSummary[];
  const ketone = experiments.find(({ title }) => title.startsWith('4-Methylcyclohexanol'))!;
  await post('/api/runs', {
    id: RUN,
    experiment: ketone.id,
    document: ketone.head.document,
    bench: 'Bench 4',
  });
});
afterAll(() => world.close());

async function post(path: string, data: unknown, context = instructor): Promise<unknown> {
  const headers = { origin: world.origin };
  const answer = await context.request.post(world.origin + path, { data, headers });
  expect(answer.status(), await answer.text()).toBeLessThan(300);
  return answer.json();
}

/** A phone that may use this one record and nothing else. */
async function phone(initials: string): Promise<{ context: BrowserContext; page: Page }> {
  const { path } = (await post('/api/links', { run: RUN })) as { path: string };
  const context = await world.browser.newContext({ viewport: SIZES.phone, hasTouch: true });
  await post('/api/session', { token: path.split('#')[1] }, context);
  const page = await context.newPage();
  await page.goto(`${world.origin}/bench/${RUN}`);
  await page.getByLabel('Your initials').fill(initials);
  await page.getByLabel('0.001').check();
  await page.getByRole('button', { name: 'To the steps' }).tap();
  return { context, page };
}

const goTo = (page: Page, step: string) =>
  page.evaluate((hash) => void (window.location.hash = hash), `#step-${step}`);

/** With the keys of the keypad, as gloves do it. */
async function key(page: Page, number: string): Promise<void> {
  const pad = page.locator('.bench-keypad');
  for (const sign of number)
    await pad
      .getByRole('button', { name: sign === '.' ? 'decimal point' : sign, exact: true })
      .tap();
  await pad.locator('[data-key="enter"]').tap();
}

/** Ends when the number is shown as entered: what the page says of sending then counts it in. */
async function enter(page: Page, field: RegExp, number: string): Promise<void> {
  await page.getByRole('button', { name: field }).tap();
  await key(page, number);
  await page.locator('button.bench-line-target', { hasText: number }).waitFor();
}

async function says(page: Page, words: string): Promise<void> {
  await expect.poll(() => page.locator('body').innerText(), { timeout: 30_000 }).toContain(words);
}

async function kept(): Promise<BenchEntry[]> {
  const answer = await instructor.request.get(`${world.origin}/api/runs/${RUN}/entries`);
  return ((await answer.json()) as KeptEntry[]).map(({ entry }) => entry);
}

it('loses nothing and doubles nothing', async () => {
  const { context, page } = await phone('RK');
  await enter(page, /^Enter 4-methylcyclohexanone/, '1.211');
  await says(page, 'All kept');
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    while (navigator.serviceWorker.controller === null)
      await new Promise((done) => setTimeout(done, 50));
  });

  await context.setOffline(true);
  await enter(page, /^Enter 95/, '10');
  await says(page, '1 to send');
  await page.getByLabel('What do you see?').fill('clear, colourless');
  await page
    .locator('input[type=file]')
    .setInputFiles({ name: 'flask.png', mimeType: 'image/png', buffer: PHOTO });
  await says(page, '2 to send');
  await picture(page, 'bench-offline');
  expect(await axeFindings(page)).toEqual([]);

  await page.reload();
  await says(page, 'No network, 2 to send');
  await page.getByRole('button', { name: /^1\.211/ }).tap();
  await page.getByRole('button', { name: 'Correct' }).tap();
  await page.getByRole('button', { name: 'digits swapped' }).tap();
  await key(page, '1.121');
  await says(page, 'No network, 3 to send');
  await page.locator('s', { hasText: '1.211' }).first().waitFor();
  await goTo(page, '3');
  // Ten times the plan is asked about, and may be kept.
  await page.getByRole('button', { name: /^Enter sodium borohydride/ }).tap();
  await key(page, '1.51');
  await page.getByText('10 times the plan. Keep it?').waitFor();
  await page.getByRole('button', { name: 'Keep it' }).tap();
  await says(page, 'No network, 4 to send');
  await page.getByRole('button', { name: /^Start/ }).tap();
  await says(page, 'No network, 5 to send');

  // A second tab of the same phone has the same lines to send.
  const tab = await context.newPage();
  await tab.goto(`${world.origin}/bench/${RUN}`);
  await says(tab, 'No network, 5 to send');

  await context.setOffline(false);
  await says(page, 'All kept');
  await says(tab, 'All kept');
  const entries = await kept();
  expect(entries.map(({ kind, value, text }) => [kind, value ?? text])).toEqual([
    ['charge', 1.211],
    ['charge', 10],
    ['observation', 'clear, colourless'],
    ['correction', 1.121],
    ['charge', 1.51],
    ['time', 'Started'],
  ]);
  expect(new Set(entries.map(({ id }) => id)).size).toBe(entries.length);
  const [photo] = entries[2]!.attachments!;
  const sent = await context.request.get(`${world.origin}/api/attachments/${photo}`);
  expect(await sent.body()).toEqual(PHOTO);
  await context.close();
});

it('shows at once what another device writes, and once', async () => {
  const first = await phone('RK');
  const second = await phone('LM');
  for (const { page } of [first, second]) await goTo(page, '15');
  await enter(second.page, /^Enter product flask, empty/, '58.412');
  await first.page.getByRole('button', { name: /^58\.412.*LM/ }).waitFor();
  await says(second.page, 'All kept');
  expect(await second.page.getByText('58.412').count()).toBe(2); // on the screen, and for print
  expect((await kept()).filter(({ value }) => value === 58.412)).toHaveLength(1);
  await first.context.close();
  await second.context.close();
});

it('keeps what was acknowledged through a crash of the server, and sends the rest after it', async () => {
  const { context, page } = await phone('RK');
  await goTo(page, '18');
  await enter(page, /^Enter product flask, with what it holds/, '59.338');
  await says(page, 'All kept');
  await world.crashAndRestart();
  await goTo(page, '19b');
  await enter(page, /^Enter product flask, with what it holds/, '59.312');
  await says(page, 'All kept');
  const values = (await kept()).map(({ value }) => value);
  expect(values.filter((value) => value === 59.338)).toHaveLength(1);
  expect(values.filter((value) => value === 59.312)).toHaveLength(1);
  await context.close();
});

it('says how to get in where nobody is signed in', async () => {
  const context = await world.browser.newContext({ viewport: SIZES.phone });
  const page = await context.newPage();
  await page.goto(`${world.origin}/bench/${RUN}`);
  await page.getByRole('heading', { name: 'This device is not signed in.' }).waitFor();
  expect(await axeFindings(page)).toEqual([]);
  await context.close();
});
