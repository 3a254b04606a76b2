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
import type { Spectrum } from '../wire/spectrum.ts';
import type { Refusal } from '../wire/common.ts';
import type { SpectrumChanged, SpectrumGiven, SpectrumPrint } from './spectra.ts';

/** A refusal is an answer, not an exception: the caller turns it into its own words or status. */
export type Kept<T> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly refusal: Refusal };

export type StoreKind = 'sqlite' | 'postgres';

export interface Attachment {
  readonly hash: string;
  readonly mediaType: string;
  readonly bytes: Uint8Array;
}

/** An entry with who sent it. */
export interface Receipt extends KeptEntry {
  readonly receivedBy: string;
}

export interface CataloguedExperiment {
  readonly id: string;
  /** Of the newest version. */
  readonly title: string;
  readonly putAway: boolean;
  /** From 1 on. */
  readonly versions: readonly Version[];
}

export type CataloguedRun = Omit<Run, 'title' | 'entries'>;

export interface Catalogue {
  readonly settings: Settings;
  readonly experiments: readonly CataloguedExperiment[];
  readonly runs: readonly CataloguedRun[];
  readonly attachments: readonly {
    readonly hash: string;
    readonly mediaType: string;
    readonly size_bytes: number;
  }[];
  /** By id. */
  readonly spectra: readonly Spectrum[];
  readonly lastSeq: number;
}

/** What an import puts into an empty store. */
export interface Everything extends Pick<Catalogue, 'settings' | 'runs'> {
  readonly experiments: readonly Omit<CataloguedExperiment, 'title'>[];
  /** By hash. */
  readonly documents: ReadonlyMap<string, string>;
  /** By run. */
  readonly receipts: ReadonlyMap<string, readonly Receipt[]>;
  readonly attachments: readonly Attachment[];
  readonly spectra: readonly { readonly spectrum: Spectrum; readonly print: SpectrumPrint }[];
}

/**
 * Everything that is kept. A method that resolves has its change on the disk. Nothing is ever
 * overwritten: versions and entries are only added. A method that does not answer with `Kept` throws
 * where the disk or the database fails; `refusalOf` (refusal.ts) says what that means.
 */
export interface Store {
  readonly kind: StoreKind;

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

  /** The library, by name, those that are put away among them. */
  spectra(): Promise<Spectrum[]>;
  spectrum(id: string): Promise<Spectrum | undefined>;
  /** Its file is an attachment that is there. */
  addSpectrum(given: SpectrumGiven, print: SpectrumPrint, by: string): Promise<Kept<Spectrum>>;
  changeSpectrum(id: string, change: SpectrumChanged): Promise<Spectrum | undefined>;
  spectrumPrints(
    ids: readonly string[],
  ): Promise<readonly (SpectrumPrint & { readonly id: string })[]>;
  isSpectrumFile(hash: string): Promise<boolean>;

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

  /** No experiment, run or attachment; settings and persons do not count. */
  isEmpty(): Promise<boolean>;
  /** What there is to export, as it stands at one moment; what it names never changes afterwards. */
  catalogue(): Promise<Catalogue>;
  /** In the order in which they were kept, none after `upToSeq`. */
  receipts(run: string, upToSeq: number): Promise<Receipt[]>;
  /** All or nothing, into an empty store. Trusts that everything named is there (import checks it). */
  putEverything(everything: Everything): Promise<Kept<null>>;

  /** One file that `restore` takes; written while the store goes on working. */
  backupTo(path: string): Promise<void>;
  close(): Promise<void>;
}
