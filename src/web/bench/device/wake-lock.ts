import { useEffect } from 'react';

const screenLock = (): WakeLock | undefined =>
  (navigator as { readonly wakeLock?: WakeLock }).wakeLock;

/** Whether this browser, at this address, can keep the screen on. */
export const canStayAwake = (): boolean => screenLock() !== undefined;

/** Keeps the screen on while `wanted`. The system lets go when the page is hidden; then it is asked again. */
export function useWakeLock(wanted: boolean): void {
  useEffect(() => {
    if (!wanted) return undefined;
    let held: WakeLockSentinel | undefined;
    let over = false;
    const ask = async (): Promise<void> => {
      if (document.visibilityState !== 'visible') return;
      // Refused at a low battery, for one.
      const got = await screenLock()
        ?.request('screen')
        .catch(() => undefined);
      if (over) void got?.release();
      else held = got;
    };
    const again = () => void ask();
    again();
    document.addEventListener('visibilitychange', again);
    return () => {
      over = true;
      document.removeEventListener('visibilitychange', again);
      void held?.release();
    };
  }, [wanted]);
}
