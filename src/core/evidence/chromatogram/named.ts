import type { Diagnostic } from '../../diagnostic.ts';
import type { Subject } from '../subject.ts';
import type { ChromatogramEntered, ChromatogramPeak, PeakRole } from './schema.ts';

/** A peak that is counted or known, with who it may be. */
export interface NamedPeak {
  readonly entered: ChromatogramPeak;
  /** Place among the entered peaks, from 0: names its area as a measurement. */
  readonly index: number;
  readonly role: PeakRole;
  readonly name?: string;
  readonly namedBy: 'person' | 'retention' | 'nobody';
  /** Standards whose window it lies in, nearest first. */
  readonly candidates: readonly string[];
}

export interface Naming {
  /** Positive areas from the starting time on, by rising time. */
  readonly peaks: readonly NamedPeak[];
  /** Of these, those of the sample: neither solvent nor internal standard nor blank. */
  readonly counted: readonly NamedPeak[];
  readonly diagnostics: readonly Diagnostic[];
}

export const keyOfName = (name: string): string => name.trim().toLowerCase();

/** Whether a name on a peak means this substance. */
export function isNamed(subject: Subject, name: string | undefined): boolean {
  if (name === undefined) return false;
  const { substance } = subject;
  return [substance.name, substance.id, ...substance.synonyms].some(
    (own) => keyOfName(own) === keyOfName(name),
  );
}

/**
 * Half the window of a retention match: 0.05 min, or 1 % of the time where that is more. Common
 * practice.
 */
export function windowAt(entered: ChromatogramEntered, retention_min: number): number {
  return entered.window_min ?? Math.max(0.05, 0.01 * retention_min);
}

function candidatesFor(entered: ChromatogramEntered, peak: ChromatogramPeak): string[] {
  return (entered.standards ?? [])
    .map(({ name, retention_min }) => ({
      name,
      away: Math.abs(retention_min - peak.retention_min),
      window: windowAt(entered, retention_min),
    }))
    .filter(({ away, window }) => away <= window)
    .sort((a, b) => a.away - b.away || (a.name < b.name ? -1 : 1))
    .map(({ name }) => name);
}

function problemsOf(entered: ChromatogramEntered): Diagnostic[] {
  const problems: Diagnostic[] = [];
  const at = (peak: ChromatogramPeak) => `The peak at ${peak.retention_min.toFixed(2)} min`;
  for (const peak of entered.peaks) {
    if (!(peak.area > 0))
      problems.push({
        code: 'peak-area-negative',
        severity: 'error',
        message: `${at(peak)} has no positive area and is left out.`,
        hint: 'Look at the baseline there: a dip, or a baseline drawn too high.',
      });
    if (entered.dead_min !== undefined && peak.retention_min < entered.dead_min)
      problems.push({
        code: 'peak-before-dead-time',
        severity: 'warning',
        message: `${at(peak)} comes before a substance that is not held back can come.`,
        hint: 'Check the dead time and the start of the record.',
      });
    if (peak.foot !== undefined && peak.foot.front_min >= peak.foot.width_min)
      problems.push({
        code: 'peak-foot-odd',
        severity: 'warning',
        message: `${at(peak)}: the part before the top is as wide as the whole foot.`,
        hint: 'Enter the whole width at a twentieth of the height, and the part before the top.',
      });
  }
  return problems;
}

/** The internal standard is known by its name where nobody gave its peak a role. */
function isStandard({ internalStandard }: ChromatogramEntered, name: string | undefined): boolean {
  return (
    internalStandard !== undefined &&
    name !== undefined &&
    keyOfName(name) === keyOfName(internalStandard.name)
  );
}

/** Who each peak is: by the person's word, else by the one standard whose window it lies in. */
export function namePeaks(entered: ChromatogramEntered): Naming {
  const diagnostics = problemsOf(entered);
  const peaks = entered.peaks
    .map((peak, index): NamedPeak => {
      const candidates = candidatesFor(entered, peak);
      const only = candidates.length === 1 ? candidates[0] : undefined;
      const name = peak.name ?? only;
      return {
        entered: peak,
        index,
        role: peak.role ?? (isStandard(entered, name) ? 'internalStandard' : 'sample'),
        candidates,
        ...(name === undefined ? {} : { name }),
        namedBy: peak.name !== undefined ? 'person' : only === undefined ? 'nobody' : 'retention',
      };
    })
    .filter(({ entered: { area } }) => area > 0)
    .sort((a, b) => a.entered.retention_min - b.entered.retention_min || a.index - b.index);
  const counted = peaks.filter(
    ({ role, entered: peak }) => role === 'sample' && peak.retention_min >= (entered.from_min ?? 0),
  );
  return { peaks, counted, diagnostics: [...diagnostics, ...twiceNamed(counted)] };
}

function twiceNamed(counted: readonly NamedPeak[]): Diagnostic[] {
  const names = counted.flatMap(({ name }) => (name === undefined ? [] : [keyOfName(name)]));
  const twice = [...new Set(names.filter((name, i) => names.indexOf(name) !== i))];
  return twice.map((name) => ({
    code: 'peak-named-twice',
    severity: 'warning',
    message: `Two peaks are taken for ${name}; their areas are added.`,
    hint: 'Name the peaks yourself, or set a narrower window.',
  }));
}
