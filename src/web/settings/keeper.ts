import type { Settings } from '../../wire/settings.ts';
import { Refused } from '../api/request.ts';
import { formOf, hasPending, settingsOf } from './form.ts';
import type { Form } from './form.ts';
import { mergeSettings } from './merge.ts';

export type Keeping =
  | { readonly kind: 'untouched' }
  | { readonly kind: 'keeping' }
  | { readonly kind: 'kept' }
  /** On this device alone; tried again by itself. */
  | { readonly kind: 'no-network' }
  | { readonly kind: 'refused'; readonly message: string };

export interface SettingsState {
  readonly form: Form;
  readonly keeping: Keeping;
}

export interface KeeperTools {
  read(): Promise<Settings>;
  write(settings: Settings): Promise<unknown>;
  readonly storage: Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;
  changed(state: SettingsState): void;
}

interface Draft {
  readonly form: Form;
  /** What was kept when this page began to change it. */
  readonly base: Settings;
}

const KEY = 'weighboat.settings-draft';
const PAUSE_ms = 500;
const RETRY_ms = 5_000;

function draftIn(storage: KeeperTools['storage']): Draft | undefined {
  try {
    return (JSON.parse(storage.getItem(KEY) ?? 'null') as Draft | null) ?? undefined;
  } catch {
    return undefined;
  }
}

interface Work {
  state: SettingsState;
  base: Settings;
  timer: ReturnType<typeof setTimeout> | undefined;
  busy: boolean;
  stopped: boolean;
  readonly tools: KeeperTools;
}

/**
 * Keeps what is typed without being asked: on this device at once, on the server after a pause.
 * What could not be kept, or is not whole yet, is there again after a reload.
 */
export function settingsKeeper(kept: Settings, tools: KeeperTools) {
  const draft = draftIn(tools.storage);
  const work: Work = {
    state: { form: startingForm(kept, draft), keeping: { kind: 'untouched' } },
    // What came from others since the draft is in the form already.
    base: kept,
    timer: undefined,
    busy: false,
    stopped: false,
    tools,
  };
  return {
    hasDraft: draft !== undefined,
    state: () => work.state,
    keepNow: () => keepNow(work),
    change(form: Form): void {
      show(work, { form, keeping: { kind: 'keeping' } });
      writeDraft(work);
      keepLater(work, PAUSE_ms);
    },
    /** The page is left: what waits is sent at once. */
    stop(): void {
      work.stopped = true;
      if (work.state.keeping.kind !== 'kept') void keepNow(work);
    },
  };
}

function startingForm(kept: Settings, draft: Draft | undefined): Form {
  if (draft === undefined) return formOf(kept);
  const mine = settingsOf(draft.form, draft.base);
  return formOf(mergeSettings(kept, mine, draft.base), draft.form);
}

function show(work: Work, next: Partial<SettingsState>): void {
  work.state = { ...work.state, ...next };
  if (!work.stopped) work.tools.changed(work.state);
}

function keepLater(work: Work, pause_ms: number): void {
  clearTimeout(work.timer);
  work.timer = setTimeout(() => void keepNow(work), pause_ms);
}

function writeDraft({ state: { form }, base, tools }: Work): void {
  tools.storage.setItem(KEY, JSON.stringify({ form, base } satisfies Draft));
}

const same = (a: Settings, b: Settings) => JSON.stringify(a) === JSON.stringify(b);

async function keepNow(work: Work): Promise<void> {
  clearTimeout(work.timer);
  if (work.busy) return keepLater(work, PAUSE_ms);
  const { form } = work.state;
  const mine = settingsOf(form, work.base);
  if (same(mine, work.base)) return settled(work, form, mine, mine);
  work.busy = true;
  show(work, { keeping: { kind: 'keeping' } });
  try {
    const merged = mergeSettings(await work.tools.read(), mine, work.base);
    await work.tools.write(merged);
    settled(work, form, mine, merged);
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    const { code, message } = error.refusal;
    const lost = code === 'no-network';
    show(work, { keeping: lost ? { kind: 'no-network' } : { kind: 'refused', message } });
    if (lost && !work.stopped) keepLater(work, RETRY_ms);
  } finally {
    work.busy = false;
  }
}

/** `mine` was sent as `merged`; meanwhile one may have typed on. */
function settled(work: Work, sent: Form, mine: Settings, merged: Settings): void {
  work.base = merged;
  const moved = work.state.form !== sent;
  const form = moved || same(merged, mine) ? work.state.form : formOf(merged, sent);
  show(work, { form, keeping: { kind: moved ? 'keeping' : 'kept' } });
  if (moved || hasPending(form)) writeDraft(work);
  else work.tools.storage.removeItem(KEY);
}
