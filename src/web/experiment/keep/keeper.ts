import type { ExperimentOpened, NewVersion, Version } from '../../../wire/experiment.ts';
import { Refused } from '../../api/request.ts';
import type { Drafts } from './drafts.ts';
import type { Kept, Keeping } from './keeping.ts';

export interface KeeperTools {
  readonly drafts: Drafts;
  /** `last`: the page is going away, and the request has to outlive it. */
  readonly send: (given: NewVersion, last: boolean) => Promise<Version>;
  readonly newest: () => Promise<ExperimentOpened>;
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
  /** Without waiting for the pause; `last` as in `KeeperTools.send`. */
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

/**
 * Keeps a text without being asked: on this device at every key, as a version after a pause. One
 * request is under way at a time; what was typed meanwhile follows it.
 */
export function makeKeeper(start: KeeperStart, tools: KeeperTools): Keeper {
  const { drafts, pause_ms, retry_ms } = tools;
  let text = start.text;
  let cursor = start.cursor;
  let baseText = start.baseText;
  // Only a text sent on this very base can still turn up as the newest version.
  let sent = start.sent;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let under: Promise<void> | undefined;
  let stopped = false;
  const heard = new Set<() => void>();
  let kept: Kept = { base: start.base, keeping: { kind: 'kept' }, onDevice: true };

  const set = (change: Partial<Kept>): void => {
    kept = { ...kept, ...change };
    for (const each of heard) each();
  };
  const wait = (ms: number): void => {
    clearTimeout(timer);
    if (!stopped) timer = setTimeout(() => void sendNow(), ms);
  };
  const onDevice = (): boolean =>
    drafts.write(start.experiment, {
      text,
      base: kept.base,
      ...(sent !== undefined && { sent }),
      cursor,
    });

  function changed(next: string, at: number): void {
    text = next;
    cursor = at;
    const held = onDevice();
    const keeping: Keeping =
      kept.keeping.kind === 'moved' || kept.keeping.kind === 'sending'
        ? kept.keeping
        : { kind: 'changed' };
    if (held !== kept.onDevice || keeping.kind !== kept.keeping.kind)
      set({ onDevice: held, keeping });
    if (keeping.kind === 'changed') wait(pause_ms);
  }

  /** The server has `text` as `version`; anything typed since goes on from there. */
  function arrived(version: Version, asSent: string): void {
    baseText = asSent;
    sent = undefined;
    if (text === asSent) {
      drafts.drop(start.experiment);
      set({ base: version, keeping: { kind: 'kept' }, onDevice: true });
      return;
    }
    set({ base: version, keeping: { kind: 'changed' } });
    set({ onDevice: onDevice() });
    wait(pause_ms);
  }

  async function sendOnce(last: boolean): Promise<void> {
    // What may have arrived unheard goes again first: the server knows it for what it has.
    const asSent = sent ?? text;
    sent = asSent;
    onDevice();
    set({ keeping: { kind: 'sending' } });
    try {
      arrived(await tools.send({ text: asSent, base: kept.base.number }, last), asSent);
    } catch (error) {
      await notSent(error, asSent);
    }
  }

  async function notSent(error: unknown, asSent: string): Promise<void> {
    if (!(error instanceof Refused)) throw error;
    if (error.status === 0 || error.status >= 500) return later();
    if (error.refusal.code !== 'version-moved') {
      sent = undefined;
      return set({ keeping: { kind: 'refused', refusal: error.refusal } });
    }
    try {
      const theirs = await tools.newest();
      // The answer to an earlier try was lost on the way: the newest version is our own.
      if (theirs.text === asSent) arrived(theirs.head, asSent);
      else set({ keeping: { kind: 'moved', theirs } });
    } catch {
      later();
    }
  }

  function later(): void {
    set({ keeping: { kind: 'noNetwork' } });
    wait(retry_ms);
  }

  async function sendNow(last = false): Promise<void> {
    clearTimeout(timer);
    if (under !== undefined) {
      await under;
      return kept.keeping.kind === 'changed' ? sendNow(last) : undefined;
    }
    if (kept.keeping.kind === 'moved' || kept.keeping.kind === 'kept') return;
    if (text === baseText && sent === undefined) return arrived(kept.base, text);
    under = sendOnce(last).finally(() => {
      under = undefined;
    });
    await under;
  }

  async function settled(): Promise<Version | undefined> {
    await sendNow();
    return kept.keeping.kind === 'kept' ? kept.base : undefined;
  }

  async function keepMine(): Promise<void> {
    if (kept.keeping.kind !== 'moved') return;
    const { theirs } = kept.keeping;
    baseText = theirs.text;
    sent = undefined;
    set({ base: theirs.head, keeping: { kind: 'changed' } });
    await sendNow();
  }

  function takeTheirs(): void {
    if (kept.keeping.kind !== 'moved') return;
    const { theirs } = kept.keeping;
    text = theirs.text;
    arrived(theirs.head, theirs.text);
  }

  if (start.moved !== undefined)
    kept = { ...kept, keeping: { kind: 'moved', theirs: start.moved } };
  else if (text !== baseText) {
    kept = { ...kept, keeping: { kind: 'changed' } };
    wait(pause_ms);
  }
  return {
    now: () => kept,
    subscribe(each) {
      heard.add(each);
      return () => heard.delete(each);
    },
    changed,
    sendNow,
    settled,
    keepMine,
    takeTheirs,
    renamed: (version) => {
      if (version.number === kept.base.number) set({ base: version });
    },
    stop() {
      stopped = true;
      clearTimeout(timer);
    },
  };
}
