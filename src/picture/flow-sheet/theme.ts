import type { PhaseName } from '../../core/experiment/move.ts';

export type ThemeName = 'paper' | 'dark' | 'print';

export type DrawnPhase = Exclude<PhaseName, 'vapour'>;

export interface Theme {
  readonly paper: string;
  readonly ink: string;
  /** Words of the second rank: still 4.5 : 1 or more against the paper. */
  readonly quiet: string;
  readonly hairline: string;
  /** The life of a vessel. */
  readonly life: string;
  /** Only for what is selected. */
  readonly accent: string;
  readonly selectedPaper: string;
  readonly glass: string;
  readonly tint: Readonly<Record<DrawnPhase, string>>;
  readonly pattern: Readonly<Record<DrawnPhase, string>>;
  readonly frame_px: number;
}

export const THEMES: Readonly<Record<ThemeName, Theme>> = {
  paper: {
    paper: '#faf6ee',
    ink: '#1d2733',
    quiet: '#5f5a50',
    hairline: '#e4dac6',
    life: '#d9cfba',
    accent: '#b5500f',
    selectedPaper: '#fffefb',
    glass: '#fffdf8',
    tint: { organic: '#f3dfb4', aqueous: '#d3e4e8', solid: '#eae3d6' },
    pattern: { organic: '#9a6a1c', aqueous: '#2f6f80', solid: '#4b4438' },
    frame_px: 1.75,
  },
  dark: {
    paper: '#161c23',
    ink: '#ece6d9',
    quiet: '#aca596',
    hairline: '#343a40',
    life: '#4a4c4b',
    accent: '#f0954f',
    selectedPaper: '#1f2730',
    glass: '#1d242c',
    tint: { organic: '#54431f', aqueous: '#1f434f', solid: '#3d3a34' },
    pattern: { organic: '#e3b45f', aqueous: '#7fc0d1', solid: '#d8cfbd' },
    frame_px: 1.75,
  },
  print: {
    paper: '#ffffff',
    ink: '#000000',
    quiet: '#3a3a3a',
    hairline: '#bdbdbd',
    life: '#c9c9c9',
    accent: '#000000',
    selectedPaper: '#ffffff',
    glass: '#ffffff',
    tint: { organic: '#ffffff', aqueous: '#ffffff', solid: '#ffffff' },
    pattern: { organic: '#000000', aqueous: '#000000', solid: '#000000' },
    frame_px: 3,
  },
};

export const FONTS =
  "'Atkinson Hyperlegible Next', 'Atkinson Hyperlegible', Verdana, 'DejaVu Sans', sans-serif";
