import type { Diagnostic } from '../../diagnostic.ts';
import { readMultiplicity } from './multiplicity.ts';
import { isAt, residualRows } from './residuals.ts';
import type { NmrEntered, NmrSignal } from './schema.ts';
import { endsOf, middleOf, signalText } from './signal.ts';

/** How near a signal must be to the shift entered for the internal standard. */
const STANDARD_REACH_PPM = 0.05;
/** A wider signal is not the solvent's own. */
const NARROW_PPM = 0.04;

/** Which signals belong to what; numbers are places in the entered list. */
export interface Partition {
  /** Said to be the product's, or said to be nothing. */
  readonly open: readonly number[];
  readonly isomers: readonly number[];
  readonly startingMaterial: readonly number[];
  readonly standard: readonly number[];
  /** The deuterated solvent's own signal and the reference. */
  readonly solvent: readonly number[];
  /** Assigned to a residual solvent or an impurity by name. */
  readonly impurities: readonly number[];
  readonly diagnostics: readonly Diagnostic[];
}

type Owner = Exclude<keyof Partition, 'diagnostics'>;

function ownerOf(entered: NmrEntered, signal: NmrSignal): Owner {
  const to = signal.assignment?.to;
  if (to === 'product') return 'open';
  if (to === 'isomer') return 'isomers';
  if (to === 'startingMaterial' || to === 'standard') return to;
  if (to === 'impurity') return 'impurities';
  // A solvent with a name of its own is one to report; without, it is the deuterated one.
  if (to === 'solvent') return signal.assignment?.of === undefined ? 'solvent' : 'impurities';
  const { standard } = entered;
  if (standard && Math.abs(middleOf(signal) - standard.shift_ppm) <= STANDARD_REACH_PPM)
    return 'standard';
  const own = residualRows(entered.solvent).filter(
    ({ kind }) => kind === 'solvent' || kind === 'reference',
  );
  const [low, high] = endsOf(signal);
  const narrow = high - low <= NARROW_PPM;
  return narrow && own.some((row) => isAt(signal, row)) ? 'solvent' : 'open';
}

function findingsOf({ signals }: NmrEntered): Diagnostic[] {
  const found: Diagnostic[] = [];
  if (signals.length === 0)
    found.push({
      code: 'nmr-no-signals',
      severity: 'error',
      message: 'The NMR spectrum has no signals.',
      hint: 'Write down each signal with its shift in ppm, integral and multiplicity.',
    });
  signals.forEach((signal, i) => {
    const name = `Signal ${i + 1} at ${signalText(signal)}`;
    const { multiplicity } = signal;
    if (multiplicity !== undefined && readMultiplicity(multiplicity) === undefined)
      found.push({
        code: 'nmr-multiplicity',
        severity: 'warning',
        message: `${name}: the multiplicity is not one that can be read.`,
        hint: 'Write s, d, t, q, quint, sext, sept, m, or several together: dd, dt; br for broad.',
      });
    if (signal.integral === 0)
      found.push({
        code: 'nmr-integral-zero',
        severity: 'warning',
        message: `${name} has the integral 0 and is counted as not integrated.`,
        hint: 'Leave the integral out, or set its limits again.',
      });
  });
  const areas = signals.filter(({ integral }) => (integral ?? 0) > 0).length;
  if (signals.length > 0 && areas === 0)
    found.push({
      code: 'nmr-no-integrals',
      severity: 'note',
      message: 'No signal has an integral, so hydrogens are not counted.',
      hint: 'Add the integrals, all to one scale.',
    });
  return found;
}

export function partitionOf(entered: NmrEntered): Partition {
  const lists: Record<Owner, number[]> = {
    open: [],
    isomers: [],
    startingMaterial: [],
    standard: [],
    solvent: [],
    impurities: [],
  };
  entered.signals.forEach((signal, i) => lists[ownerOf(entered, signal)].push(i));
  return { ...lists, diagnostics: findingsOf(entered) };
}

/** Nothing that was integrated is as small; a number that cannot be divided by is no area. */
const LEAST_AREA = 1e-12;

/** The area of a signal, where one was taken. */
export function areaOf({ integral = 0 }: NmrSignal): number | undefined {
  return integral < LEAST_AREA ? undefined : integral;
}
