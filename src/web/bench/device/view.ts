import { useSyncExternalStore } from 'react';

/** What of a bench record is on the screen; kept in the address, so that back and reload work. */
export type View =
  | { readonly kind: 'begin' }
  | { readonly kind: 'step'; readonly step: string }
  | { readonly kind: 'steps' }
  | { readonly kind: 'entered' };

export function addressOf(view: View): string {
  return view.kind === 'step' ? `#step-${encodeURIComponent(view.step)}` : `#${view.kind}`;
}

/** Undefined for an address that names no view. */
export function viewOf(hash: string): View | undefined {
  const step = /^#step-(.+)$/.exec(hash)?.[1];
  if (step !== undefined) return { kind: 'step', step: decoded(step) };
  const kind = hash.slice(1);
  return kind === 'begin' || kind === 'steps' || kind === 'entered' ? { kind } : undefined;
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

function listen(changed: () => void): () => void {
  window.addEventListener('hashchange', changed);
  return () => window.removeEventListener('hashchange', changed);
}

export const useHash = (): string => useSyncExternalStore(listen, () => window.location.hash);
