import { useSyncExternalStore } from 'react';

function listen(changed: () => void): () => void {
  window.addEventListener('online', changed);
  window.addEventListener('offline', changed);
  return () => {
    window.removeEventListener('online', changed);
    window.removeEventListener('offline', changed);
  };
}

/** Whether the browser thinks that there is a network; it is surer of "no" than of "yes". */
export function useOnline(): boolean {
  return useSyncExternalStore(listen, () => navigator.onLine);
}
