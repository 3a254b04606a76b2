/** What a page has to keep to at every width. Both run in the browser. */
import type { Page } from 'playwright-core';

/** By how many pixels the page, and not one of its strips, can be moved sideways. */
export function overhang_px(page: Page): Promise<number> {
  return page.evaluate(() =>
    Math.max(0, (document.scrollingElement?.scrollWidth ?? 0) - window.innerWidth),
  );
}

/**
 * Targets smaller than `least_px` square, with the exceptions of WCAG 2.2 (2.5.8): a link within a
 * sentence, a control as the browser makes it, and, up to 24 px, one with room around it.
 */
export function smallTargets(page: Page, least_px: number): Promise<string[]> {
  return page.evaluate((least) => {
    const room = 24;
    const wanted =
      'a[href], button, input, select, textarea, summary, [role=button], [role=textbox]';
    const seen = (element: Element): boolean =>
      element.checkVisibility({ checkOpacity: true, checkVisibilityCSS: true }) &&
      element.getBoundingClientRect().width > 1;
    /** A box that is ticked is as large as the label that ticks it. */
    const boxOf = (element: Element): DOMRect => {
      const { labels, type } = element as HTMLInputElement;
      const own = element.getBoundingClientRect();
      const label = /^(?:checkbox|radio|file)$/.test(type) ? labels?.[0] : undefined;
      const box = label?.getBoundingClientRect();
      return box === undefined || box.width < own.width ? own : box;
    };
    const inSentence = (element: Element): boolean =>
      getComputedStyle(element).display.startsWith('inline') &&
      [...(element.parentElement?.childNodes ?? [])].some(
        (node) => node.nodeType === Node.TEXT_NODE && /\S/.test(node.textContent ?? ''),
      );
    const targets = [...document.querySelectorAll(wanted)].filter((element) =>
      (element as HTMLInputElement).type === 'file'
        ? (element as HTMLInputElement).labels?.length !== 0 && seen(element.parentElement!)
        : seen(element) && !element.hasAttribute('disabled'),
    );
    const boxes = new Map(targets.map((element) => [element, boxOf(element)]));
    const small = targets.filter((element) => {
      const { width, height } = boxes.get(element)!;
      return Math.min(width, height) < least - 0.5 && !inSentence(element);
    });
    const middle = ({ left, top, width, height }: DOMRect) => ({
      x: left + width / 2,
      y: top + height / 2,
    });
    const crowded = (element: Element): boolean => {
      const { x, y } = middle(boxes.get(element)!);
      return targets.some((other) => {
        if (other === element || other.contains(element) || element.contains(other)) return false;
        const box = boxes.get(other)!;
        if (small.includes(other)) {
          const at = middle(box);
          return Math.hypot(at.x - x, at.y - y) < room;
        }
        const dx = Math.max(box.left - x, 0, x - box.right);
        const dy = Math.max(box.top - y, 0, y - box.bottom);
        return Math.hypot(dx, dy) < room / 2;
      });
    };
    return small
      .filter((element) => least > room || crowded(element))
      .map((element) => {
        const { width, height } = boxes.get(element)!;
        const name = element.getAttribute('aria-label') ?? element.textContent ?? '';
        return `${element.tagName.toLowerCase()} “${name.trim().slice(0, 40)}” ${width.toFixed(0)} × ${height.toFixed(0)}`;
      });
  }, least_px);
}
