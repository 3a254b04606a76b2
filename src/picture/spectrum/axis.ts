import type { AxisKind, HeightKind } from './spectrum-view.ts';

export interface Axis {
  readonly title: string;
  readonly unit: string;
  /** Drawn falling to the right. */
  readonly falls: boolean;
  /** Of a position in print. */
  readonly decimals: number;
  /** Separate lines from the base, not a curve. */
  readonly sticks: boolean;
  /** Heights mean nothing by themselves, and no scale is drawn for them. */
  readonly bare?: boolean;
  /** Where the scale may change: twice as many units to the px above it. */
  readonly split?: number;
}

export const AXES: Readonly<Record<AxisKind, Axis>> = {
  wavenumber: {
    title: 'Wavenumber',
    unit: 'cm⁻¹',
    falls: true,
    decimals: 0,
    sticks: false,
    split: 2000,
  },
  shift: {
    title: 'Chemical shift',
    unit: 'ppm',
    falls: true,
    decimals: 2,
    sticks: false,
    bare: true,
  },
  massToCharge: { title: 'm/z', unit: '', falls: false, decimals: 0, sticks: true },
  time: { title: 'Retention time', unit: 'min', falls: false, decimals: 2, sticks: false },
};

export interface HeightAxis {
  readonly title: string;
  readonly unit: string;
  /** Behind a value that is read off. */
  readonly mark: string;
  /** What is drawn for a value of y. */
  readonly of: (y: number) => number;
  /** Bands point down, and their names stand under them. */
  readonly down: boolean;
}

/** T = 10^(−A), in percent (IUPAC Gold Book, "absorbance"). */
const percentT = (absorbance: number): number => 100 * Math.exp(-Math.LN10 * absorbance);
const same = (y: number): number => y;

export const HEIGHTS: Readonly<Record<HeightKind, HeightAxis>> = {
  transmittance: { title: 'Transmittance', unit: '%', mark: '%T', of: percentT, down: true },
  absorbance: { title: 'Absorbance', unit: '', mark: 'A', of: same, down: false },
  intensity: { title: 'Intensity', unit: '', mark: '', of: same, down: false },
};

/** "Wavenumber / cm⁻¹": quantity over unit, as IUPAC has it. */
export const axisTitle = ({ title, unit }: { readonly title: string; readonly unit: string }) =>
  unit === '' ? title : `${title} / ${unit}`;
