/** What one bench measured, as the interpreter needs it: the fold of a bench record. */
export interface Actuals {
  /** By the use's id in the document ("3.1"): what was really taken. Totals over repeats. */
  readonly charges: ReadonlyMap<string, ActualCharge>;
  /** By `step|vessel`: the net mass that the balance says is in the vessel at that step. */
  readonly nets: ReadonlyMap<string, number>;
}

export interface ActualCharge {
  readonly mass_g?: number;
  readonly volume_mL?: number;
  readonly purity_percent?: number;
  /** One unit of the last digit read, in g or mL. */
  readonly lastDigit?: number;
}

export function netKey(step: string, vessel: string): string {
  return `${step}|${vessel}`;
}
