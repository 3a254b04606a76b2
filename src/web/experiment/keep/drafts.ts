import type { Version } from '../../../wire/experiment.ts';

/** A text that is not yet a version, kept on this device after the frame of every key. */
export interface Draft {
  readonly text: string;
  /** The version that was being edited. */
  readonly base: Version;
  /** What was last sent on that base: it may have arrived although nobody heard of it. */
  readonly sent?: string;
  /** Where the cursor stood. */
  readonly cursor: number;
}

export interface Drafts {
  read(experiment: string): Draft | undefined;
  /** False where this device has no room for it, or keeps nothing. */
  write(experiment: string, draft: Draft): boolean;
  drop(experiment: string): void;
}

const keyOf = (experiment: string) => `weighboat.draft.${experiment}`;

/** Written at once and in full, so that nothing typed hangs on a callback that never comes. */
export function draftsIn(storage: Storage): Drafts {
  return {
    read(experiment) {
      try {
        return draftOf(JSON.parse(storage.getItem(keyOf(experiment)) ?? 'null'));
      } catch {
        return undefined;
      }
    },
    write(experiment, draft) {
      try {
        storage.setItem(keyOf(experiment), JSON.stringify(draft));
        return true;
      } catch {
        return false;
      }
    },
    drop(experiment) {
      try {
        storage.removeItem(keyOf(experiment));
      } catch {
        // A device that keeps nothing has nothing to drop.
      }
    },
  };
}

function draftOf(value: unknown): Draft | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const { text, base, sent, cursor } = value as Partial<Record<keyof Draft, unknown>>;
  if (typeof text !== 'string' || !isVersion(base)) return undefined;
  return {
    text,
    base,
    ...(typeof sent === 'string' && { sent }),
    cursor: typeof cursor === 'number' ? cursor : 0,
  };
}

function isVersion(value: unknown): value is Version {
  return typeof value === 'object' && value !== null && 'number' in value && 'savedAt' in value;
}
