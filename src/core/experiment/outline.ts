import type { Piece } from './text.ts';

export type SectionKind = 'reaction' | 'substances' | 'vessels' | 'procedure' | 'product' | 'prose';

export interface Line extends Piece {
  /** For a list item: its text without the marker begins here, relative to `text`. */
  readonly indent: number;
}

export interface Section {
  readonly kind: SectionKind;
  readonly title: string;
  readonly lines: readonly Line[];
}

export interface Outline {
  readonly title: string;
  readonly header: Readonly<Record<string, string>>;
  /** What stands between the title and the first section, header lines apart. */
  readonly introduction: readonly Line[];
  readonly sections: readonly Section[];
}

/** The names that a known section answers to; anything else is prose. */
const NAMES: Record<Exclude<SectionKind, 'prose'>, RegExp> = {
  reaction: /^(reactions?|equations?|reaction schemes?|schemes?)$/,
  substances: /^(substances?|materials?|reagents?|chemicals?|materials and reagents)$/,
  vessels: /^(vessels?|apparatus|glassware|equipment|vessels and apparatus)$/,
  procedure: /^(procedures?|methods?|experimental|experimental procedure|steps)$/,
  product: /^(products?|products? and evidence|product and yield)$/,
};

/** Which of the known sections a heading names. */
export function kindOf(title: string): SectionKind {
  const name = title.trim().toLowerCase().replace(/[:.]$/, '');
  for (const [kind, pattern] of Object.entries(NAMES))
    if (pattern.test(name)) return kind as SectionKind;
  return 'prose';
}

const HEADER_LINE = /^([A-Z][A-Za-z /-]{0,30}):\s+(\S.*)$/;

/** Parts a document into its title, header and sections. Every line lands somewhere. */
export function outline(text: string): Outline {
  let title = '';
  const header: Record<string, string> = {};
  const introduction: Line[] = [];
  const sections: { kind: SectionKind; title: string; lines: Line[] }[] = [];
  let inHeader = true;
  let start = 0;
  while (start <= text.length) {
    const stop = text.indexOf('\n', start);
    const end = stop < 0 ? text.length : stop;
    const raw = text.slice(start, end).replace(/\r$/, '');
    const line: Line = { text: raw, start, indent: 0 };
    const heading = /^(#{1,2})\s+(.*?)\s*#*\s*$/.exec(raw);
    if (heading && heading[1] === '#' && title === '' && sections.length === 0) {
      title = heading[2]!;
    } else if (heading) {
      sections.push({ kind: kindOf(heading[2]!), title: heading[2]!, lines: [] });
    } else if (sections.length > 0) {
      sections[sections.length - 1]!.lines.push(line);
    } else {
      const pair = inHeader ? HEADER_LINE.exec(raw.trim()) : null;
      if (pair) header[pair[1]!] = pair[2]!.trim();
      else if (raw.trim() !== '') {
        inHeader = false;
        introduction.push(line);
      }
    }
    if (stop < 0) break;
    start = stop + 1;
  }
  return { title, header, introduction, sections };
}
