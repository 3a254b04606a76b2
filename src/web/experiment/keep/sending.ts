import type { ExperimentOpened, NewVersion, Version } from '../../../wire/experiment.ts';
import { Refused } from '../../api/request.ts';
import type { KeeperState } from './keeper-state.ts';
import { onDevice, tell } from './keeper-state.ts';

export interface Sending {
  /** `last`: the page is going away, and the request has to outlive it. */
  readonly send: (given: NewVersion, last: boolean) => Promise<Version>;
  readonly newest: () => Promise<ExperimentOpened>;
}

/** The server has a text as a version. True where something was typed since, and is still to go. */
export function arrived(state: KeeperState, version: Version, asSent: string): boolean {
  state.baseText = asSent;
  state.sent = undefined;
  if (state.text === asSent) {
    state.drafts.drop(state.experiment);
    tell(state, { base: version, keeping: { kind: 'kept' }, onDevice: true });
    return false;
  }
  tell(state, { base: version, keeping: { kind: 'changed' } });
  tell(state, { onDevice: onDevice(state) });
  return true;
}

/** What comes next: nothing, the rest of what was typed, or another try later. */
export type Next = 'nothing' | 'more' | 'later';

/** Sends the text once, and takes in what comes of it. */
export async function sendOnce(state: KeeperState, tools: Sending, last: boolean): Promise<Next> {
  // What may have arrived unheard goes again first: the server knows it for what it has.
  const asSent = state.sent ?? state.text;
  state.sent = asSent;
  onDevice(state);
  tell(state, { keeping: { kind: 'sending' } });
  try {
    const version = await tools.send({ text: asSent, base: state.kept.base.number }, last);
    return arrived(state, version, asSent) ? 'more' : 'nothing';
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    return notSent(state, tools, error, asSent);
  }
}

async function notSent(
  state: KeeperState,
  { newest }: Sending,
  { status, refusal }: Refused,
  asSent: string,
): Promise<Next> {
  if (status === 0 || status >= 500) return later(state);
  if (refusal.code !== 'version-moved') {
    state.sent = undefined;
    tell(state, { keeping: { kind: 'refused', refusal } });
    return 'nothing';
  }
  let theirs: ExperimentOpened;
  try {
    theirs = await newest();
  } catch {
    return later(state);
  }
  // The answer to an earlier try was lost on the way: the newest version is our own.
  if (theirs.text === asSent) return arrived(state, theirs.head, asSent) ? 'more' : 'nothing';
  tell(state, { keeping: { kind: 'moved', theirs } });
  return 'nothing';
}

function later(state: KeeperState): Next {
  tell(state, { keeping: { kind: 'noNetwork' } });
  return 'later';
}
