import { useSyncExternalStore } from 'react';

const isDark = () => document.documentElement.dataset['theme'] === 'dark';

function listen(changed: () => void): () => void {
  const watching = new MutationObserver(changed);
  watching.observe(document.documentElement, { attributeFilter: ['data-theme'] });
  return () => watching.disconnect();
}

/** Whether the page is dark now, for pictures that come in one ink. */
export const useDark = (): boolean => useSyncExternalStore(listen, isDark);
