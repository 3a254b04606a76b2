import type { Page } from 'playwright-core';
import { seededRandom } from '../src/core/quantity/random.ts';

/** A place in the text, and the keys that someone presses there; after them the text is as before. */
export interface Typing {
  readonly where: string;
  /** Offset in the text. */
  readonly at: number;
  readonly keys: readonly string[];
}

/** A practised typist's pace, uneven, so that keys fall anywhere between two frames. */
const PACE_ms = { least: 60, spread: 90 };

const SENTENCE = ' Stir it for 12 min.';

const rubOut = (count: number): string[] => Array.from({ length: count }, () => 'Backspace');
const typed = (text: string): string[] => [...Array.from(text), ...rubOut(text.length)];

interface Found {
  readonly at: number;
  readonly text: string;
}

function section(text: string, heading: string): { from: number; to: number } {
  const from = text.indexOf(`\n${heading}\n`) + heading.length + 2;
  const next = text.indexOf('\n## ', from);
  return { from, to: next < 0 ? text.length : next };
}

/** Every match below a heading, with the place where it ends. */
function endsOf(text: string, heading: string, pattern: RegExp): Found[] {
  const { from, to } = section(text, heading);
  return [...text.slice(from, to).matchAll(pattern)].map((match) => ({
    at: from + match.index + match[0].length,
    text: match[0],
  }));
}

/** `count` of them, evenly from the first to the last. */
function spread<T>(all: readonly T[], count: number): T[] {
  const step = Math.max(1, (all.length - 1) / Math.max(1, count - 1));
  return Array.from({ length: Math.min(count, all.length) }, (_, n) => all[Math.round(n * step)]!);
}

/** A sentence written and rubbed out, amounts changed and changed back, a vessel of another name. */
export function typingsIn(text: string): Typing[] {
  const steps = endsOf(text, '## Procedure', /^\d+\. .*$/gm);
  const amounts = endsOf(text, '## Procedure', /\d(?= (?:g|mL)\b)/g);
  const vessels = endsOf(text, '## Vessels', /^- [\w ]+(?=:)/gm);
  return [
    ...spread(steps, 4).map(({ at }) => ({ where: 'Procedure', at, keys: typed(SENTENCE) })),
    ...spread(amounts, 12).map(({ at }) => ({
      where: 'amounts',
      at,
      keys: ['Backspace', '4', '7', ...rubOut(2), text[at - 1]!],
    })),
    ...spread(vessels, 3).map(({ at }) => ({ where: 'Vessels', at, keys: typed(' two') })),
  ];
}

/** Puts the cursor at a place of the text that the editor shows, as a hand with a mouse does. */
export async function clickAt(page: Page, text: string, at: number): Promise<void> {
  const start = text.lastIndexOf('\n', at - 1) + 1;
  const stop = text.indexOf('\n', at);
  const line = text.slice(start, stop < 0 ? text.length : stop);
  const share = at / text.length;
  const spot = await page.evaluate(spotOf, { line, column: at - start, share });
  if (spot === undefined) throw new Error(`The editor does not show the line “${line}”.`);
  await page.mouse.click(spot.x, spot.y);
}

/** Runs in the page: only what is near the sight is in the editor's tree, so it is scrolled there. */
async function spotOf({ line, column, share }: { line: string; column: number; share: number }) {
  const frame = () => new Promise((done) => requestAnimationFrame(done));
  const { shadowRoot } = document.querySelector('.experiment-editor')!;
  const scroller = shadowRoot!.querySelector('.cm-scroller')!;
  scroller.scrollIntoView({ block: 'center' });
  const found = () =>
    [...shadowRoot!.querySelectorAll('.cm-line')].find((each) => each.textContent === line);
  const height = scroller.scrollHeight - scroller.clientHeight;
  for (const off of [0, -0.1, 0.1, -0.2, 0.2, -0.4, 0.4]) {
    if (found() !== undefined) break;
    scroller.scrollTop = (share + off) * height;
    await frame();
    await frame();
  }
  const shown = found();
  if (shown === undefined) return undefined;
  shown.scrollIntoView({ block: 'center' });
  await frame();
  let left = column;
  const walker = document.createTreeWalker(shown, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode() as Text | null; node; node = walker.nextNode() as Text | null) {
    if (left > node.length) {
      left -= node.length;
      continue;
    }
    const range = document.createRange();
    range.setStart(node, Math.max(0, left - 1));
    range.setEnd(node, left);
    const box = range.getBoundingClientRect();
    return { x: box.right - 1, y: (box.top + box.bottom) / 2 };
  }
  return undefined;
}

/** Presses keys at a hand's pace; how long a page takes does not change when the next one falls. */
export async function type(page: Page, keys: readonly string[], seed: number): Promise<void> {
  const { uniform } = seededRandom(seed);
  for (const key of keys) {
    await page.keyboard.press(key);
    await page.waitForTimeout(PACE_ms.least + uniform() * PACE_ms.spread);
  }
}
