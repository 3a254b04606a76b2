import type { StepTrace } from '../../enact/enactment.ts';
import type { Step } from '../../experiment/step.ts';
import type { VerbKind } from '../../experiment/verbs/kind.ts';
import { sentenceStart } from '../../quantity/sentence.ts';
import { saysHowLong } from '../answer/duration.ts';
import type { BenchWait } from './field.ts';

/** What goes on while the time passes; for verbs not named here the time is simply counted. */
const GOING_ON: Readonly<Partial<Record<VerbKind, string>>> = {
  stir: 'stirring',
  heat: 'heating',
  reflux: 'reflux',
  cool: 'cooling',
  hold: 'standing',
  activate: 'activation',
  blanket: 'flushing',
  bubble: 'bubbling',
  quench: 'quench',
  add: 'addition',
  transfer: 'addition',
  dry: 'drying',
  airDry: 'drying',
  evaporate: 'evaporation',
  recrystallise: 'recrystallisation',
  distil: 'distillation',
  extract: 'extraction',
};

/** A wait that a timer can be set for: the sentence itself has to say how long. */
export function waitOf(step: Step, trace: StepTrace | undefined): BenchWait | undefined {
  if (trace === undefined || !saysHowLong(step) || trace.duration_min <= 0) return undefined;
  const { on, into } = step.slots;
  const vessel = step.verb === 'transfer' ? into : (on?.[0]?.vessel ?? into);
  const what = sentenceStart(GOING_ON[step.verb] ?? 'time');
  return {
    duration_min: trace.duration_min,
    what: vessel === undefined ? what : `${what}, ${vessel}`,
  };
}
