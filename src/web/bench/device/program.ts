/** Whether this browser, at this address, can keep the page itself: not without https, but on the computer that serves it. */
export const canKeepProgram = (): boolean => 'serviceWorker' in navigator;

/** Lets the page open without a network from the next time on, and asks that it is not cleared away. */
export async function keepProgram(): Promise<void> {
  if (!canKeepProgram()) return;
  try {
    await navigator.serviceWorker.register('/sw.js', { scope: '/bench/' });
    await (navigator.storage as StorageManager | undefined)?.persist?.();
  } catch {
    // Everything else works without.
  }
}
