import { THEMES } from '../flow-sheet/theme.ts';
import type { ThemeName } from '../flow-sheet/theme.ts';
import type { TraceRole } from './spectrum-view.ts';

export interface SpectrumColours {
  readonly paper: string;
  readonly ink: string;
  readonly quiet: string;
  readonly hairline: string;
  readonly edge: string;
  readonly life: string;
  readonly accent: string;
  readonly roles: Readonly<Record<TraceRole, string>>;
}

const EDGES: Readonly<Record<ThemeName, string>> = {
  paper: '#8c8069',
  dark: '#7f7d76',
  print: '#6b6b6b',
};

export function themeColours(theme: ThemeName): SpectrumColours {
  const { colours } = THEMES[theme];
  return {
    paper: colours.paper,
    ink: colours.ink,
    quiet: colours.quiet,
    hairline: colours.hairline,
    edge: EDGES[theme],
    life: colours.life,
    accent: colours.accent,
    roles: {
      sample: colours.ink,
      startingMaterial: colours['line-organic'],
      reference: colours['line-aqueous'],
      product: colours.quiet,
    },
  };
}

/** The page's own colours: they follow its light and its dark by themselves. */
export const PAGE: SpectrumColours = {
  paper: 'var(--paper)',
  ink: 'var(--ink)',
  quiet: 'var(--quiet)',
  hairline: 'var(--hairline)',
  edge: 'var(--edge)',
  life: 'var(--life)',
  accent: 'var(--accent)',
  roles: {
    sample: 'var(--ink)',
    startingMaterial: 'var(--line-organic)',
    reference: 'var(--line-aqueous)',
    product: 'var(--quiet)',
  },
};
