/** Which axis a trace is drawn along. Every x, position and window of a view is in its unit. */
export type AxisKind = 'wavenumber' | 'shift' | 'massToCharge' | 'time';

/** `intensity`: y is drawn as it is, in arbitrary units. */
export type HeightKind = 'transmittance' | 'absorbance' | 'intensity';

export const TRACE_ROLES = ['sample', 'startingMaterial', 'reference', 'product'] as const;

export type TraceRole = (typeof TRACE_ROLES)[number];

export const VERDICTS = ['present', 'absent', 'cannotTell'] as const;

export type Verdict = (typeof VERDICTS)[number];

export interface TraceShown {
  readonly id: string;
  readonly label: string;
  readonly role: TraceRole;
  /** Rising, in the unit of the axis. */
  readonly x: Float64Array;
  /** At the same places: decadic absorbance of an infrared trace; NaN where there is none. */
  readonly y: Float64Array;
  /** No line is drawn across these. */
  readonly gaps?: readonly (readonly [low: number, high: number])[];
}

/** Where a band is expected, and what was found there. */
export interface WindowShown {
  readonly id: string;
  readonly low: number;
  readonly high: number;
  readonly label: string;
  readonly verdict: Verdict;
  readonly selected?: boolean;
}

export interface BandShown {
  readonly id: string;
  readonly position: number;
  /** In the unit of y: absorbance above the baseline of an infrared band. */
  readonly height: number;
  /** Full width at half height, in the unit of the axis, where it was measured. */
  readonly width?: number;
  /** What it is; empty where nobody says. Shown in tables and beside the cursor. */
  readonly label: string;
  readonly selected?: boolean;
}

/** A stretch that is not judged, and why: carbon dioxide of the air, saturation. */
export interface RegionShown {
  readonly low: number;
  readonly high: number;
  readonly label: string;
}

/** All that a picture of a spectrum, a chromatogram or a list of masses shows. */
export interface SpectrumView {
  /** `wavenumber` if it is not said. */
  readonly axis?: AxisKind;
  /** The first is the one that is judged; five at most are drawn. */
  readonly traces: readonly TraceShown[];
  readonly windows: readonly WindowShown[];
  readonly bands: readonly BandShown[];
  readonly regions: readonly RegionShown[];
  readonly yAxis: HeightKind;
  readonly range: { readonly low: number; readonly high: number };
}

export const MOST_TRACES = 5;
