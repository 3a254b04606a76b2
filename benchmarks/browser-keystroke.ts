import type { Page } from 'playwright-core';
import { inBrowser } from './browser-world.ts';
import type { Measured, Shelved } from './browser-world.ts';
import { probe, probed } from './browser-probe.ts';
import type { Probed } from './browser-probe.ts';
import { clickAt, type, typingsIn } from './browser-typing.ts';
import type { Item, Timed } from './item.ts';
import { timeText } from './item.ts';
import { median, quantile } from './measure.ts';

/** Of one frame at 60 a second, and of what a hand does not feel. */
const BUDGET = { budget_ms: 16, budget95_ms: 50 };

interface Typed extends Probed {
  /** The places, one for each key. */
  readonly where: readonly string[];
}

/** The keys of `typingsIn`, in a page that shows the text. `to` puts the cursor where they go. */
async function typeAll(
  page: Page,
  text: string,
  to: (at: number) => Promise<void>,
): Promise<Typed> {
  const where: string[] = [];
  let seed = 20_251_125;
  await probe(page);
  for (const typing of typingsIn(text)) {
    await to(typing.at);
    // The cursor's own consequences are over before the first key.
    await page.waitForTimeout(300);
    await type(page, typing.keys, seed++);
    where.push(...typing.keys.map(() => typing.where));
  }
  const found = await probed(page);
  if (found.frames_ms.length !== where.length)
    throw new Error(`${where.length} keys were pressed and ${found.frames_ms.length} measured`);
  return { ...found, where };
}

async function inExperiment({ world, page }: Measured, { id, text }: Shelved): Promise<Typed> {
  await page.goto(`${world.origin}/experiments/${id}`);
  await page.locator('.experiment-sheet-strip [data-step]').first().waitFor();
  await page.waitForLoadState('networkidle');
  return typeAll(page, text, (at) => clickAt(page, text, at));
}

/** The same keys in a field that does nothing with its text. */
async function inTextarea({ context }: Measured, text: string): Promise<Typed> {
  const page = await context.newPage();
  await page.setContent(
    '<textarea style="width:640px;height:800px;font:17px sans-serif"></textarea>',
  );
  const field = page.locator('textarea');
  await field.fill(text);
  const typed = await typeAll(page, text, (at) =>
    field.evaluate((node: HTMLTextAreaElement, place) => {
      node.focus();
      node.setSelectionRange(place, place);
    }, at),
  );
  await page.close();
  return typed;
}

function placesText({ where, frames_ms }: Typed): string {
  const places = [...new Set(where)].map((place) => {
    const there = frames_ms.filter((_, n) => where[n] === place);
    return `${place} ${timeText(median(there))} (95th percentile ${timeText(quantile(there, 0.95))})`;
  });
  return `Medians: ${places.join(', ')}.`;
}

function item(shelved: Shelved, typed: Typed, baseline: Timed): Item {
  const { frames_ms, begun_ms, own_ms, slow_ms } = typed;
  const late = slow_ms.filter((each) => each > 50).length;
  return {
    what: `In the browser: a key in ${shelved.name}, ${shelved.steps} steps, to the painted flow sheet (1440 × 900)`,
    times_ms: frames_ms,
    ...BUDGET,
    baseline,
    remarks: [
      placesText(typed),
      `The key is dealt with and the frame begins: median ${timeText(median(begun_ms))}, 95th percentile ${timeText(quantile(begun_ms, 0.95))}; the rest is the frame.`,
      `The page’s own measure agrees: median ${timeText(median(own_ms))} of ${own_ms.length}. Event Timing (in steps of 8 ms) saw ${slow_ms.length} over 16 ms, ${late} over 50 ms.`,
    ],
  };
}

/** From the key to the picture of its consequence, in Chromium without a graphics card. */
export async function browserKeystroke(): Promise<Item[]> {
  return inBrowser(async (at) => {
    const { example, long } = at;
    const bare = await inTextarea(at, example.text);
    const baseline = { what: 'the same key in a bare text field', times_ms: bare.frames_ms };
    return [
      item(example, await inExperiment(at, example), baseline),
      item(long, await inExperiment(at, long), baseline),
    ];
  });
}
