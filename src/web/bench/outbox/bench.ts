import type { BenchEntry } from '../../../core/record/entry.ts';
import type { Refusal } from '../../../wire/common.ts';
import type { KeptEntry, Run } from '../../../wire/run.ts';
import { Refused } from '../../api/request.ts';
import type { BenchDatabase, Opened, WaitingFile } from './database.ts';
import { hear, putInOutbox, readDevice, tryAgain } from './outbox.ts';
import type { OnDevice } from './outbox.ts';
import { NOT_LET_IN, sendWaiting } from './send.ts';
import type { Sent } from './send.ts';
import type { Server } from './server.ts';

/** A bench record as the page shows it: what this device has of it, and how it stands with the server. */
export interface BenchState extends OnDevice {
  /** False until the device was read for the first time. */
  readonly read: boolean;
  /** The way to the server when it was last tried. */
  readonly way: 'untried' | 'open' | 'lost' | 'not-let-in';
  /** What the server, or the way to it, said last. */
  readonly refusal?: Refusal & { readonly status: number };
}

export interface Bench {
  readonly state: () => BenchState;
  readonly listen: (changed: () => void) => () => void;
  /** Reads the device, then asks the server; resolves when both were tried. */
  readonly open: () => Promise<void>;
  /** Reads the device again: another tab wrote. */
  readonly readAgain: () => Promise<void>;
  /** Asks the server again for the whole record. */
  readonly askServer: () => Promise<void>;
  /** Resolves when it is on the device's disk. */
  readonly enter: (entry: BenchEntry, files?: readonly NewFile[]) => Promise<void>;
  readonly hear: (kept: readonly KeptEntry[]) => Promise<void>;
  /** The line to the server was made, or broke. */
  readonly line: (open: boolean) => void;
  readonly send: () => Promise<Sent>;
  readonly tryAgain: () => Promise<void>;
}

export type NewFile = Pick<WaitingFile, 'hash' | 'mediaType' | 'bytes'>;

const EMPTY: BenchState = {
  read: false,
  way: 'untried',
  held: [],
  waiting: [],
  files: [],
  elsewhere: [],
};

export function benchOf(run: string, database: BenchDatabase, server: Server): Bench {
  const { state, listen, readAgain, reached, failed } = holderOf(() => readDevice(database, run));
  const heardOf = async (
    kept: readonly KeptEntry[],
    opened: (before: Opened | undefined) => Opened | undefined,
  ): Promise<void> => {
    await hear(database, run, kept, opened);
    await readAgain();
  };
  const askServer = async (): Promise<void> => {
    try {
      const [{ text: _text, kept, ...opened }, sheet, settings] = await Promise.all([
        server.run(run),
        server.sheet(run),
        server.settings(),
      ]);
      await heardOf(kept, (before) => ({
        run: opened satisfies Run,
        sheet,
        settings,
        heardSeq: Math.max(before?.heardSeq ?? 0, lastSeq(kept)),
      }));
      reached();
    } catch (error) {
      failed(error);
    }
  };
  return {
    state,
    listen,
    open: async () => {
      await readAgain();
      await askServer();
    },
    readAgain,
    askServer,
    enter: async (entry, files = []) => {
      await putInOutbox(database, run, entry, files);
      await readAgain();
    },
    hear: async (kept) => {
      await heardOf(
        kept,
        (before) => before && { ...before, heardSeq: Math.max(before.heardSeq, lastSeq(kept)) },
      );
      reached();
    },
    line: (open) => {
      if (open) reached();
      else if (state().way === 'open') failed(undefined);
    },
    send: async () => {
      const had = state().waiting.some(({ refusal }) => refusal === undefined);
      const sent = await sendWaiting(database, run, server);
      await readAgain();
      if (sent.kind !== 'all') failed(sent.refused);
      else if (had) reached();
      // What waited came back over the feed before its own answer was lost: nothing is left to send
      // that would show the way to be open.
      else if (state().way === 'lost') await askServer();
      return sent;
    },
    tryAgain: async () => {
      await tryAgain(database, run);
      await readAgain();
    },
  };
}

/** The state that is shown, and what changes it. */
function holderOf(read: () => Promise<OnDevice>) {
  let state = EMPTY;
  let asked = 0;
  let shown = 0;
  const listeners = new Set<() => void>();
  const set = (change: Partial<BenchState>): void => {
    state = { ...state, ...change };
    for (const changed of listeners) changed();
  };
  return {
    state: () => state,
    listen: (changed: () => void) => {
      listeners.add(changed);
      return () => void listeners.delete(changed);
    },
    /** Of two readings at once the one that began later is shown, whichever ends first. */
    readAgain: async (): Promise<void> => {
      const turn = (asked += 1);
      const device = await read();
      if (turn < shown) return;
      shown = turn;
      set({ ...device, read: true });
    },
    reached: (): void => {
      if (state.way === 'open') return;
      const { refusal: _refusal, ...rest } = state;
      state = rest;
      set({ way: 'open' });
    },
    failed: (error: unknown): void => {
      const { status, refusal } = error instanceof Refused ? error : { status: 0, refusal: SLOW };
      const way = NOT_LET_IN.has(status) ? 'not-let-in' : 'lost';
      set({ way, refusal: { ...refusal, status } });
    },
  };
}

const lastSeq = (kept: readonly KeptEntry[]): number =>
  kept.reduce((last, { seq }) => Math.max(last, seq), 0);

const SLOW: Refusal = {
  code: 'no-answer',
  message: 'Weighboat does not answer.',
  hint: 'The network may be weak. What you enter is kept on this device.',
};
