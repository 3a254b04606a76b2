import type { KeptEntry } from '../../../wire/run.ts';

/** What other devices write into this record, as it happens. Gives back what ends it. */
export function startFeed(
  run: string,
  after: () => number,
  heard: (kept: readonly KeptEntry[]) => Promise<void>,
  line: (open: boolean) => void,
): () => void {
  let source: EventSource | undefined;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let ended = false;
  const open = (): void => {
    if (ended) return;
    source = new EventSource(`/api/runs/${run}/feed?after=${after()}`);
    source.addEventListener('entries', ({ data }: MessageEvent<string>) => {
      void heard(JSON.parse(data) as KeptEntry[]);
    });
    source.addEventListener('open', () => line(true));
    source.addEventListener('error', () => {
      line(false);
      // The browser takes up a broken line by itself, but gives up after a refusal.
      if (source?.readyState !== EventSource.CLOSED || ended) return;
      clearTimeout(timer);
      timer = setTimeout(open, RETRY_ms);
    });
  };
  open();
  return () => {
    ended = true;
    clearTimeout(timer);
    source?.close();
  };
}

const RETRY_ms = 15_000;
