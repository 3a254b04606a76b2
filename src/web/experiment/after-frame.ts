/** Calls back once the next frame is painted: a task posted from a frame runs when it is done. */
export function afterFrame(done: () => void): void {
  requestAnimationFrame(() => {
    const channel = new MessageChannel();
    channel.port1.addEventListener('message', () => {
      channel.port1.close();
      done();
    });
    channel.port1.start();
    channel.port2.postMessage(0);
  });
}
