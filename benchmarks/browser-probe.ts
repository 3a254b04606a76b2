import type { Page } from 'playwright-core';
import { KEYSTROKE } from '../src/web/experiment/keystroke.ts';

/** What a page has measured of the keys pressed in it. */
export interface Probed {
  /** From the time that the browser gives the key to the end of the frame after it. */
  readonly frames_ms: readonly number[];
  /** The part of it that is work of the page, before the frame is waited for. */
  readonly work_ms: readonly number[];
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
    const work_ms: number[] = [];
    const slow_ms: number[] = [];
    Object.assign(window, { weighboatProbe: { frames_ms, work_ms, slow_ms } });
    const after = (task: () => void) => {
      const { port1, port2 } = new MessageChannel();
      port1.addEventListener('message', () => {
        task();
        port1.close();
      });
      port1.start();
      port2.postMessage(0);
    };
    window.addEventListener(
      'keydown',
      ({ timeStamp }) => {
        const begun = performance.now();
        // The key has been dealt with when the next task runs: the text is changed in between.
        after(() => work_ms.push(performance.now() - begun));
        requestAnimationFrame(() => after(() => frames_ms.push(performance.now() - timeStamp)));
      },
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
    const { frames_ms, work_ms, slow_ms } = (window as unknown as Probing).weighboatProbe;
    const own_ms = performance.getEntriesByName(name).map(({ duration }) => duration);
    return { frames_ms, work_ms, slow_ms, own_ms };
  }, KEYSTROKE);
}
