/** Ways of making words stand out on a terminal; on anything else they leave the text as it is. */
export interface Ink {
  readonly bold: (text: string) => string;
  readonly faint: (text: string) => string;
  readonly italic: (text: string) => string;
  readonly inked: (text: string) => string;
  readonly accent: (text: string) => string;
}

/** What a painter has to work with. */
export interface Paper {
  readonly width: number;
  readonly ink: Ink;
}

const same = (text: string) => text;

export const PLAIN_INK: Ink = {
  bold: same,
  faint: same,
  italic: same,
  inked: same,
  accent: same,
};

const style = (on: string, off: string) => (text: string) =>
  text === '' ? '' : `\u001b[${on}m${text}\u001b[${off}m`;

/** Select Graphic Rendition codes of ECMA-48. */
const TERMINAL_INK: Ink = {
  bold: style('1', '22'),
  faint: style('2', '22'),
  italic: style('3', '23'),
  inked: style('1;4', '22;24'),
  accent: style('33', '39'),
};

export function inkFor(colour: boolean): Ink {
  return colour ? TERMINAL_INK : PLAIN_INK;
}
