/** One stretch of a text replaced: what an editor applies as a single change that can be undone. */
export interface TextChange {
  readonly from: number;
  readonly to: number;
  readonly insert: string;
}

/** An edit that was made, or in plain words why it was not: nothing is changed then. */
export type Edit =
  | { readonly ok: true; readonly change: TextChange; readonly text: string }
  | { readonly ok: false; readonly why: string; readonly hint?: string };

export function refuse(why: string, hint?: string): Edit {
  return { ok: false, why, ...(hint === undefined ? {} : { hint }) };
}

/** The edit that replaces a stretch, narrowed to what really differs. */
export function replace(text: string, from: number, to: number, insert: string): Edit {
  const old = text.slice(from, to);
  const shared = Math.min(old.length, insert.length);
  let head = 0;
  while (head < shared && old[head] === insert[head]) head++;
  let tail = 0;
  while (tail < shared - head && old.at(-1 - tail) === insert.at(-1 - tail)) tail++;
  const change = {
    from: from + head,
    to: to - tail,
    insert: insert.slice(head, insert.length - tail),
  };
  return { ok: true, change, text: applied(text, change) };
}

export function applied(text: string, { from, to, insert }: TextChange): string {
  return text.slice(0, from) + insert + text.slice(to);
}
