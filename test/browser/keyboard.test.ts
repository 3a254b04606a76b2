import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ALDOL, BENCH, TITLE } from './aldol.ts';
import { onStep, status } from './at-the-bench.ts';
import { editor, heading, typeText, untilKept, ready } from './at-the-desk.ts';
import { focusOf, hasFocus, tabTo } from './focus.ts';
import { openWorld } from './world.ts';
import type { World } from './world.ts';

/** From the first key to the result without a pointer. */
describe('by keyboard alone', () => {
  let world: World;
  let page: Page;
  beforeAll(async () => {
    world = await openWorld();
    ({ page } = await world.signedIn());
    await heading(page).waitFor();
  });
  afterAll(() => world.close());

  it('an experiment is started and written, and Tab leaves the text', async () => {
    expect(await tabTo(page, page.getByRole('button', { name: 'Start an experiment' }))).toEqual(
      [],
    );
    await page.keyboard.press('Enter');
    await editor(page).waitFor();
    expect(await tabTo(page, editor(page))).toEqual([]);
    await page.keyboard.press('ControlOrMeta+a');
    await page.keyboard.press('Delete');
    const [beginning = '', end = ''] = ALDOL.split('10. ');
    await page.keyboard.insertText(beginning);
    await typeText(page, `10. ${end}`);
    await heading(page).filter({ hasText: TITLE }).waitFor();
    await page.keyboard.press('Tab');
    expect(await hasFocus(editor(page))).toBe(false);
    await page.keyboard.press('Shift+Tab');
    expect(await hasFocus(editor(page))).toBe(true);
    await untilKept(page);
  });

  it('the rows of the flow sheet: one stop, arrows between, Enter selects the sentence', async () => {
    const rows = page.getByRole('list', { name: 'Steps of the flow sheet' }).getByRole('listitem');
    const inSheet = rows.and(page.locator(':focus'));
    await page.keyboard.press('Tab');
    for (let i = 0; i < 5 && (await inSheet.count()) === 0; i += 1)
      await page.keyboard.press('Tab');
    expect(await inSheet.count()).toBe(1);
    await page.keyboard.press('Home');
    for (const number of [1, 2, 3, 4, 5]) {
      expect((await focusOf(page)).seen, `row ${number}`).toBe(true);
      expect(await inSheet.getAttribute('aria-label')).toMatch(new RegExp(`^Step ${number},`));
      await page.keyboard.press('ArrowDown');
    }
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'In the glass after step 5' }).waitFor();
    // The cursor went to the sentence: what is typed now stands in it.
    await tabTo(page, editor(page), { back: true });
    await page.keyboard.press('End');
    await page.keyboard.type(' Be patient.');
    await expect.poll(() => editor(page).textContent()).toContain('keep the solid. Be patient.');
    await page.keyboard.press('ArrowDown');
    await page.getByRole('heading', { name: 'In the glass after step 6' }).waitFor();
    await page.keyboard.press('ControlOrMeta+z');
    await untilKept(page);
  });

  it('a number opens to its derivation, and Escape closes it and gives the focus back', async () => {
    const number = page.getByRole('button', { name: '2.34 g' }).first();
    await tabTo(page, number, { back: true });
    await page.keyboard.press('Enter');
    const derivation = page.getByRole('dialog', { name: /Theoretical yield/ });
    await derivation.getByText('234.30').first().waitFor();
    // Scrolling is no reason to close it.
    await page.evaluate(() => window.scrollBy(0, 40));
    await page.waitForTimeout(200);
    expect(await derivation.isVisible()).toBe(true);
    await page.keyboard.press('Escape');
    await derivation.waitFor({ state: 'detached' });
    expect(await hasFocus(number)).toBe(true);
  });

  it('a bench record is started, and every page is walked through from end to end', async () => {
    await tabTo(page, page.getByRole('button', { name: 'Start a bench record' }));
    await page.keyboard.press('Enter');
    await page.getByLabel('Bench', { exact: true }).waitFor();
    await page.keyboard.type('Bench 4');
    await page.keyboard.press('Enter');
    await page.waitForURL('**/bench/*');
    await heading(page).waitFor();
    expect(await tabTo(page, page.getByLabel('Your initials'))).toEqual([]);
    await page.keyboard.type('M.K.');
    await page.keyboard.press('Enter');
    await onStep(page, 1);
  });

  it('the record is filled: Enter opens the keypad, digits are typed, Escape closes', async () => {
    await goTo(page, 3);
    await keyed(page, /^Enter benzaldehyde/, BENCH.benzaldehyde_g);
    await keyed(page, /^Enter acetone/, BENCH.acetone_g);
    await goTo(page, 8);
    await keyed(page, /^Enter dish/, BENCH.tare_g);
    await goTo(page, 11);
    const gross = page.getByRole('button', { name: /^Enter dish, with what it holds/ });
    await tabTo(page, gross);
    await page.keyboard.press('Enter');
    await page.getByRole('textbox', { name: /^dish, with/ }).waitFor();
    await page.keyboard.press('Escape');
    await page.getByRole('textbox', { name: /^dish, with/ }).waitFor({ state: 'detached' });
    expect(await hasFocus(gross)).toBe(true);
    await page.keyboard.press('Enter');
    await page.keyboard.type(BENCH.gross_g);
    await page.keyboard.press('Enter');
    await status(page, 'All kept');
    await tabTo(page, page.getByRole('link', { name: 'To the end' }));
    await page.keyboard.press('Enter');
    await tabTo(page, page.getByRole('link', { name: 'To the result' }));
    await page.keyboard.press('Enter');
    await heading(page).filter({ hasText: '1.834' }).waitFor();
  });

  it('on the pages beside, the focus is seen at every stop and comes out at the end', async () => {
    const unseen: string[] = [];
    for (const path of [new URL(page.url()).pathname, '/settings', '/help', '/']) {
      await page.goto(path);
      await ready(page);
      unseen.push(...(await walk(page)).map((stop) => `${path}: ${stop}`));
    }
    expect(unseen).toEqual([]);
  });
});

async function goTo(page: Page, number: number): Promise<void> {
  for (let at = 0; at < 12; at += 1) {
    if (await page.getByText(new RegExp(`(^|\\s)step ${number} of`)).isVisible()) return;
    const before = await page.getByText(/step \d+ of \d+$/).textContent();
    await tabTo(page, page.getByRole('link', { name: 'Next' }));
    await page.keyboard.press('Enter');
    await page.getByText(before!).waitFor({ state: 'detached' });
  }
}

async function keyed(page: Page, name: RegExp, number: string): Promise<void> {
  await tabTo(page, page.getByRole('button', { name }));
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Close' }).waitFor();
  await page.keyboard.type(number);
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: new RegExp(`^${number}`) }).waitFor();
}

/** From the first stop until the focus leaves the page; gives the stops that cannot be seen. */
async function walk(page: Page): Promise<string[]> {
  const unseen: string[] = [];
  for (let i = 0; i < 200; i += 1) {
    await page.keyboard.press('Tab');
    const { name, seen } = await focusOf(page);
    if (name === '') return unseen;
    if (!seen) unseen.push(name);
  }
  throw new Error(`Tab never leaves ${page.url()}.`);
}
