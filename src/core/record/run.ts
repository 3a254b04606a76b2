import type { Diagnostic } from '../diagnostic.ts';
import type { EvidenceEntered } from '../evidence/schema.ts';
import type { BenchEntry } from './entry.ts';

/** A diagnostic about a record: which entry it is about, besides what any diagnostic says. */
export interface RecordDiagnostic extends Diagnostic {
  readonly entry?: string;
  /** A line that could not be read, as it was written. */
  readonly text?: string;
}

/** One reading of an instrument, in g, mL, °C or min. */
export interface Reading {
  /** The entry's id: two results that share a reading are correlated through it. */
  readonly id: string;
  readonly entry: BenchEntry;
  readonly kind: 'mass' | 'volume' | 'temperature' | 'time';
  readonly value: number;
  readonly high?: number;
  /** One unit of the last digit written, in the unit of `value`. */
  readonly lastDigit: number;
  readonly instrument?: string;
  readonly step?: string;
  readonly vessel?: string;
}

/** A reading and how it counts in a sum: gross is +1, tare is -1. */
export interface Term {
  readonly sign: 1 | -1;
  readonly reading: Reading;
}

/** What was really taken of one use of a material: the sum of its terms. */
export interface RunCharge {
  readonly use: string;
  readonly step: string;
  readonly name: string;
  readonly kind: 'mass' | 'volume';
  /** g or mL. */
  readonly value: number;
  readonly terms: readonly Term[];
}

/** A vessel's weighings in order. */
export interface RunWeighing {
  readonly vessel: string;
  readonly tares: readonly Reading[];
  readonly gross: readonly Reading[];
}

/** What a vessel was found to hold at a step: last gross less tare, or a net written down. */
export interface RunNet {
  readonly step: string;
  readonly vessel: string;
  readonly net_g: number;
  readonly terms: readonly Term[];
  /** Gross readings of this step in order, for the check on constant mass. */
  readonly gross: readonly Reading[];
  /** A net that was written beside gross and tare. */
  readonly written?: Reading;
}

/** A gross weighing that gives no net because the vessel has no tare. */
export interface TareMissing {
  readonly step: string;
  readonly vessel: string;
  readonly gross: readonly Reading[];
}

export interface Struck {
  readonly entry: BenchEntry;
  /** The entry that struck it. */
  readonly by: string;
  /** What stands in its place; absent where it was withdrawn. */
  readonly replacedBy?: string;
}

/** A share of a material that is what it is sold as, from a lot's certificate. */
export interface RunLot {
  readonly use: string;
  readonly text: string;
  readonly purity_percent?: number;
  readonly entry: string;
}

/** A measurement of identity or purity; the files that it was read from are the entry's attachments. */
export interface RunEvidence {
  readonly entry: BenchEntry;
  readonly evidence: EvidenceEntered;
}

/** The fold of a bench record: the same for every order of arrival, and for lines that came twice. */
export interface BenchRun {
  /** Every entry, struck ones and those that could not be placed among them, by time and id. */
  readonly entries: readonly BenchEntry[];
  readonly struck: readonly Struck[];
  /** Ids under which different entries came; the last of them counts. */
  readonly conflicts: readonly { readonly id: string; readonly entries: readonly BenchEntry[] }[];
  readonly charges: readonly RunCharge[];
  readonly weighings: readonly RunWeighing[];
  readonly nets: readonly RunNet[];
  readonly tareMissing: readonly TareMissing[];
  readonly lots: readonly RunLot[];
  readonly times: readonly BenchEntry[];
  readonly temperatures: readonly Reading[];
  readonly meltingRanges: readonly Reading[];
  readonly observations: readonly BenchEntry[];
  /** In the order of the record; struck ones left out. */
  readonly evidence: readonly RunEvidence[];
  readonly diagnostics: readonly RecordDiagnostic[];
}
