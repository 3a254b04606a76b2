/** What a student does on the page of a bench record. */
import type { APIRequestContext, Locator, Page } from 'playwright-core';
import type { BenchEntry } from '../../src/core/record/entry.ts';
import type { KeptEntry } from '../../src/wire/run.ts';

export async function beginAt(page: Page, initials: string, balance = /0\.001/): Promise<void> {
  await page.getByLabel('Your initials').fill(initials);
  await page.getByRole('radio', { name: balance }).check();
  await page.getByRole('button', { name: 'To the steps' }).click();
  await onStep(page, 1);
}

/** What says which step is open. */
export const step = (page: Page, number: number): Locator =>
  page.getByText(new RegExp(`(^|\\s)step ${number} of \\d+$`));

export async function onStep(page: Page, number: number): Promise<void> {
  await step(page, number).waitFor();
}

/** One at a time, by the large way below. */
export async function nextUntil(page: Page, number: number): Promise<void> {
  while (!(await step(page, number).isVisible())) {
    const place = await page.getByText(/step \d+ of \d+$/).textContent();
    await page.getByRole('link', { name: 'Next' }).click();
    await page.getByText(place!).waitFor({ state: 'detached' });
  }
}

/** On the keys of the keypad that is open. */
export async function tapNumber(page: Page, number: string): Promise<void> {
  for (const key of number) {
    const name = key === '.' ? 'decimal point' : key;
    await page.getByRole('button', { name, exact: true }).click();
  }
}

/** Opens the keypad of what is so called, taps the number and enters it. */
export async function enterNumber(page: Page, what: string, number: string): Promise<void> {
  await page.getByRole('button', { name: new RegExp(`^Enter ${what}`) }).click();
  await tapNumber(page, number);
  await enterTyped(page, number);
}

/** A number that is not what is expected is asked about once, and kept. */
async function enterTyped(page: Page, number: string): Promise<void> {
  const enter = page.getByRole('button', { name: /^(Enter|Keep) it$/ });
  await enter.click();
  const entered = lineWith(page, number);
  const asked = page.getByText('Keep it?');
  await entered.or(asked).first().waitFor();
  if (!(await entered.isVisible())) await enter.click();
  await entered.waitFor();
}

/** A line of the record that stands: how it begins, and who wrote it. */
export const lineWith = (page: Page, words: string, by = ''): Locator =>
  page.getByRole('button', { name: new RegExp(`^${exactly(words)}.*${exactly(by)}`, 's') });

const exactly = (words: string): string => words.replaceAll(/[.*+?()[\]]/g, '\\$&');

export async function correct(page: Page, wrong: string, right: string, why: string) {
  await lineWith(page, wrong).click();
  await page.getByRole('button', { name: 'Correct', exact: true }).click();
  await page.getByRole('button', { name: why }).click();
  await tapNumber(page, right);
  await page.getByRole('button', { name: 'Correct it' }).click();
  await lineWith(page, right).waitFor();
}

export async function observe(page: Page, words: string): Promise<void> {
  await page.getByLabel('What do you see?').fill(words);
  await page.getByRole('button', { name: 'Enter it' }).click();
  await lineWith(page, words).waitFor();
}

export async function photograph(page: Page, bytes: Buffer): Promise<void> {
  await page
    .getByLabel('Photo', { exact: true })
    .setInputFiles({ name: 'photo.png', mimeType: 'image/png', buffer: bytes });
  await page.getByRole('img', { name: 'Photo' }).waitFor();
}

/** The quiet words at the head. */
export async function status(page: Page, words: string): Promise<void> {
  await page.getByRole('banner').getByText(words, { exact: true }).waitFor();
}

/** What the server has, in the order in which it was kept. */
export async function keptIn(request: APIRequestContext, run: string): Promise<BenchEntry[]> {
  const answer = await request.get(`/api/runs/${run}/entries`);
  return ((await answer.json()) as KeptEntry[]).map(({ entry }) => entry);
}
