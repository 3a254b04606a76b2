import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { BenchEntry } from '../../src/core/record/entry.ts';
import { ALDOL, BENCH } from './aldol.ts';
import {
  beginAt,
  correct,
  enterNumber,
  keptIn,
  lineWith,
  nextUntil,
  observe,
  onStep,
  photograph,
  status,
} from './at-the-bench.ts';
import { heading, putText, startExperiment, startRecord, untilKept } from './at-the-desk.ts';
import { smallPhoto } from './picture.ts';
import { openWorld, picture, SIZES } from './world.ts';
import type { World } from './world.ts';

describe('a bench record while the network is away', () => {
  let world: World;
  let context: BrowserContext;
  let page: Page;
  let run: string;
  beforeAll(async () => {
    world = await openWorld();
    ({ context, page } = await world.signedIn());
    await startExperiment(page);
    await putText(page, ALDOL);
    await untilKept(page);
    run = await startRecord(page, 'Bench 4');
    await page.setViewportSize(SIZES.phone);
  });
  afterAll(() => world.close());

  it('goes on, opens again, and sends every line once and in order', async () => {
    await beginAt(page, 'M.K.');
    await nextUntil(page, 3);
    await enterNumber(page, 'benzaldehyde', BENCH.benzaldehyde_g);
    await status(page, 'All kept');
    // From here on the device can open the page by itself.
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));

    await context.setOffline(true);
    await enterNumber(page, 'acetone', BENCH.acetone_g);
    await observe(page, 'turned yellow');
    await photograph(page, smallPhoto());
    await nextUntil(page, 8);
    await enterNumber(page, 'dish', BENCH.tare_g);
    await status(page, 'No network, 4 to send');

    await page.reload();
    await onStep(page, 8);
    await lineWith(page, BENCH.tare_g).waitFor();
    await status(page, 'No network, 4 to send');
    await picture(page, 'offline-reloaded');
    await nextUntil(page, 11);
    await enterNumber(page, 'dish, with what it holds', BENCH.grossMisread_g);
    await correct(page, BENCH.grossMisread_g, BENCH.gross_g, 'digits swapped');
    await page.getByRole('link', { name: 'To the end' }).click();
    await page.getByText('6 of it are still on this device only.').waitFor();
    await page.getByText('The result needs the network.').waitFor();
    expect(await kindsKept(run)).toEqual(['charge']);

    await context.setOffline(false);
    await status(page, 'All kept');
    await page.getByText('All of it is kept.').waitFor();
    const kept = await keptIn(context.request, run);
    expect(kept.map(inShort)).toEqual([
      'charge benzaldehyde 2.098',
      'charge acetone 0.612',
      'observation turned yellow',
      'observation Photo',
      'tare 21.437',
      'gross 23.721',
      'correction 23.271',
    ]);
    expect(new Set(kept.map(({ id }) => id)).size).toBe(kept.length);
    expect(kept.at(-1)!.corrects).toBe(kept.at(-2)!.id);
    const [photo] = kept[3]!.attachments!;
    const answer = await context.request.get(`/api/attachments/${photo}`);
    expect(await answer.body()).toEqual(smallPhoto());
  });

  it('has nothing left to send when it is opened once more', async () => {
    let sent = 0;
    page.on('request', (request) => {
      if (request.method() === 'POST' && request.url().endsWith('/entries')) sent += 1;
    });
    await page.reload();
    await heading(page).filter({ hasText: 'What was entered' }).waitFor();
    await status(page, 'All kept');
    await page.getByText('All of it is kept.').waitFor();
    expect(sent).toBe(0);
    expect((await kindsKept(run)).length).toBe(7);
  });

  it('keeps a line of which the answer alone was lost, once', async () => {
    await page.getByRole('link', { name: 'Back' }).click();
    let lost = 0;
    await page.route(`**/api/runs/${run}/entries`, async (route) => {
      if (route.request().method() !== 'POST' || lost > 0) return route.continue();
      lost += 1;
      await route.fetch();
      // By now the line itself has come back, as any line of the record does.
      await page.waitForTimeout(300);
      return route.abort('connectionreset');
    });
    await observe(page, 'weighed after an hour in air');
    await page
      .getByRole('banner')
      .getByText(/^No network/)
      .waitFor();
    await status(page, 'All kept');
    expect(lost).toBe(1);
    const words = (await keptIn(context.request, run)).map(({ text }) => text);
    expect(words.filter((text) => text === 'weighed after an hour in air')).toHaveLength(1);
    await page.unroute(`**/api/runs/${run}/entries`);
  });

  it('shows a line that the server will not take, with the reason, and sends the others', async () => {
    await page.route(`**/api/runs/${run}/entries`, (route) => {
      const { entries } = route.request().postDataJSON() as { entries: BenchEntry[] };
      return entries.some(({ text }) => text === 'not to be taken')
        ? route.fulfill({ status: 400, json: { code: 'refused', message: 'Not so.' } })
        : route.continue();
    });
    await observe(page, 'not to be taken');
    await status(page, '1 not taken');
    await observe(page, 'to be taken');
    await status(page, '1 not taken');
    await page.getByText('One line was not taken by the server: Not so.').waitFor();
    const words = (await keptIn(context.request, run)).map(({ text }) => text);
    expect(words).toContain('to be taken');
    expect(words).not.toContain('not to be taken');
    await page.unroute(`**/api/runs/${run}/entries`);
    await page.getByRole('button', { name: 'Send again' }).click();
    await status(page, 'All kept');
    expect((await keptIn(context.request, run)).at(-1)!.text).toBe('not to be taken');
  });

  const kindsKept = async (of: string) =>
    (await keptIn(context.request, of)).map(({ kind }) => kind);
});

/** An entry in the words of the one who wrote it. */
const inShort = ({ kind, item, value, text }: BenchEntry): string =>
  [kind, item, value, text]
    .filter((part) => part !== undefined && part !== 'digits swapped')
    .join(' ');
