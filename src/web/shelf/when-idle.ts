/** For a browser that does not tell when it has nothing to do. */
const LATER_ms = 2000;

/** Calls back once the browser has nothing to do; what it gives back calls it off. */
export function whenIdle(work: () => void): () => void {
  if (typeof requestIdleCallback === 'function') {
    const asked = requestIdleCallback(work);
    return () => cancelIdleCallback(asked);
  }
  const timer = setTimeout(work, LATER_ms);
  return () => clearTimeout(timer);
}
