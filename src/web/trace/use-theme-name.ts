import { useSyncExternalStore } from 'react';

function subscribe(changed: () => void): () => void {
  const watch = new MutationObserver(changed);
  watch.observe(document.documentElement, { attributeFilter: ['data-theme'] });
  return () => watch.disconnect();
}

const now = () => (document.documentElement.dataset['theme'] === 'dark' ? 'dark' : 'light');

/** Light or dark, as the page is now. */
export function useThemeName(): 'light' | 'dark' {
  return useSyncExternalStore(subscribe, now);
}
