/** A document with every heading in its place and one hint, which the reader of sentences skips. */
export const BLANK_DOCUMENT = `# New experiment

Say here in two or three sentences what is made, and what one learns by making it.

## Reaction

## Vessels

- flask: 50 mL round-bottom flask

## Procedure

> One step a line, begun with a verb of the trade, the amounts where they are used. For example:
> 1. Charge the flask with sodium benzoate 1.44 g and water 20 mL.

## Product
`;

const TITLE_LINE = /^#[ \t]+(.*?)[ \t]*#*[ \t]*(?=\r?$)/m;
const COPY = /^Copy (?:(\d+) )?of /;

/** "Copy of X", and of that "Copy 2 of X": one can tell them apart on the shelf. */
export function copyTitle(title: string): string {
  const earlier = COPY.exec(title);
  if (earlier === null) return `Copy of ${title}`;
  return title.replace(COPY, `Copy ${Number(earlier[1] ?? 1) + 1} of `);
}

/** The same document under another title; nothing but its title line differs. */
export function copyOf(text: string, title: string): string {
  const renamed = `# ${copyTitle(title)}`;
  if (!TITLE_LINE.test(text)) return `${renamed}\n\n${text}`;
  return text.replace(TITLE_LINE, () => renamed);
}
