/** What a handout is set from: as much of Markdown as an experiment uses. */
export type Block =
  | { readonly kind: 'heading'; readonly level: number; readonly text: string }
  | { readonly kind: 'paragraph'; readonly text: string }
  /** A line "Key: value", which stands by itself. */
  | { readonly kind: 'fact'; readonly key: string; readonly text: string }
  | { readonly kind: 'remark'; readonly text: string }
  | { readonly kind: 'items'; readonly first: number | null; readonly items: readonly string[] };

type Line =
  | Exclude<Block, { readonly kind: 'items' }>
  | { readonly kind: 'blank' }
  | { readonly kind: 'item'; readonly number: number | null; readonly text: string };

function lineOf(line: string): Line {
  if (line.trim() === '') return { kind: 'blank' };
  const heading = /^(#{1,6})\s+(.*?)\s*#*\s*$/.exec(line);
  if (heading) return { kind: 'heading', level: heading[1]!.length, text: heading[2]! };
  const remark = /^\s*>\s?(.*)$/.exec(line);
  if (remark) return { kind: 'remark', text: remark[1]! };
  const item = /^\s*(?:(\d+)[.)]|[-*+])\s+(.*)$/.exec(line);
  if (item)
    return { kind: 'item', number: item[1] === undefined ? null : Number(item[1]), text: item[2]! };
  const fact = /^([A-Z][A-Za-z /-]{0,30}):\s+(\S.*)$/.exec(line);
  if (fact) return { kind: 'fact', key: fact[1]!, text: fact[2]! };
  return { kind: 'paragraph', text: line.trim() };
}

/** Parts a text into its blocks. Lines of one paragraph, remark or item are joined into one. */
export function blocksOf(text: string): Block[] {
  const blocks: Block[] = [];
  let blank = true;
  for (const written of text.split(/\r?\n/)) {
    const line = lineOf(written);
    const last = blocks.at(-1);
    if (line.kind === 'item') {
      const goesOn = last?.kind === 'items' && (last.first === null) === (line.number === null);
      if (goesOn) blocks[blocks.length - 1] = { ...last, items: [...last.items, line.text] };
      else blocks.push({ kind: 'items', first: line.number, items: [line.text] });
    } else if (line.kind === 'paragraph' && !blank && last?.kind === 'items') {
      const items = [...last.items.slice(0, -1), `${last.items.at(-1)} ${line.text}`];
      blocks[blocks.length - 1] = { ...last, items };
    } else if (
      (line.kind === 'paragraph' || line.kind === 'remark') &&
      !blank &&
      last?.kind === line.kind
    ) {
      blocks[blocks.length - 1] = { ...last, text: `${last.text} ${line.text}` };
    } else if (line.kind !== 'blank') blocks.push(line);
    blank = line.kind === 'blank';
  }
  return blocks;
}

export interface Inline {
  readonly text: string;
  readonly kind: 'plain' | 'strong' | 'emphasis';
}

/** Words set heavier or slanted; code and links are set as their words. */
export function inlineOf(text: string): Inline[] {
  const plain = text.replace(/`([^`]+)`/g, '$1').replace(/\[([^\]]+)\]\([^)]*\)/g, '$1');
  return plain
    .split(/(\*\*[^*]+\*\*|__[^_]+__|\*[^*\s][^*]*\*|(?<!\w)_[^_]+_(?!\w))/)
    .filter((piece) => piece !== '')
    .map((piece): Inline => {
      if (/^(\*\*|__).+\1$/.test(piece)) return { kind: 'strong', text: piece.slice(2, -2) };
      if (/^([*_]).+\1$/.test(piece)) return { kind: 'emphasis', text: piece.slice(1, -1) };
      return { kind: 'plain', text: piece };
    });
}
