/** Where in a document something is: one-based line and column, and the step it belongs to. */
export interface Place {
  readonly line: number;
  readonly column: number;
  /** How many characters are meant, from the column on. */
  readonly length?: number;
  readonly step?: string;
  readonly field?: string;
}

export type Severity = 'error' | 'warning' | 'note';

/**
 * What a user can get wrong or should look at: where, what, what to do. Never thrown; it comes
 * back beside the best partial result. Every code has an entry in docs/diagnostics.md or docs/diagnostics-evidence.md.
 */
export interface Diagnostic {
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
  readonly hint?: string;
  readonly at?: Place;
  /** A replacement for the marked text that would settle it, where one is known. */
  readonly fix?: string;
}

const ORDER: Record<Severity, number> = { error: 0, warning: 1, note: 2 };

/** Errors first, then warnings, then notes; within each, in the order of the document. */
export function byImportance(a: Diagnostic, b: Diagnostic): number {
  return (
    ORDER[a.severity] - ORDER[b.severity] ||
    (a.at?.line ?? 0) - (b.at?.line ?? 0) ||
    (a.at?.column ?? 0) - (b.at?.column ?? 0)
  );
}
