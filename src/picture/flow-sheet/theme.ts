import type { PhaseName } from '../../core/experiment/move.ts';

export type ThemeName = 'paper' | 'dark' | 'print';

export type DrawnPhase = Exclude<PhaseName, 'vapour'>;

export type Hue =
  | 'paper'
  | 'ink'
  /** Words of the second rank: still 4.5 : 1 or more against the paper. */
  | 'quiet'
  | 'hairline'
  /** The life of a vessel. */
  | 'life'
  /** Only for what is selected. */
  | 'accent'
  /** The paper under what is selected. */
  | 'selected'
  | 'glass'
  /** A phase's ground, and the pattern on it. */
  | `tint-${DrawnPhase}`
  | `line-${DrawnPhase}`;

export interface Theme {
  readonly colours: Readonly<Record<Hue, string>>;
  readonly frame_px: number;
}

export const THEMES: Readonly<Record<ThemeName, Theme>> = {
  paper: {
    frame_px: 1.75,
    colours: {
      paper: '#faf6ee',
      ink: '#1d2733',
      quiet: '#5f5a50',
      hairline: '#e4dac6',
      life: '#d9cfba',
      accent: '#b5500f',
      selected: '#fffefb',
      glass: '#fffdf8',
      'tint-organic': '#f3dfb4',
      'tint-aqueous': '#d3e4e8',
      'tint-solid': '#eae3d6',
      'line-organic': '#9a6a1c',
      'line-aqueous': '#2f6f80',
      'line-solid': '#4b4438',
    },
  },
  dark: {
    frame_px: 1.75,
    colours: {
      paper: '#161c23',
      ink: '#ece6d9',
      quiet: '#aca596',
      hairline: '#343a40',
      life: '#4a4c4b',
      accent: '#f0954f',
      selected: '#1f2730',
      glass: '#1d242c',
      'tint-organic': '#54431f',
      'tint-aqueous': '#1f434f',
      'tint-solid': '#3d3a34',
      'line-organic': '#e3b45f',
      'line-aqueous': '#7fc0d1',
      'line-solid': '#d8cfbd',
    },
  },
  print: {
    frame_px: 3,
    colours: {
      paper: '#ffffff',
      ink: '#000000',
      quiet: '#3a3a3a',
      hairline: '#bdbdbd',
      life: '#c9c9c9',
      accent: '#000000',
      selected: '#ffffff',
      glass: '#ffffff',
      'tint-organic': '#ffffff',
      'tint-aqueous': '#ffffff',
      'tint-solid': '#ffffff',
      'line-organic': '#000000',
      'line-aqueous': '#000000',
      'line-solid': '#000000',
    },
  },
};

export const FONTS =
  "'Atkinson Hyperlegible Next', 'Atkinson Hyperlegible', Verdana, 'DejaVu Sans', sans-serif";
