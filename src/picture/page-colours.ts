/** What a picture that stands in a page is coloured with. */
export interface PageColours {
  readonly paper: string;
  readonly ink: string;
  readonly quiet: string;
  readonly hairline: string;
  readonly edge: string;
  readonly solidTint: string;
  readonly solidLine: string;
  readonly aqueousTint: string;
  readonly aqueousLine: string;
}

/** The page's own colours: they follow its light, its dark and its print by themselves. */
export const PAGE_COLOURS: PageColours = {
  paper: 'var(--paper)',
  ink: 'var(--ink)',
  quiet: 'var(--quiet)',
  hairline: 'var(--hairline)',
  edge: 'var(--edge)',
  solidTint: 'var(--tint-solid)',
  solidLine: 'var(--line-solid)',
  aqueousTint: 'var(--tint-aqueous)',
  aqueousLine: 'var(--line-aqueous)',
};
