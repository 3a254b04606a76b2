import type { Page } from 'playwright-core';
import { KEYSTROKE } from '../src/web/experiment/keystroke.ts';

/** What a page has measured of the keys pressed in it. */
export interface Probed {
  /** From the time that the browser gives the key to the end of the frame after it. */
  readonly frames_ms: readonly number[];
  /** The part of it that is over when the frame begins: the page's work on the key itself. */
  readonly begun_ms: readonly number[];
  /** What the page has measured itself. */
  readonly own_ms: readonly number[];
  /** Of the Event Timing API: to the next picture, in steps of 8 ms, only those over 16 ms. */
  readonly slow_ms: readonly number[];
}

interface Probing {
  readonly weighboatProbe: Probed & { readonly frames_ms: number[] };
}

/**
 * Measures keys from now on, the same way in whatever page it is put. A listener before all others
 * takes the key's own time; the frame after it is at its end when a task that was posted in it runs.
 */
export async function probe(page: Page): Promise<void> {
  await page.evaluate(() => {
    const frames_ms: number[] = [];
    const begun_ms: number[] = [];
    const slow_ms: number[] = [];
    Object.assign(window, { weighboatProbe: { frames_ms, begun_ms, slow_ms } });
    window.addEventListener(
      'keydown',
      ({ timeStamp }) =>
        requestAnimationFrame(() => {
          begun_ms.push(performance.now() - timeStamp);
          const { port1, port2 } = new MessageChannel();
          port1.addEventListener('message', () => {
            frames_ms.push(performance.now() - timeStamp);
            port1.close();
          });
          port1.start();
          port2.postMessage(0);
        }),
      { capture: true },
    );
    new PerformanceObserver((list) => {
      for (const { name, duration } of list.getEntries())
        if (name === 'keydown') slow_ms.push(duration);
    }).observe({ type: 'event', durationThreshold: 16 } as PerformanceObserverInit);
  });
}

export async function probed(page: Page): Promise<Probed> {
  return page.evaluate((name) => {
    const { frames_ms, begun_ms, slow_ms } = (window as unknown as Probing).weighboatProbe;
    const own_ms = performance.getEntriesByName(name).map(({ duration }) => duration);
    return { frames_ms, begun_ms, slow_ms, own_ms };
  }, KEYSTROKE);
}
