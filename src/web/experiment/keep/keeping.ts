import type { Refusal } from '../../../wire/common.ts';
import type { ExperimentOpened, Version } from '../../../wire/experiment.ts';
import type { Draft } from './drafts.ts';

/** How far what is written has been kept. */
export type Keeping =
  /** The newest version is what stands in the editor. */
  | { readonly kind: 'kept' }
  /** Kept on this device, not yet a version. */
  | { readonly kind: 'changed' }
  | { readonly kind: 'sending' }
  /** The server cannot be reached; it is tried again. */
  | { readonly kind: 'noNetwork' }
  /** Someone saved another version meanwhile. Nothing is sent until the person has chosen. */
  | { readonly kind: 'moved'; readonly theirs: ExperimentOpened }
  | { readonly kind: 'refused'; readonly refusal: Refusal };

export interface Kept {
  /** The version that the editor's text goes on from. */
  readonly base: Version;
  readonly keeping: Keeping;
  /** False where not even this device could keep the last change. */
  readonly onDevice: boolean;
}

/** What to do with a draft found when an experiment is opened. */
export type Start =
  | { readonly kind: 'fresh'; readonly text: string }
  | { readonly kind: 'goOn'; readonly text: string; readonly cursor: number }
  | { readonly kind: 'moved'; readonly text: string; readonly cursor: number };

/**
 * Where to begin: at the newest version; or at the draft, if it holds more. A draft whose base is no
 * longer the newest version is a question for the person, unless the newest is what this device sent.
 */
export function startOf(
  head: { readonly number: number; readonly text: string },
  draft: Draft | undefined,
): Start {
  if (draft === undefined || draft.text === head.text) return { kind: 'fresh', text: head.text };
  const { text, cursor } = draft;
  const own = draft.base.number === head.number || draft.sent === head.text;
  return own ? { kind: 'goOn', text, cursor } : { kind: 'moved', text, cursor };
}

/** A text sent on the newest version of which nothing was heard: it goes again before anything else. */
export const unheard = (head: number, draft: Draft | undefined): { readonly sent?: string } =>
  draft?.sent !== undefined && draft.base.number === head ? { sent: draft.sent } : {};
