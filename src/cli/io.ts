import type { Answer, Call } from './command.ts';

/** The commands that work with what is kept: with folders, ports and signals. */
export type Keeping = Readonly<
  Record<
    'serve' | 'backup' | 'restore' | 'exportTo' | 'importFrom',
    (call: Call) => Promise<Answer>
  >
>;

/** All that the command line asks of the machine; a test gives its own. */
export interface Io {
  /** Answers. */
  readonly out: (text: string) => void;
  /** What is said about the work: refusals, what was assumed about a file. */
  readonly err: (text: string) => void;
  /** Columns of the page. */
  readonly width: number;
  /** Whether styles may be used at all. */
  readonly colour: boolean;
  /** A file larger than `most_bytes` is refused unread; an experiment's limit where it is not said. */
  readonly read: (path: string, most_bytes?: number) => Promise<Uint8Array | FileTrouble>;
  readonly stdin: (most_bytes?: number) => Promise<Uint8Array | FileTrouble>;
  /** Writes a whole file, over one that is there; says what stood in the way. */
  readonly write: (path: string, text: string) => Promise<FileTrouble | undefined>;
  readonly keeping: Keeping;
}

export interface FileTrouble {
  readonly trouble: 'missing' | 'folder' | 'denied' | 'too-large' | 'terminal' | 'other';
  /** Further words from the machine, where there are any. */
  readonly detail?: string;
}

/** Nobody writes a procedure of 5 MB; what is larger is some other file. */
export const LARGEST_FILE_bytes = 5_000_000;

/** A spectrum with a hundred thousand points as text takes a few; the reader of spectra takes 50. */
export const LARGEST_SPECTRUM_bytes = 50 * 1024 * 1024;

export const DEFAULT_WIDTH = 100;
