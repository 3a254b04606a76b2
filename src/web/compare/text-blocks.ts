import { wordRuns } from '../../core/report/difference/words.ts';
import type { WordRun } from '../../core/report/difference/words.ts';
import { editsOf } from './edits.ts';

/** A stretch of the text: lines that stayed, folded where there are many, or lines that changed. */
export type Block =
  | { readonly kind: 'same'; readonly text: string }
  | { readonly kind: 'folded'; readonly lines: number; readonly text: string }
  | { readonly kind: 'changed'; readonly runs: readonly WordRun[] };

/** So many lines stay in sight on either side of a change. */
const NEAR = 2;

/** Both texts as one, with what went out and what came in. */
export function textBlocks(from: string, to: string): Block[] {
  const edits = editsOf(linesOf(from), linesOf(to));
  const blocks: Block[] = [];
  edits.forEach(({ kind, items }, i) => {
    if (kind === 'same') {
      blocks.push(...folded(items, i > 0, i < edits.length - 1));
      return;
    }
    const before = edits[i - 1];
    if (kind === 'in' && before?.kind === 'out') return;
    const next = edits[i + 1];
    const came = kind === 'in' ? items : next?.kind === 'in' ? next.items : [];
    const went = kind === 'out' ? items : [];
    blocks.push({ kind: 'changed', runs: runsOf(went.join(''), came.join('')) });
  });
  return blocks;
}

/** Empty lines in front belong to no word: they are those of the newer text. */
function runsOf(went: string, came: string): WordRun[] {
  const lead = /^\s*/.exec(came)![0];
  const runs = wordRuns(went, came);
  return lead === '' ? runs : [{ kind: 'same', text: lead }, ...runs];
}

/** With their line ends, so that together they are the text again. */
const linesOf = (text: string) => text.match(/[^\n]*\n|[^\n]+$/g) ?? [];

function folded(lines: readonly string[], after: boolean, before: boolean): Block[] {
  const head = after ? NEAR : 0;
  const tail = before ? NEAR : 0;
  const block = (some: readonly string[]): Block[] =>
    some.length === 0 ? [] : [{ kind: 'same', text: some.join('') }];
  const hidden = lines.length - head - tail;
  if (hidden <= 1) return block(lines);
  return [
    ...block(lines.slice(0, head)),
    { kind: 'folded', lines: hidden, text: lines.slice(head, head + hidden).join('') },
    ...block(lines.slice(head + hidden)),
  ];
}
