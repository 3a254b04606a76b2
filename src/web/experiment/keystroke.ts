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
  requestAnimationFrame(() => {
    // A task posted from the frame runs when the frame is done.
    const channel = new MessageChannel();
    channel.port1.addEventListener('message', () => {
      performance.measure(KEYSTROKE, { start, end: performance.now() });
      channel.port1.close();
    });
    channel.port1.start();
    channel.port2.postMessage(0);
  });
}
