import { useEffect, useState, useSyncExternalStore } from 'react';
import { benchOf } from './outbox/bench.ts';
import type { Bench, BenchState } from './outbox/bench.ts';
import { openBenchDatabase } from './outbox/database.ts';
import { startFeed } from './outbox/feed.ts';
import { startPostman } from './outbox/postman.ts';
import { server } from './outbox/server.ts';

/** A bench record at work: it sends, hears and reads by itself until it is closed. */
export interface OpenBench extends Pick<Bench, 'state' | 'listen' | 'enter'> {
  readonly tryAgain: () => Promise<void>;
  readonly askAgain: () => Promise<void>;
  readonly close: () => void;
}

const RETRY_ms = 15_000;

async function openBench(run: string, lost: () => void): Promise<OpenBench> {
  const database = await openBenchDatabase('weighboat-bench', lost);
  const bench = benchOf(run, database, server);
  const others = new BroadcastChannel(`weighboat-bench ${run}`);
  const changed = <T>(result: T): T => {
    others.postMessage('changed');
    return result;
  };
  others.addEventListener('message', () => void bench.readAgain());
  const postman = startPostman(
    () => bench.send().then(changed),
    () => {},
  );
  let endFeed: (() => void) | undefined;
  let retry: ReturnType<typeof setTimeout> | undefined;
  const ask = async (): Promise<void> => {
    clearTimeout(retry);
    await bench.askServer();
    if (bench.state().way !== 'open') {
      retry = setTimeout(() => void ask(), RETRY_ms);
      return;
    }
    postman.wake();
    endFeed ??= startFeed(
      run,
      () => bench.state().opened?.heardSeq ?? 0,
      (kept) => bench.hear(kept).then(changed),
      (open) => {
        bench.line(open);
        if (open) postman.wake();
      },
    );
  };
  const back = (): void => {
    if (document.visibilityState !== 'visible') return;
    if (bench.state().way === 'open') postman.wake();
    else void ask();
  };
  window.addEventListener('online', back);
  document.addEventListener('visibilitychange', back);
  await bench.readAgain();
  void ask().then(() => postman.wake());
  return {
    state: bench.state,
    listen: bench.listen,
    enter: async (entry, files) => {
      await bench.enter(entry, files);
      changed(undefined);
      postman.wake();
    },
    tryAgain: async () => {
      await bench.tryAgain();
      postman.wake();
    },
    askAgain: ask,
    close: () => {
      postman.stop();
      clearTimeout(retry);
      endFeed?.();
      others.close();
      database.close();
      window.removeEventListener('online', back);
      document.removeEventListener('visibilitychange', back);
    },
  };
}

/** "none" where the browser lets nothing be kept on the device. */
export function useBench(run: string): OpenBench | 'opening' | 'none' {
  const [bench, setBench] = useState<OpenBench | 'opening' | 'none'>('opening');
  const [turn, setTurn] = useState(0);
  useEffect(() => {
    let closed = false;
    let opened: OpenBench | undefined;
    void openBench(run, () => setTurn(turn + 1)).then(
      (made) => {
        opened = made;
        if (closed) made.close();
        else setBench(made);
      },
      () => setBench('none'),
    );
    return () => {
      closed = true;
      opened?.close();
    };
  }, [run, turn]);
  return bench;
}

export const useBenchState = (bench: OpenBench): BenchState =>
  useSyncExternalStore(bench.listen, bench.state);
