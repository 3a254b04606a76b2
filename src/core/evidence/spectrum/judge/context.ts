import type { InfraredSpectrum, SampleState } from '../infrared.ts';
import type { Maximum } from './maxima.ts';
import { maximaOf } from './maxima.ts';
import type { TraceView } from './view.ts';
import { viewOf } from './view.ts';

/** What every group is judged from: the trace, its maxima and what is known of the sample. */
export interface TraceContext {
  readonly view: TraceView;
  readonly maxima: readonly Maximum[];
  /** A state to judge by; without a word of it, a thin film is the widest guess. */
  readonly state: SampleState;
  readonly stateIsKnown: boolean;
  /** Element symbols that the sample can hold; absent: anything. */
  readonly elements: ReadonlySet<string> | undefined;
}

export interface Known {
  readonly elements?: readonly string[];
}

export function contextOf(spectrum: InfraredSpectrum, known: Known = {}): TraceContext {
  const view = viewOf(spectrum);
  return {
    view,
    maxima: maximaOf(view),
    state: spectrum.state ?? 'film',
    stateIsKnown: spectrum.state !== undefined,
    elements: known.elements === undefined ? undefined : new Set(known.elements),
  };
}

/** Can the sample hold this element? */
export function canHold({ elements }: TraceContext, symbol: string): boolean {
  return elements === undefined || elements.has(symbol);
}

export const isSolid = (state: SampleState): boolean => state === 'disc' || state === 'mull';
