import type { KeptEntry } from '../wire/run.ts';

type Heard = (kept: readonly KeptEntry[]) => void;

export interface Listeners {
  on(run: string, heard: Heard): () => void;
  tell(run: string, kept: readonly KeptEntry[]): void;
}

/** Who wants to hear of the entries of which run. One that throws does not keep the others from it. */
export function listeners(): Listeners {
  const byRun = new Map<string, Set<Heard>>();
  return {
    on(run, heard) {
      const set = byRun.get(run) ?? new Set();
      byRun.set(run, set);
      // Its own function each time: the same one may listen twice.
      const own: Heard = (kept) => heard(kept);
      set.add(own);
      return () => {
        set.delete(own);
        if (set.size === 0 && byRun.get(run) === set) byRun.delete(run);
      };
    },
    tell(run, kept) {
      for (const heard of Array.from(byRun.get(run) ?? [])) {
        try {
          heard(kept);
        } catch (error) {
          process.emitWarning(error instanceof Error ? error : String(error));
        }
      }
    },
  };
}
