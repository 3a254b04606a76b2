import { request } from './request.ts';

/** Longer than this after it was begun, an answer is asked for anew: it may be an older one. */
const FRESH_ms = 5000;

interface Begun {
  readonly answer: Promise<unknown>;
  readonly at_ms: number;
}

const begun = new Map<string, Begun>();

/** Asks for what a page will ask for itself once it is there. */
export function askAhead<T>(path: string): Promise<T> {
  const answer = request<T>(path);
  begun.set(path, { answer, at_ms: performance.now() });
  // Whoever asks after a refusal asks the server.
  answer.catch(() => begun.delete(path));
  return answer;
}

/** The answer that was asked for ahead. It is given once, as it is the page's first and no later one. */
export function takeAhead<T>(path: string): Promise<T> | undefined {
  const found = begun.get(path);
  begun.delete(path);
  if (found === undefined || performance.now() - found.at_ms > FRESH_ms) return undefined;
  // The caller of `askAhead` has named the type for the same path.
  return found.answer as Promise<T>;
}
