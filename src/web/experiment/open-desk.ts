import type { ExperimentOpened } from '../../wire/experiment.ts';
import { newest, saveVersion } from '../api/deeds.ts';
import type { Desk } from './desk.ts';
import { makeDesk } from './desk.ts';
import type { Drafts } from './keep/drafts.ts';
import { afterFrame } from './after-frame.ts';
import { afterPaint } from './keep/after-paint.ts';
import type { LateKeeper } from './keep/after-paint.ts';
import { makeKeeper } from './keep/keeper.ts';
import { startOf, unheard } from './keep/keeping.ts';

const PAUSE_ms = 1200;
const RETRY_ms = 10_000;

export interface Opened {
  readonly desk: Desk;
  readonly keeper: LateKeeper;
}

/** A page that is not seen is not painted either. */
const painted = (then: () => void): void =>
  document.visibilityState === 'hidden' ? then() : afterFrame(then);

/** The newest version, or the draft that goes on from it, on the desk and with a keeper. */
export function openDesk(
  experiment: string,
  head: ExperimentOpened | undefined,
  drafts: Drafts,
): Opened | undefined {
  const draft = drafts.read(experiment);
  const tools = {
    drafts,
    send: (given: Parameters<typeof saveVersion>[1], last: boolean) =>
      saveVersion(experiment, given, last),
    newest: () => newest(experiment),
    pause_ms: PAUSE_ms,
    retry_ms: RETRY_ms,
  };
  if (head === undefined) {
    if (draft === undefined) return undefined;
    const { text, cursor, base, sent } = draft;
    const start = { experiment, base, baseText: undefined, text, cursor };
    return {
      desk: makeDesk(text, cursor),
      keeper: afterPaint(
        makeKeeper({ ...start, ...(sent !== undefined && { sent }) }, tools),
        painted,
      ),
    };
  }
  const start = startOf({ number: head.head.number, text: head.text }, draft);
  if (start.kind === 'fresh') drafts.drop(experiment);
  const cursor = start.kind === 'fresh' ? 0 : start.cursor;
  const moved = start.kind === 'moved' && draft !== undefined;
  return {
    desk: makeDesk(start.text, cursor),
    keeper: afterPaint(
      makeKeeper(
        {
          experiment,
          base: moved ? draft.base : head.head,
          baseText: moved ? undefined : head.text,
          text: start.text,
          cursor,
          ...unheard(head.head.number, draft),
          ...(moved && { moved: head }),
        },
        tools,
      ),
      painted,
    ),
  };
}
