import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ALCOHOL, KETONE } from '../made-up-spectra.ts';
import { beginAt } from './at-the-bench.ts';
import { experimentNamed, heading, startRecord } from './at-the-desk.ts';
import { overhang_px } from './layout.ts';
import { axeFindings, openWorld, picture, SIZES } from './world.ts';
import type { World } from './world.ts';

/** As a hand lets a file go over the page. */
async function dropOn(page: Page, name: string, text: string): Promise<void> {
  const held = await page.evaluateHandle(
    ([file, content]) => {
      const transfer = new DataTransfer();
      transfer.items.add(new File([content], file, { type: 'text/csv' }));
      return transfer;
    },
    [name, text] as const,
  );
  await page.dispatchEvent('body', 'dragover', { dataTransfer: held });
  await page.dispatchEvent('body', 'drop', { dataTransfer: held });
}

describe('evidence', () => {
  let world: World;
  let page: Page;
  let run: string;
  beforeAll(async () => {
    world = await openWorld();
    const opened = await world.signedIn({ viewport: SIZES.desktop });
    ({ page } = opened);
    const { id } = await experimentNamed(opened.context.request, '4-Methylcyclohexanol');
    await page.goto(`/experiments/${id}`);
    run = await startRecord(page, 'Bench 9');
    await beginAt(page, 'M.K.');
  });
  afterAll(() => world.close());

  it('a file dropped on the bench record is asked about and kept', async () => {
    await dropOn(page, 'ketone.csv', KETONE);
    await page.getByRole('radio', { name: 'the starting material' }).check();
    await page.getByRole('radio', { name: 'liquid film' }).check();
    await page.getByRole('button', { name: 'Keep it in the record' }).click();
    await page.getByLabel('About ketone.csv').waitFor({ state: 'detached' });
    await page.goto(`/bench/${run}#entered`);
    await page.getByText('Infrared spectrum of the starting material').waitFor();
    await picture(page, 'bench-evidence');
  });

  it('what no instrument wrote is refused in words, and nothing is kept', async () => {
    await dropOn(page, 'page.jdx', '<!DOCTYPE html><p>Not found</p>');
    await page.getByRole('alert').filter({ hasText: 'web page, not a spectrum' }).waitFor();
    expect(await page.getByLabel('About page.jdx').count()).toBe(0);
  });

  it('a phone chooses the file instead', async () => {
    await page.setViewportSize(SIZES.phone);
    await page.getByLabel('File from an instrument').setInputFiles({
      name: 'alcohol.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from(ALCOHOL),
    });
    await picture(page, 'bench-file-question-phone');
    expect(await axeFindings(page)).toEqual([]);
    expect(await overhang_px(page)).toBe(0);
    await page.getByRole('button', { name: 'Keep it in the record' }).click();
    // The procedure asks for it in its last step: there it stands, and nothing is missing there
    await page.getByText('alcohol.csv').waitFor();
    await page.getByText(/All of it is kept\. 16 things/).waitFor();
  });

  it('the evidence page says what the traces carry, and no more', async () => {
    await page.setViewportSize(SIZES.desktop);
    await page.goto(`/runs/${run}/evidence`);
    await heading(page)
      .filter({
        hasText: 'The infrared spectrum fits 4‑methylcyclohexanol'.replace('‑', '-\u2060'),
      })
      .waitFor();
    await page.getByText('The C=O group of the starting material is not seen').first().waitFor();
    // From the group to its band in words, and from the trace's table back
    await page.getByRole('button', { name: 'O–H stretch' }).first().click();
    await page.getByText(/O–H stretch, expected between \d+ and \d+ cm⁻¹: seen/).waitFor();
    expect(await axeFindings(page)).toEqual([]);
  });

  it('a second kind of measurement, typed by keyboard alone, settles it', async () => {
    await page.getByRole('button', { name: 'Boiling range' }).focus();
    await page.keyboard.press('Enter');
    const form = page.getByRole('form', { name: 'boiling range' });
    await form.waitFor();
    await page.keyboard.press('Tab');
    await page.keyboard.type('warm');
    await page.keyboard.press('Tab');
    await page.keyboard.type('173');
    await page.keyboard.press('Enter');
    await form.getByText('A number is expected here.').waitFor();
    // The first field that is wrong has the cursor
    await page.keyboard.press('ControlOrMeta+a');
    await page.keyboard.type('171.5');
    await page.keyboard.press('Enter');
    await form.waitFor({ state: 'detached' });
    await page.getByRole('heading', { name: 'Boiling range' }).waitFor();
    await picture(page, 'evidence-two');
  });

  it('a table of assignments is held against the trace', async () => {
    const product = page.getByLabel('Infrared spectrum of the product');
    await product.getByRole('button', { name: 'Check a table of assignments' }).click();
    const form = page.getByRole('form', { name: 'Table of assignments' });
    await form.getByLabel('Position').fill('3340');
    await form.getByLabel('Taken for').fill('O–H stretch, alcohol');
    await form.getByRole('button', { name: 'Another band' }).click();
    const second = form.getByRole('group', { name: 'Band 2' });
    await second.getByLabel('Position').fill('2250');
    await second.getByLabel('Taken for').fill('C≡N stretch, nitrile');
    await form.getByRole('button', { name: 'Keep it in the record' }).click();
    await form.waitFor({ state: 'detached' });
    await product.getByRole('heading', { name: 'The table of assignments' }).waitFor();
    await product.getByText('the trace says otherwise').waitFor();
    await picture(page, 'evidence-claims');
    expect(await axeFindings(page)).toEqual([]);
  });

  it('a measurement that was a mistake is struck, and the page no longer counts it', async () => {
    const boiling = page.getByLabel('Boiling range', { exact: true });
    await boiling.getByRole('button', { name: 'Strike it' }).click();
    await boiling.getByLabel('Why does it not count?').fill('another flask');
    await boiling.getByRole('button', { name: 'Strike it' }).click();
    await boiling.waitFor({ state: 'detached' });
  });

  it.each(Object.entries(SIZES))('fits a %s and paper', async (size, viewport) => {
    await page.setViewportSize(viewport);
    await page.reload();
    await page.getByRole('heading', { name: 'What was measured' }).waitFor();
    expect(await overhang_px(page)).toBe(0);
    await page.emulateMedia({ media: 'print' });
    await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
    await page.locator('.trace-paper svg').first().waitFor();
    await picture(page, `evidence-paper-${size}`);
    await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
    await page.emulateMedia({ media: 'screen' });
  });
});
