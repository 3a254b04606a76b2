/** What a person does on the pages of an experiment, found as she finds it: by role and by name. */
import type { APIRequestContext, Locator, Page } from 'playwright-core';
import { expect } from 'vitest';
import type { ExperimentOpened, ExperimentSummary, Version } from '../../src/wire/experiment.ts';

export const editor = (page: Page): Locator =>
  page.getByRole('textbox', { name: 'Text of the experiment' });

export const heading = (page: Page): Locator => page.getByRole('heading', { level: 1 });

/** The page itself is there, and no longer what it says while it is fetched. */
export async function ready(page: Page, shows: RegExp = /./): Promise<void> {
  await heading(page).filter({ hasText: shows }).waitFor();
  await page
    .getByText(/^(Reading|Opening) …$/)
    .first()
    .waitFor({ state: 'detached' });
  await heading(page).filter({ hasText: shows }).waitFor();
}

/** From the shelf into an experiment that has its headings and nothing else. */
export async function startExperiment(page: Page): Promise<string> {
  await page.getByRole('button', { name: 'Start an experiment' }).click();
  await editor(page).waitFor();
  return experimentIn(page);
}

/** The experiment that a page's address names. */
export function experimentIn(page: Page): string {
  return /\/experiments\/([\w-]+)/.exec(page.url())![1]!;
}

export async function emptyText(page: Page): Promise<void> {
  await editor(page).press('ControlOrMeta+a');
  await page.keyboard.press('Delete');
}

/**
 * Key by key. The editor writes the mark of the next item itself, and takes it back at an empty
 * line, so that neither is typed.
 */
export async function typeText(page: Page, text: string): Promise<void> {
  let inList = false;
  for (const line of text.trimEnd().split('\n')) {
    const [, mark = '', words = ''] = /^(- |\d+\. )?(.*)$/.exec(line)!;
    await page.keyboard.type(inList ? words : mark + words);
    await page.keyboard.press('Enter');
    inList = mark !== '';
  }
}

/** All at once, as from the clipboard. */
export async function putText(page: Page, text: string): Promise<void> {
  await emptyText(page);
  await page.keyboard.insertText(text);
}

/** A click behind the last character of the first place where these words stand. */
export async function cursorBehind(page: Page, words: string): Promise<void> {
  const line = editor(page).locator(':scope > *').filter({ hasText: words }).first();
  const at = await line.evaluate((element, sought) => {
    element.scrollIntoView({ block: 'center' });
    let rest = element.textContent.indexOf(sought) + sought.length;
    const nodes = document.createTreeWalker(element, NodeFilter.SHOW_TEXT);
    let node = nodes.nextNode()!;
    for (; rest > node.nodeValue!.length; node = nodes.nextNode()!) rest -= node.nodeValue!.length;
    const last = document.createRange();
    last.setStart(node, rest - 1);
    last.setEnd(node, rest);
    const { right, top, bottom } = last.getBoundingClientRect();
    return { x: right - 1, y: (top + bottom) / 2 };
  }, words);
  await page.mouse.click(at.x, at.y);
}

/** The text as it stands in the editor. */
export async function textIn(page: Page): Promise<string> {
  return editor(page).evaluate((content) =>
    [...content.children]
      .map((line) => {
        const copy = line.cloneNode(true) as Element;
        for (const aid of copy.querySelectorAll('[contenteditable=false]')) aid.remove();
        return copy.textContent;
      })
      .join('\n'),
  );
}

/** Lines that say something: how many blank ones part them is nobody's matter. */
export const linesOf = (text: string): string[] =>
  text.split('\n').filter((line) => line.trim() !== '');

/** Until the server has what stands in the editor, as far as it is drawn, and the page says so. */
export async function untilKept(page: Page): Promise<void> {
  for (let tries = 0; ; tries += 1) {
    const written = linesOf(await textIn(page)).join('\n');
    const kept = linesOf(await keptText(page.request, experimentIn(page))).join('\n');
    if (kept.includes(written)) break;
    if (tries > 100) throw new Error(`The server has not got it:\n${written}`);
    await page.waitForTimeout(200);
  }
  await page.getByText('Kept', { exact: true }).waitFor();
}

/** What the server has of it now. */
export async function keptText(request: APIRequestContext, experiment: string): Promise<string> {
  const answer = await request.get(`/api/experiments/${experiment}`);
  return ((await answer.json()) as ExperimentOpened).text;
}

export async function versionsOf(
  request: APIRequestContext,
  experiment: string,
): Promise<Version[]> {
  const answer = await request.get(`/api/experiments/${experiment}/versions`);
  return (await answer.json()) as Version[];
}

/** By its title, or the beginning of it. */
export async function experimentNamed(
  request: APIRequestContext,
  title: string,
): Promise<ExperimentSummary> {
  const all = (await (await request.get('/api/experiments')).json()) as ExperimentSummary[];
  const found = all.find((each) => each.title.startsWith(title));
  expect(found, `an experiment “${title}”`).toBeDefined();
  return found!;
}

/** From an experiment into a bench record of it. */
export async function startRecord(page: Page, bench: string): Promise<string> {
  await page.getByRole('button', { name: 'Start a bench record' }).click();
  await page.getByLabel('Bench', { exact: true }).fill(bench);
  await page.getByRole('button', { name: 'Start the record' }).click();
  await page.waitForURL('**/bench/*');
  await heading(page).waitFor();
  return runIn(page);
}

/** The bench record that a page's address names. */
export function runIn(page: Page): string {
  return /\/(?:bench|runs)\/([\w-]+)/.exec(page.url())![1]!;
}
