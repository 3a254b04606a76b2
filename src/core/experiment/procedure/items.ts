import type { Section } from '../outline.ts';
import { cleanText } from '../sentence/clean.ts';
import type { CleanText } from '../sentence/clean.ts';
import type { Note } from '../step.ts';
import type { LineMap } from '../text.ts';

export interface Item {
  readonly clean: CleanText;
  readonly part?: string;
}

/** A line of an item. */
interface Stretch {
  readonly start: number;
  readonly end: number;
  /** It begins with a number or a bullet. */
  readonly marked: boolean;
}

function joined(open: readonly Stretch[]): Pick<Stretch, 'start' | 'end'>[] {
  return open.length === 0 ? [] : [{ start: open[0]!.start, end: open.at(-1)!.end }];
}

/**
 * Without numbers, lines that each end a sentence are steps of their own; the last may be half
 * typed. Where a sentence runs over a line's end, the lines are one paragraph.
 */
function sentencesALine(open: readonly Stretch[], text: string): readonly Stretch[] | undefined {
  if (open.length < 2 || open[0]!.marked) return undefined;
  const ends = open
    .slice(0, -1)
    .every(({ start, end }) => /[.!?;]\s*$/.test(text.slice(start, end)));
  return ends ? open : undefined;
}

/** The list items and paragraphs of the procedure, each with the sub-heading that it stands under. */
export function itemsOf(section: Section, lines: LineMap, notes: Note[]): Item[] {
  const items: Item[] = [];
  let part: string | undefined;
  let open: Stretch[] = [];
  const close = () => {
    for (const { start, end } of sentencesALine(open, lines.text) ?? joined(open))
      items.push({
        clean: cleanText(lines.text, start, end),
        ...(part !== undefined && { part }),
      });
    open = [];
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
      open = [{ start: line.start + marker[0].length, end, marked: true }];
    } else
      open.push({
        start: line.start + (line.text.length - line.text.trimStart().length),
        end,
        marked: false,
      });
  }
  close();
  return items;
}
