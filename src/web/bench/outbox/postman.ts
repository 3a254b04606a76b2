import type { Sent } from './send.ts';

export interface Postman {
  /** There may be something to send, or a way to send it. */
  readonly wake: () => void;
  readonly stop: () => void;
}

const FIRST_ms = 1_000;
const LONGEST_ms = 60_000;

/**
 * Sends now, and after a failure again and again with growing pauses; one round at a time, however
 * often it is woken. `locked` keeps a second tab from sending the same meanwhile.
 */
export function startPostman(
  send: () => Promise<Sent>,
  told: (sent: Sent) => void,
  locked: (work: () => Promise<void>) => Promise<void> = inOneTab,
): Postman {
  let pause_ms = FIRST_ms;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let busy = false;
  let wokenMeanwhile = false;
  let stopped = false;

  const round = async (): Promise<void> => {
    const sent = await send().catch((): Sent => ({ kind: 'later' }));
    if (stopped) return;
    told(sent);
    if (sent.kind === 'all') pause_ms = FIRST_ms;
    else {
      timer = setTimeout(wake, pause_ms);
      pause_ms = Math.min(LONGEST_ms, pause_ms * 2);
    }
  };
  const work = async (): Promise<void> => {
    busy = true;
    do {
      wokenMeanwhile = false;
      clearTimeout(timer);
      await locked(round);
    } while (wokenMeanwhile && !stopped);
    busy = false;
  };
  const wake = (): void => {
    if (stopped) return;
    wokenMeanwhile = true;
    if (!busy) void work();
  };
  const stop = (): void => {
    stopped = true;
    clearTimeout(timer);
  };
  return { wake, stop };
}

/** Where there are no locks (an address without https), the ids keep doubles harmless. */
function inOneTab(work: () => Promise<void>): Promise<void> {
  const { locks } = navigator as { readonly locks?: LockManager };
  return locks === undefined ? work() : locks.request('weighboat-outbox', work);
}
