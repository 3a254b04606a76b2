import type { Enactment } from '../../enact/enactment.ts';
import type { Experiment } from '../../experiment/step.ts';

export interface UncountedLine {
  readonly step: string;
  readonly name: string;
  /** As written: "a few crystals". */
  readonly text: string;
  readonly why: 'no figure' | 'not known';
}

/** What the procedure takes that the ledger does not count: amounts without a figure, unknown names. */
export function uncounted(experiment: Experiment, enactment: Enactment): UncountedLine[] {
  const lines: UncountedLine[] = enactment.unquantified.map((each) => ({
    ...each,
    why: 'no figure',
  }));
  for (const step of experiment.steps) {
    for (const use of step.slots.materials ?? []) {
      if (use.material !== undefined) continue;
      const text = use.amounts.map((amount) => amount.text).join(', ');
      lines.push({ step: step.id, name: use.name, text, why: 'not known' });
    }
  }
  const place = new Map(experiment.steps.map((step, i) => [step.id, i]));
  return lines.sort((a, b) => (place.get(a.step) ?? 0) - (place.get(b.step) ?? 0));
}
