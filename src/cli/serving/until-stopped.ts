/**
 * Resolves at the first request to stop (Ctrl+C, or the system's); a second one no longer waits for
 * what is under way.
 */
export function untilStopped(): Promise<void> {
  return new Promise((resolve) => {
    let asked = false;
    const stop = (): void => {
      if (asked) process.exit(130);
      asked = true;
      resolve();
    };
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, stop);
  });
}

/** Calls at each Enter, where somebody sits at a terminal. Gives back what ends it. */
export function onEnter(heard: () => void): () => void {
  const { stdin } = process;
  if (!stdin.isTTY) return () => undefined;
  stdin.on('data', heard);
  return () => {
    stdin.off('data', heard);
    stdin.pause();
  };
}
