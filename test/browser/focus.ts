/** Where the keyboard is, and whether that can be seen. */
import type { Locator, Page } from 'playwright-core';

export interface Stop {
  readonly name: string;
  readonly seen: boolean;
}

/** What has the focus now, in a shadow tree too; seen: by an outline or a shadow. */
export function focusOf(page: Page): Promise<Stop> {
  return page.evaluate(() => {
    let element: Element | null = document.activeElement;
    while (element?.shadowRoot?.activeElement) element = element.shadowRoot.activeElement;
    if (element === null || element === document.body) return { name: '', seen: true };
    const outlined = (each: Element, pseudo?: string): boolean => {
      const { outlineStyle, outlineWidth, outlineColor, boxShadow } = getComputedStyle(
        each,
        pseudo,
      );
      const line =
        outlineStyle !== 'none' &&
        Number.parseFloat(outlineWidth) >= 1 &&
        !/rgba\(.*, 0\)|transparent/.test(outlineColor);
      return line || boxShadow !== 'none';
    };
    const ring = (each: Element): boolean => outlined(each) || outlined(each, '::after');
    // A row of the flow sheet shows it on a part of itself; a file is chosen behind its label.
    const label = (element as HTMLInputElement).labels?.[0];
    const parts = [element, ...element.querySelectorAll('rect'), label].filter(
      (each) => each !== undefined,
    );
    const name =
      element.getAttribute('aria-label') ?? label?.textContent ?? element.textContent ?? '';
    return {
      name: `${element.tagName.toLowerCase()} ${name.trim().slice(0, 60)}`,
      seen: parts.some(ring),
    };
  });
}

const MOST_STOPS = 120;

/** Presses Tab until this has the focus; gives the stops on the way whose focus cannot be seen. */
export async function tabTo(
  page: Page,
  goal: Locator,
  { back = false } = {},
): Promise<readonly string[]> {
  const unseen: string[] = [];
  const stops: string[] = [];
  for (let i = 0; i < MOST_STOPS; i += 1) {
    await page.keyboard.press(back ? 'Shift+Tab' : 'Tab');
    const { name, seen } = await focusOf(page);
    stops.push(name);
    if (!seen) unseen.push(name);
    if (await hasFocus(goal)) return unseen;
  }
  throw new Error(`Tab does not lead there. It led to:\n${stops.join('\n')}`);
}

export async function hasFocus(goal: Locator): Promise<boolean> {
  if ((await goal.count()) !== 1) return false;
  return goal.evaluate((element) => {
    const tree = element.getRootNode() as Document | ShadowRoot;
    return tree.activeElement === element;
  });
}
