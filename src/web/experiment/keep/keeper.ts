import type { ExperimentOpened, Version } from '../../../wire/experiment.ts';
import type { Drafts } from './drafts.ts';
import type { KeeperState } from './keeper-state.ts';
import { onDevice, tell } from './keeper-state.ts';
import type { Kept, Keeping } from './keeping.ts';
import { arrived, sendOnce } from './sending.ts';
import type { Sending } from './sending.ts';

export interface KeeperTools extends Sending {
  readonly drafts: Drafts;
  readonly pause_ms: number;
  readonly retry_ms: number;
}

export interface KeeperStart {
  readonly experiment: string;
  readonly base: Version;
  /** The text of `base`, where it is known. */
  readonly baseText: string | undefined;
  readonly text: string;
  readonly cursor: number;
  readonly sent?: string;
  readonly moved?: ExperimentOpened;
}

export interface Keeper {
  readonly now: () => Kept;
  readonly subscribe: (heard: () => void) => () => void;
  /** At every change of the text. */
  readonly changed: (text: string, cursor: number) => void;
  /** Without waiting for the pause; `last` as in `Sending.send`. */
  readonly sendNow: (last?: boolean) => Promise<void>;
  /** Once nothing is left to send, or it cannot be sent now: the version that holds the text. */
  readonly settled: () => Promise<Version | undefined>;
  /** After "version-moved": what stands here becomes the version after theirs. */
  readonly keepMine: () => Promise<void>;
  /** After "version-moved": goes on from theirs, whose text the caller puts in the editor. */
  readonly takeTheirs: () => void;
  /** The same version under another name. */
  readonly renamed: (version: Version) => void;
  readonly stop: () => void;
}

function stateOf(start: KeeperStart, drafts: Drafts): KeeperState {
  const { experiment, base, baseText, text, cursor, sent, moved } = start;
  const keeping: Keeping =
    moved !== undefined
      ? { kind: 'moved', theirs: moved }
      : { kind: text === baseText ? 'kept' : 'changed' };
  const kept = { base, keeping, onDevice: true };
  return { experiment, drafts, text, cursor, baseText, sent, kept, heard: new Set() };
}

/** Takes in a change; true where it is to be sent after a pause. */
function changed(state: KeeperState, text: string, cursor: number): boolean {
  state.text = text;
  state.cursor = cursor;
  const before = state.kept;
  const held = onDevice(state);
  const waits = before.keeping.kind === 'moved' || before.keeping.kind === 'sending';
  const keeping: Keeping = waits ? before.keeping : { kind: 'changed' };
  if (held !== before.onDevice || keeping.kind !== before.keeping.kind)
    tell(state, { onDevice: held, keeping });
  return !waits;
}

/** The version that someone else saved becomes the one that is gone on from. */
function onTheirs(state: KeeperState): ExperimentOpened | undefined {
  const { keeping } = state.kept;
  if (keeping.kind !== 'moved') return undefined;
  state.baseText = keeping.theirs.text;
  state.sent = undefined;
  return keeping.theirs;
}

/**
 * Keeps a text without being asked: on this device at every key, as a version after a pause. One
 * request is under way at a time; what was typed meanwhile follows it.
 */
export function makeKeeper(start: KeeperStart, tools: KeeperTools): Keeper {
  const state = stateOf(start, tools.drafts);
  const { pause_ms, retry_ms } = tools;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let under: Promise<void> | undefined;
  let stopped = false;
  const wait = (ms: number): void => {
    clearTimeout(timer);
    if (!stopped) timer = setTimeout(() => void sendNow(), ms);
  };
  const goOn = async (last: boolean) => {
    const next = await sendOnce(state, tools, last);
    if (next !== 'nothing') wait(next === 'more' ? pause_ms : retry_ms);
  };

  async function sendNow(last = false): Promise<void> {
    clearTimeout(timer);
    if (under !== undefined) {
      await under;
      return state.kept.keeping.kind === 'changed' ? sendNow(last) : undefined;
    }
    const { kind } = state.kept.keeping;
    if (kind === 'moved' || kind === 'kept') return;
    if (state.text === state.baseText && state.sent === undefined) {
      arrived(state, state.kept.base, state.text);
      return;
    }
    under = goOn(last).finally(() => {
      under = undefined;
    });
    await under;
  }

  if (state.kept.keeping.kind === 'changed') wait(pause_ms);
  return {
    now: () => state.kept,
    subscribe(each) {
      state.heard.add(each);
      return () => state.heard.delete(each);
    },
    changed(text, cursor) {
      if (changed(state, text, cursor)) wait(pause_ms);
    },
    sendNow,
    async settled() {
      await sendNow();
      return state.kept.keeping.kind === 'kept' ? state.kept.base : undefined;
    },
    async keepMine() {
      const theirs = onTheirs(state);
      if (theirs === undefined) return;
      tell(state, { base: theirs.head, keeping: { kind: 'changed' } });
      await sendNow();
    },
    takeTheirs() {
      const theirs = onTheirs(state);
      if (theirs === undefined) return;
      state.text = theirs.text;
      arrived(state, theirs.head, theirs.text);
    },
    renamed(version) {
      if (version.number === state.kept.base.number) tell(state, { base: version });
    },
    stop() {
      stopped = true;
      clearTimeout(timer);
    },
  };
}
