/** Text in columns: how wide it stands, how it is padded, broken and cut. */

export { keepAmounts } from '../../picture/text/measure.ts';
export { listed } from '../../core/report/common/words.ts';

// eslint-disable-next-line no-control-regex -- the escape is what is meant
const STYLE = /\u001b\[[0-9;]*m/g;

/** Marks that stand over or under another character, joiners and the byte-order mark. */
const NO_WIDTH = /[\p{Mn}\p{Me}\u200b-\u200f\u2060\ufeff]/u;
const DOUBLE_WIDTH =
  /[\u1100-\u115f\u2e80-\u303e\u3041-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6\u{1f300}-\u{1faff}\u{20000}-\u{3fffd}]/u;

const PRINTABLE_ASCII = /^[ -~]*$/;

export function widthOf(text: string): number {
  const bare = text.includes('\u001b') ? text.replace(STYLE, '') : text;
  if (PRINTABLE_ASCII.test(bare)) return bare.length;
  let width = 0;
  for (const c of bare) width += NO_WIDTH.test(c) ? 0 : DOUBLE_WIDTH.test(c) ? 2 : 1;
  return width;
}

export function padEnd(text: string, width: number): string {
  return text + ' '.repeat(Math.max(0, width - widthOf(text)));
}

export function padStart(text: string, width: number): string {
  return ' '.repeat(Math.max(0, width - widthOf(text))) + text;
}

export function padBoth(text: string, width: number): string {
  const spare = Math.max(0, width - widthOf(text));
  return ' '.repeat(spare >> 1) + text + ' '.repeat(spare - (spare >> 1));
}

/** Cuts text without styles to a width, with an ellipsis where something is left out. */
export function clip(text: string, width: number): string {
  if (widthOf(text) <= width) return text;
  let kept = '';
  let used = 0;
  for (const c of text) {
    const next = widthOf(c);
    if (used + next > width - 1) break;
    kept += c;
    used += next;
  }
  return width < 1 ? '' : `${kept.trimEnd()}…`;
}

/** Breaks text without styles at spaces into lines of at most a width; a longer word is broken. */
export function wrap(text: string, width: number): string[] {
  const room = Math.max(1, width);
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/[ \t\n]+/).filter((part) => part !== '')) {
    const joined = line === '' ? word : `${line} ${word}`;
    if (widthOf(joined) <= room) {
      line = joined;
      continue;
    }
    if (line !== '') lines.push(line);
    line = word;
    while (widthOf(line) > room) {
      const [head, tail] = breakAt(line, room);
      lines.push(head);
      line = tail;
    }
  }
  if (line !== '' || lines.length === 0) lines.push(line);
  return lines;
}

/** A chemical name is broken after a hyphen, an account's path after a stroke. */
function breakAt(word: string, width: number): [string, string] {
  let cut = 0;
  let used = 0;
  for (const c of word) {
    const next = widthOf(c);
    if (used + next > width && cut > 0) break;
    used += next;
    cut += c.length;
  }
  const mark = Math.max(word.lastIndexOf('-', cut - 1), word.lastIndexOf('/', cut - 1));
  if (mark > cut / 3) cut = mark + 1;
  return [word.slice(0, cut), word.slice(cut)];
}

/** A paragraph with the first line set off differently from those that follow. */
export function paragraph(
  text: string,
  width: number,
  first = '',
  rest = ' '.repeat(widthOf(first)),
) {
  return wrap(text, width - Math.max(widthOf(first), widthOf(rest)))
    .map((line, i) => (i === 0 ? first : rest) + line)
    .join('\n');
}

/** "1 remark", "2 remarks"; a plural that is not made with s is given. */
export function count(n: number, one: string, many = `${one}s`): string {
  return `${n} ${n === 1 ? one : many}`;
}

/** Control characters could move the cursor or recolour the page: each is replaced, one for one. */
export function harmless(text: string): string {
  // eslint-disable-next-line no-control-regex -- control characters are what is meant
  return text.replace(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f]/g, (c) =>
    c === '\r' ? c : '\ufffd',
  );
}
