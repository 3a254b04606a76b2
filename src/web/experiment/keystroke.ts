import { afterFrame } from './after-frame.ts';

/** What a benchmark reads: from the key that was pressed to the frame that shows its consequence. */
export const KEYSTROKE = 'weighboat:keystroke';

/** A change that comes later was not made by that key. */
const LATEST_ms = 1000;

let pressed: number | undefined;

/** The time at which the browser took the key. */
export function keyPressed(event: Event): void {
  pressed = event.timeStamp;
}

/** After the picture was changed: measures once the frame with the change is painted. */
export function shownAfterKey(): void {
  const start = pressed;
  pressed = undefined;
  if (start === undefined || performance.now() - start > LATEST_ms) return;
  afterFrame(() => performance.measure(KEYSTROKE, { start, end: performance.now() }));
}
