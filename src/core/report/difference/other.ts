import { kindOf, outline } from '../../experiment/outline.ts';
import type { Line, SectionKind } from '../../experiment/outline.ts';
import { align } from './align.ts';
import type { Side } from './side.ts';
import { wordRuns } from './words.ts';
import type { WordRun } from './words.ts';

/** A line or a paragraph outside the sentences of the procedure that is not what it was. */
export interface OtherChange {
  /** "title", "header", "reaction", "vessels", "remarks of the procedure", or the heading of a text. */
  readonly where: string;
  readonly before: string | null;
  readonly after: string | null;
  readonly words: readonly WordRun[];
  readonly sentence: string;
}

type Blocks = ReadonlyMap<string, readonly string[]>;

export function otherChanges(before: Side, after: Side): OtherChange[] {
  const a = blocksOf(before);
  const b = blocksOf(after);
  return [...new Set([...a.keys(), ...b.keys()])].flatMap((where) =>
    between(where, a.get(where) ?? [], b.get(where) ?? []),
  );
}

function between(where: string, a: readonly string[], b: readonly string[]): OtherChange[] {
  const { pairs, removed, added } = align(a, b);
  const changed = pairs.filter((pair) => a[pair.before] !== b[pair.after]);
  // One of a kind, such as a title, has changed rather than gone and come
  if (removed.length === 1 && added.length === 1 && a.length === 1 && b.length === 1)
    return [changeOf(where, a[0]!, b[0]!)];
  return [
    ...changed.map((pair) => changeOf(where, a[pair.before]!, b[pair.after]!)),
    ...removed.map((i) => changeOf(where, a[i]!, null)),
    ...added.map((j) => changeOf(where, null, b[j]!)),
  ];
}

function changeOf(where: string, before: string | null, after: string | null): OtherChange {
  const words = before !== null && after !== null ? wordRuns(before, after) : [];
  const sentence =
    before === null
      ? `New in ${where}: ${after}`
      : after === null
        ? `Gone from ${where}: ${before}`
        : `Changed in ${where}: ${before} → ${after}`;
  return { where, before, after, words, sentence };
}

/** The text of a document outside its sentences, by where it stands. */
function blocksOf({ text, experiment }: Side): Blocks {
  const { title, header, introduction, sections } = outline(text);
  const blocks = new Map<string, string[]>();
  const put = (where: string, lines: readonly string[]): void => {
    if (lines.length > 0) blocks.set(where, [...(blocks.get(where) ?? []), ...lines]);
  };
  put('the title', title === '' ? [] : [title]);
  put(
    'the header',
    Object.entries(header).map(([key, value]) => `${key}: ${value}`),
  );
  put('the introduction', paragraphs(introduction));
  for (const section of sections) {
    if (section.kind === 'procedure') continue;
    const lists = section.kind !== 'prose';
    const name = WHERE[section.kind] ?? section.title;
    put(name, lists ? linesOf(section.lines) : paragraphs(section.lines));
  }
  const parts = experiment.steps.flatMap(({ part }) => (part === undefined ? [] : [part]));
  put('the parts of the procedure', [...new Set(parts)]);
  const remarks = experiment.notes.filter((note) => kindOf(note.section) === 'procedure');
  put(
    'the remarks of the procedure',
    remarks.map((note) => folded(note.text)),
  );
  return blocks;
}

const WHERE: Readonly<Partial<Record<SectionKind, string>>> = {
  reaction: 'the reactions',
  substances: 'the substances',
  vessels: 'the vessels',
  product: 'the product',
};

const folded = (text: string): string => text.replace(/\s+/g, ' ').trim();

function linesOf(lines: readonly Line[]): string[] {
  return lines.map(({ text }) => folded(text)).filter((text) => text !== '');
}

function paragraphs(lines: readonly Line[]): string[] {
  const all = lines.map(({ text }) => text).join('\n');
  return all
    .split(/\n\s*\n|\n(?=\s*(?:[-*+]|\d+[.)])\s)/)
    .map(folded)
    .filter((text) => text !== '');
}
