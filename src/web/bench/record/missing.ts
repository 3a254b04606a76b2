import { stands } from '../step/field-kinds.ts';
import type { BenchField, BenchSheet, BenchStep } from '../sheet.ts';
import { isExtra, linesOfStep } from './place.ts';
import type { PlacedLines } from './place.ts';

/** A field of the sheet that nothing was entered in, or only what was struck. */
export interface Missing {
  readonly step: BenchStep;
  readonly field: BenchField;
}

/** What the sheet asks for and the record does not have, in the order of the steps. */
export function missingIn(sheet: BenchSheet, placed: PlacedLines): Missing[] {
  return sheet.steps.flatMap((step) => {
    const { fields, byField } = linesOfStep(placed, step.id);
    return fields
      .filter((field) => !isExtra(field) && !byField.get(field.key)?.some(stands))
      .map((field) => ({ step, field }));
  });
}
