import type { InfraredJudgement } from '../../core/evidence/spectrum/judge/judge.ts';
import { qualityOf } from '../../core/evidence/spectrum/treat/quality.ts';
import { spectrumPeaks } from '../../core/evidence/spectrum/treat/spectrum-peaks.ts';
import type { InfraredSpectrum } from '../../core/evidence/spectrum/infrared.ts';
import type {
  BandShown,
  RegionShown,
  SpectrumView,
  TraceShown,
  WindowShown,
} from './spectrum-view.ts';

export interface Overlay {
  readonly id: string;
  readonly label: string;
  readonly role: TraceShown['role'];
  readonly spectrum: InfraredSpectrum;
}

/** Windows that say much are drawn; dozens of weak ones below 1500 would only cover the trace. */
const MOST_WINDOWS = 14;

/** The curves: the same objects for as long as nothing but a selection changes. */
export function tracesShown(
  label: string,
  spectrum: InfraredSpectrum,
  overlays: readonly Overlay[],
): TraceShown[] {
  return [
    { id: 'sample', label, role: 'sample' as const, spectrum },
    ...overlays.filter((overlay) => overlay.spectrum !== spectrum),
  ].map(({ id, label: name, role, spectrum: { wavenumber_percm, absorbance, gaps } }) => ({
    id,
    label: name,
    role,
    x: wavenumber_percm,
    y: absorbance,
    gaps,
  }));
}

/** What the trace of a judged spectrum shows: expected windows, bands found, what lies over it. */
export function spectrumViewOf(
  traces: readonly TraceShown[],
  spectrum: InfraredSpectrum,
  judgement: InfraredJudgement | undefined,
  selected: string | undefined,
): SpectrumView {
  const x = spectrum.wavenumber_percm;
  return {
    traces,
    windows: windowsOf(judgement, selected),
    bands: bandsOf(spectrum, judgement, selected),
    regions: regionsOf(judgement),
    yAxis: 'transmittance',
    range: { low: Math.max(400, x[0] ?? 400), high: Math.min(4000, x.at(-1) ?? 4000) },
  };
}

function windowsOf(
  judgement: InfraredJudgement | undefined,
  selected: string | undefined,
): WindowShown[] {
  const bands = judgement?.bands ?? [];
  const shown = bands
    .filter(({ duty, id }) => duty === 'must' || id === selected)
    .toSorted((a, b) => Number(b.proves === 'much') - Number(a.proves === 'much'))
    .slice(0, MOST_WINDOWS);
  return shown
    .map(({ id, what, window_percm: [low, high], verdict }) => ({
      id,
      low,
      high,
      label: what,
      verdict,
      selected: id === selected,
    }))
    .sort((a, b) => b.high - a.high);
}

/** Every tall band of a spectrum, without a name; found once a spectrum. */
const TALL = new WeakMap<InfraredSpectrum, readonly BandShown[]>();
/** Prominence beside the most prominent, and how many are labelled: more would cover the trace. */
const TALL_SHARE = 0.05;
const MOST_TALL = 24;

function tallBands(spectrum: InfraredSpectrum): readonly BandShown[] {
  const before = TALL.get(spectrum);
  if (before !== undefined) return before;
  const peaks = spectrumPeaks(spectrum, qualityOf(spectrum));
  const most = Math.max(0, ...peaks.map(({ prominence }) => prominence));
  const bands = peaks
    .filter(({ kind, prominence }) => kind === 'peak' && prominence >= TALL_SHARE * most)
    .toSorted((a, b) => b.prominence - a.prominence)
    .slice(0, MOST_TALL)
    .map(({ position_percm: position, prominence: height, width_percm: width }) => {
      const id = `peak-${Math.round(position)}`;
      return { id, position, height, width, label: '' };
    });
  TALL.set(spectrum, bands);
  return bands;
}

function bandsOf(
  spectrum: InfraredSpectrum,
  judgement: InfraredJudgement | undefined,
  selected: string | undefined,
): BandShown[] {
  const found = namedBands(judgement, selected);
  for (const band of tallBands(spectrum)) {
    const known = [...found.values()].some(
      ({ position }) => Math.abs(position - band.position) < NEAR_percm,
    );
    if (!known) found.set(Math.round(band.position), band);
  }
  return [...found.values()].sort((a, b) => b.position - a.position);
}

function namedBands(
  judgement: InfraredJudgement | undefined,
  selected: string | undefined,
): Map<number, BandShown> {
  const found = new Map<number, BandShown>();
  if (judgement === undefined) return found;
  for (const { id, what, evidence, verdict } of judgement.bands) {
    if (evidence === undefined || verdict !== 'present') continue;
    const at = Math.round(evidence.position_percm);
    const before = found.get(at);
    if (before !== undefined && before.selected !== true && id !== selected) continue;
    found.set(at, {
      id,
      position: evidence.position_percm,
      height: evidence.height,
      width: evidence.width_percm,
      label: what,
      selected: id === selected,
    });
  }
  // Groups that the product does not have stand in no window of its own
  for (const { group, verdict, evidence } of judgement.groups) {
    const [first] = evidence;
    if (verdict !== 'present' || first === undefined) continue;
    const { position_percm, height, width_percm: width, what: label } = first;
    if ([...found.keys()].some((at) => Math.abs(at - position_percm) < NEAR_percm)) continue;
    const id = `group-${group}`;
    found.set(Math.round(position_percm), { id, position: position_percm, height, width, label });
  }
  for (const { position_percm, height, width_percm } of judgement.unexplained) {
    const at = Math.round(position_percm);
    if (!found.has(at))
      found.set(at, {
        id: `unexplained-${at}`,
        position: position_percm,
        height,
        width: width_percm,
        label: 'not explained',
      });
  }
  return found;
}

/** One band has one label. */
const NEAR_percm = 12;

const CO2: RegionShown = { low: 2280, high: 2390, label: 'CO₂ of the air' };

function regionsOf(judgement: InfraredJudgement | undefined): RegionShown[] {
  return judgement?.quality.some((said) => said.startsWith('CO₂')) === true ? [CO2] : [];
}
