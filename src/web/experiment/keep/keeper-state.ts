import type { Drafts } from './drafts.ts';
import type { Kept } from './keeping.ts';

/** What a keeper knows at one moment; its functions change it. */
export interface KeeperState {
  readonly experiment: string;
  readonly drafts: Drafts;
  text: string;
  cursor: number;
  /** The text of the version that is gone on from, where it is known. */
  baseText: string | undefined;
  /** A text sent on this very base of which nothing was heard: it may yet turn up as the newest. */
  sent: string | undefined;
  kept: Kept;
  readonly heard: Set<() => void>;
}

export function tell(state: KeeperState, change: Partial<Kept>): void {
  state.kept = { ...state.kept, ...change };
  for (const each of state.heard) each();
}

/** Writes the draft; false where this device has no room. */
export const onDevice = ({ experiment, drafts, text, kept, sent, cursor }: KeeperState): boolean =>
  drafts.write(experiment, {
    text,
    base: kept.base,
    ...(sent !== undefined && { sent }),
    cursor,
  });
