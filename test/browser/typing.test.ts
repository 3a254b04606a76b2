import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { ALDOL } from './aldol.ts';
import { beginAt, enterNumber, nextUntil, status } from './at-the-bench.ts';
import {
  cursorBehind,
  editor,
  experimentIn,
  heading,
  keptText,
  putText,
  startExperiment,
  startRecord,
  textIn,
  untilKept,
} from './at-the-desk.ts';
import { openWorld } from './world.ts';
import type { World } from './world.ts';

describe('typing', () => {
  let world: World;
  let page: Page;
  beforeAll(async () => {
    world = await openWorld();
    ({ page } = await world.signedIn());
  });
  beforeEach(async () => {
    await page.goto('/');
    await startExperiment(page);
    await putText(page, ALDOL);
    await untilKept(page);
  });
  afterAll(() => world.close());

  it.each([
    ['saved as the page goes', false],
    ['of which this save is lost', true],
  ])('loses nothing when the page is loaded again in the middle of a word, %s', async (_, lost) => {
    if (lost) await page.evaluate(loseSaves);
    await cursorBehind(page, 'keep the solid');
    await page.keyboard.type(' on the fun');
    await page.reload();
    await editor(page).waitFor();
    expect(await textIn(page)).toContain('keep the solid on the fun.');
    await cursorBehind(page, 'on the fun');
    await page.keyboard.type('nel');
    expect(await textIn(page)).toContain('keep the solid on the funnel.');
    await untilKept(page);
    expect(await keptText(page.request, experimentIn(page))).toContain('on the funnel.');
  });

  it('loses nothing while the server cannot be reached, and says so', async () => {
    await page.context().setOffline(true);
    await cursorBehind(page, 'at 20 °C for 30');
    await page.keyboard.press('Backspace');
    await page.keyboard.type('5');
    await page.getByText('Kept on this device; no network').waitFor();
    expect(await keptText(page.request, experimentIn(page))).not.toContain('for 35 min');
    await page.context().setOffline(false);
    await untilKept(page);
    expect(await keptText(page.request, experimentIn(page))).toContain('for 35 min');
  });

  it('is completed by keyboard: a verb, a vessel, a material', async () => {
    await cursorBehind(page, 'aqueous waste.');
    await page.keyboard.press('Enter');
    await page.keyboard.type('Recryst');
    await takeOffered(page, /ecrystalli[sz]e/);
    await page.keyboard.type(' the dis');
    await takeOffered(page, /^dish/);
    await page.keyboard.type(' from ethan');
    await takeOffered(page, /^ethanol/);
    await expect.poll(() => textIn(page)).toMatch(/8\. Recrystalli[sz]e the dish from ethanol/);
    await page.keyboard.press('Escape');
    await takeBack(page, ALDOL);
    await untilKept(page);
  });

  it('marks a word that is not known and mends it with one key', async () => {
    await cursorBehind(page, '3. Add benzaldehyde');
    for (let i = 0; i < 'hyde'.length; i += 1) await page.keyboard.press('Backspace');
    await page.keyboard.type('hid');
    const mend = page.getByRole('button', { name: /^Write “benzaldehyde.*” Alt\+Enter/ });
    await mend.waitFor();
    await page.keyboard.press('Escape');
    await page.keyboard.press('Alt+Enter');
    await expect.poll(() => textIn(page)).toContain('3. Add benzaldehyde 2.12 g');
    await mend.waitFor({ state: 'detached' });
    await page.keyboard.press('ControlOrMeta+z');
    await expect.poll(() => textIn(page)).toContain('3. Add benzaldehid 2.12 g');
    await page.getByRole('button', { name: /^Write “benzaldehyde.*”$/ }).click();
    await expect.poll(() => textIn(page)).toContain('3. Add benzaldehyde 2.12 g');
    await untilKept(page);
  });

  it('in the reagent table changes the sentence, and undo in the text takes it back', async () => {
    const amount = page.getByRole('textbox', { name: 'benzaldehyde, step 3' });
    await amount.fill('1.06 g');
    await amount.press('Enter');
    await expect.poll(() => textIn(page)).toContain('3. Add benzaldehyde 1.06 g and acetone');
    // Half the aldehyde: it limits now, and half of it is to be had.
    await page
      .getByText(/benzaldehyde limits \(9\.99\smmol\)/)
      .first()
      .waitFor();
    await page
      .getByText(/Makes at most 1\.17\sg/)
      .first()
      .waitFor();
    await amount.fill('a handful');
    await amount.press('Enter');
    await page.getByRole('alert').first().waitFor();
    expect(await amount.inputValue()).toBe('a handful');
    expect(await textIn(page)).toContain('benzaldehyde 1.06 g');
    await amount.press('Escape');
    await expect.poll(() => amount.inputValue()).toBe('1.06 g');
    await editor(page).press('ControlOrMeta+z');
    await expect.poll(() => textIn(page)).toContain('benzaldehyde 2.12 g');
    await expect.poll(() => amount.inputValue()).toBe('2.12 g');
    await page
      .getByText(/acetone limits/)
      .first()
      .waitFor();
    await untilKept(page);
  });

  it('over a slow network: the job goes on, and the page says what it is doing', async () => {
    const { context, page: slow } = await world.signedIn();
    const cdp = await context.newCDPSession(slow);
    await cdp.send('Network.emulateNetworkConditions', {
      offline: false,
      latency: 400,
      downloadThroughput: 50_000,
      uploadThroughput: 50_000,
    });
    await slow.goto('/');
    await slow.getByText('Reading …').first().waitFor();
    await heading(slow).filter({ hasText: 'experiments' }).waitFor();
    const experiment = await startExperiment(slow);
    await putText(slow, ALDOL);
    // What it comes to is there at once: nothing of it waits for the network.
    await slow
      .getByText(/Makes at most 2\.34\sg/)
      .first()
      .waitFor({ timeout: 2000 });
    await slow.getByText('Keeping …').waitFor();
    await untilKept(slow);
    expect(await keptText(context.request, experiment)).toBe(ALDOL);
    await startRecord(slow, 'Bench 9');
    await beginAt(slow, 'L.F.');
    await nextUntil(slow, 3);
    await enterNumber(slow, 'benzaldehyde', '2.1');
    await status(slow, 'All kept');
    await context.close();
  });
});

/** In the page itself: what is sent as it goes is past what a test can stop on the way. */
function loseSaves(): void {
  const { fetch } = window;
  window.fetch = (path, init) =>
    init?.method === 'POST' && typeof path === 'string' && path.endsWith('/versions')
      ? Promise.reject(new TypeError('lost'))
      : fetch(path, init);
}

/** Down to the first that is offered, then Enter. */
async function takeOffered(page: Page, words: RegExp): Promise<void> {
  await page.getByRole('option', { name: words }).first().waitFor();
  // The editor takes no key for an answer to words that came up under the finger.
  await page.waitForTimeout(150);
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
}

/** Undo until the text is again what it was. */
async function takeBack(page: Page, text: string): Promise<void> {
  for (let i = 0; i < 20 && (await textIn(page)) !== text; i += 1)
    await editor(page).press('ControlOrMeta+z');
  expect(await textIn(page)).toBe(text);
}
