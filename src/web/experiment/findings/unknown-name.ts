import type { Diagnostic } from '../../../core/diagnostic.ts';
import type { Experiment } from '../../../core/experiment/step.ts';

/** The name that a finding says is not known, without the amounts that stand beside it. */
export function unknownName({ steps }: Experiment, { code, at }: Diagnostic): string | undefined {
  if (code !== 'material-unknown' || at === undefined) return undefined;
  const uses = steps.flatMap(({ slots }) => slots.materials ?? []);
  const meant = uses.find(
    ({ span, material }) =>
      material === undefined && span.line === at.line && span.column === at.column,
  );
  return meant?.name;
}
