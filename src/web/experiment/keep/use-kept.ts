import { useEffect, useSyncExternalStore } from 'react';
import type { Desk } from '../desk.ts';
import type { LateKeeper } from './after-paint.ts';
import type { Kept } from './keeping.ts';

/** Keeps what is on the desk: at every change, when the page is hidden, when the network is back. */
export function useKept(desk: Desk, keeper: LateKeeper): Kept {
  useEffect(() => {
    const end = desk.subscribe(({ enacted, cursor }, before) => {
      if (enacted.text !== before.enacted.text) keeper.changed(enacted.text, cursor);
    });
    const last = () => {
      if (document.visibilityState === 'hidden') void keeper.sendNow(true);
    };
    const again = () => void keeper.sendNow();
    document.addEventListener('visibilitychange', last);
    window.addEventListener('pagehide', last);
    // Whatever follows, or does not: what was typed is on this device.
    window.addEventListener('pagehide', keeper.flush);
    window.addEventListener('beforeunload', keeper.flush);
    window.addEventListener('online', again);
    return () => {
      end();
      document.removeEventListener('visibilitychange', last);
      window.removeEventListener('pagehide', last);
      window.removeEventListener('pagehide', keeper.flush);
      window.removeEventListener('beforeunload', keeper.flush);
      window.removeEventListener('online', again);
      // To another page of ours: the text goes now, not after the pause.
      void keeper.sendNow().finally(() => keeper.stop());
    };
  }, [desk, keeper]);
  return useSyncExternalStore(keeper.subscribe, keeper.now);
}
