import type { BenchEntry } from '../core/record/entry.ts';
import type {
  ExperimentOpened,
  ExperimentSummary,
  NewExperiment,
  NewVersion,
  Version,
} from '../wire/experiment.ts';
import type { Acknowledged, KeptEntry, NewRun, Run } from '../wire/run.ts';
import type { Role, Session } from '../wire/session.ts';
import type { Settings } from '../wire/settings.ts';
import type { Refusal } from '../wire/common.ts';

/** A refusal is an answer, not an exception: the caller turns it into its own words or status. */
export type Kept<T> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly refusal: Refusal };

export interface Attachment {
  readonly hash: string;
  readonly mediaType: string;
  readonly bytes: Uint8Array;
}

/**
 * Everything that is kept. A method that resolves has its change on the disk. Nothing is ever
 * overwritten: versions and entries are only added.
 */
export interface Store {
  readonly kind: 'sqlite' | 'postgres';

  experiments(): Promise<ExperimentSummary[]>;
  experiment(id: string): Promise<ExperimentOpened | undefined>;
  addExperiment(given: NewExperiment, by: string): Promise<Kept<ExperimentOpened>>;
  putAway(experiment: string, away: boolean): Promise<boolean>;

  versions(experiment: string): Promise<Version[]>;
  version(
    experiment: string,
    number: number,
  ): Promise<(Version & { readonly text: string }) | undefined>;
  addVersion(experiment: string, given: NewVersion, by: string): Promise<Kept<Version>>;
  nameVersion(experiment: string, number: number, name: string | null): Promise<boolean>;
  documentText(hash: string): Promise<string | undefined>;

  runs(experiment?: string): Promise<Run[]>;
  run(id: string): Promise<Run | undefined>;
  addRun(given: NewRun): Promise<Kept<Run>>;

  /** All or none; resolves when they are on the disk. Writers that come together share one commit. */
  addEntries(run: string, entries: readonly BenchEntry[], by: string): Promise<Kept<Acknowledged>>;
  /** In the order in which they were kept. */
  entries(run: string, afterSeq?: number): Promise<KeptEntry[]>;
  /** Called after entries of the run were kept by this process. Gives back what ends it. */
  onEntries(run: string, heard: (kept: readonly KeptEntry[]) => void): () => void;

  addAttachment(given: Attachment): Promise<Kept<{ readonly hash: string }>>;
  attachment(hash: string): Promise<Attachment | undefined>;

  settings(): Promise<Settings>;
  setSettings(settings: Settings): Promise<void>;

  /** Tokens are kept only as their SHA-256. */
  addPerson(person: { readonly id: string; readonly name: string }): Promise<void>;
  addLink(link: {
    readonly tokenHash: string;
    readonly person: string;
    readonly role: Role;
    readonly run: string | null;
    readonly expiresAt: string;
  }): Promise<void>;
  /** Once: a link that was used or has run out gives undefined. */
  useLink(tokenHash: string, now: string): Promise<Session | undefined>;
  addSession(given: {
    readonly tokenHash: string;
    readonly session: Session;
    readonly expiresAt: string;
  }): Promise<void>;
  session(tokenHash: string, now: string): Promise<Session | undefined>;
  endSession(tokenHash: string): Promise<void>;

  /** One file that `restore` takes; written while the store goes on working. */
  backupTo(path: string): Promise<void>;
  close(): Promise<void>;
}
