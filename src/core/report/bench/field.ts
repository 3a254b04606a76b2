import type { EntryKind } from '../../record/entry.ts';

/** How a field is filled: the unit is fixed, and what lies outside the bounds is asked about, never refused. */
export interface Measure {
  /** As a bench entry writes it: "g", "mL", "°C". */
  readonly unit: string;
  /** The number that the plan comes to, in `unit`, and how the document says it ("3 × 10 mL"); a limit is not to be passed ("below 40 °C"). */
  readonly planned?: { readonly value: number; readonly text: string; readonly limit?: true };
  /** Where doubt begins, in `unit`. */
  readonly low?: number;
  readonly high?: number;
  /** As many as the instrument that is meant shows. */
  readonly decimals: number;
}

/** One thing to be weighed, measured or seen at a step: what a bench entry is made of. */
export interface BenchField extends Measure {
  /** Unique in the sheet, and the same each time it is made. */
  readonly key: string;
  readonly kind: Exclude<EntryKind, 'correction' | 'evidence'>;
  readonly use?: string;
  readonly item?: string;
  readonly vessel?: string;
  /** "4-methylcyclohexanone, weighed" */
  readonly label: string;
  /** The yield rests on it. */
  readonly counts: boolean;
  /** The document gives the amount by volume too, or by mass too: either will do. */
  readonly or?: Measure;
  /** Of a gross: 1, 2 ... at this step. */
  readonly n?: number;
  /** Weighings with the next n may follow. */
  readonly again?: true;
  /** Of a gross: the field of the tare that it is read against, and what the net should come to. */
  readonly net?: {
    readonly tare: string;
    readonly planned_g: number;
    readonly low_g: number;
    readonly high_g: number;
  };
}

export interface BenchWait {
  readonly duration_min: number;
  /** "Stirring, flask" */
  readonly what: string;
}

export interface BenchStep {
  readonly id: string;
  /** The number that it has in the document: "19" for the step 19b. */
  readonly item: string;
  readonly section: string | null;
  /** As written, but for its capital. */
  readonly sentence: string;
  readonly cautions: readonly string[];
  readonly wait?: BenchWait;
  readonly fields: readonly BenchField[];
}

/** What a bench works through: JSON-safe, and shown without the interpreter. */
export interface BenchSheet {
  readonly title: string;
  readonly course: string | null;
  /** What the procedure makes, and how much. */
  readonly answer: string;
  readonly product: string | null;
  readonly steps: readonly BenchStep[];
}
