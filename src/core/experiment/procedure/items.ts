import type { Section } from '../outline.ts';
import { cleanText } from '../sentence/clean.ts';
import type { CleanText } from '../sentence/clean.ts';
import type { Note } from '../step.ts';
import type { LineMap } from '../text.ts';

export interface Item {
  readonly clean: CleanText;
  readonly part?: string;
}

/** The list items and paragraphs of the procedure, each with the sub-heading that it stands under. */
export function itemsOf(section: Section, lines: LineMap, notes: Note[]): Item[] {
  const items: Item[] = [];
  let part: string | undefined;
  let open: { start: number; end: number } | undefined;
  const close = () => {
    if (open)
      items.push({
        clean: cleanText(lines.text, open.start, open.end),
        ...(part !== undefined && { part }),
      });
    open = undefined;
  };
  // A marker that is only just being typed is no part of the item before it
  const last = section.lines.at(-1);
  for (const line of section.lines) {
    const end = line.start + line.text.length;
    const marker = /^\s*(?:\d+[.)]|[-*+])\s+/.exec(line.text);
    const heading = /^#{3,6}\s+(.*?)\s*#*$/.exec(line.text);
    if (heading) {
      close();
      part = heading[1]!;
    } else if (
      /^\s*(?:>|\||!\[|<!--)/.test(line.text) ||
      /^\s*(?:\d+[.)]|[-*+])\s+>/.test(line.text)
    ) {
      close();
      notes.push({
        text: line.text.trim(),
        span: lines.span(line.start, end),
        section: section.title,
      });
    } else if (
      line.text.trim() === '' ||
      /^\s*(?:\d+[.)]|[-*+])\s*$/.test(line.text) ||
      (line === last && /^\s*\d+$/.test(line.text))
    )
      close();
    else if (marker) {
      close();
      open = { start: line.start + marker[0].length, end };
    } else if (open) open = { ...open, end };
    else open = { start: line.start + (line.text.length - line.text.trimStart().length), end };
  }
  close();
  return items;
}
