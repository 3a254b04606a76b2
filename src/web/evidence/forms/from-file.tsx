import type { Diagnostic } from '../../../core/diagnostic.ts';
import type { MeasuredTrace, TraceTechnique } from '../../../core/evidence/spectrum/trace.ts';
import { numberText } from '../../bench/typed/typed-number.ts';
import type { DecimalSign } from '../../bench/typed/typed-number.ts';
import { Findings } from '../../ui/findings.tsx';
import type { FormWorld } from './form.ts';

/**
 * The trace of the file that waits: of this technique, a curve before a list of peaks, but of a
 * mass spectrum the list; else one of which the file does not say what it is.
 */
export function traceOf({ file }: FormWorld, technique: TraceTechnique): MeasuredTrace | undefined {
  if (file?.ok !== true) return undefined;
  const own = file.traces.filter((trace) => trace.technique === technique);
  const kind = technique === 'mass' ? 'peaks' : 'curve';
  return (
    own.find((trace) => trace.kind === kind) ??
    own[0] ??
    file.traces.find((trace) => trace.technique === 'unknown')
  );
}

/** What the file is called, as far as an entry holds it. */
export function fileNameOf(world: FormWorld, trace: MeasuredTrace | undefined) {
  const name = world.fileName ?? trace?.title ?? '';
  return name === '' || trace === undefined ? undefined : name.slice(0, 200);
}

/** What was odd in the file, above the fields that were filled from it. */
export function FileFindings({
  world: { file },
  trace,
  further = [],
  filled,
}: {
  readonly world: FormWorld;
  readonly trace: MeasuredTrace | undefined;
  readonly further?: readonly Diagnostic[];
  /** What the file gave: "12 peaks". */
  readonly filled: string;
}) {
  if (file === undefined) return null;
  const findings = file.ok ? [...(trace?.warnings ?? []), ...further] : [file.problem];
  return (
    <>
      <p>
        {trace === undefined
          ? 'The file holds nothing that fits here. Type what was read.'
          : `From the file: ${filled}. Look through them and correct what is not right.`}
      </p>
      {findings.length > 0 && <Findings findings={findings} />}
    </>
  );
}

/** A number of a file as a person would type it: so many figures, no power of ten. */
export function typed(value: number, figures: number, sign: DecimalSign): string {
  return numberText({ value: Number(value.toPrecision(figures)) }, sign);
}
