export interface TextChange {
  readonly from: number;
  readonly to: number;
  readonly insert: string;
}

const NUMBERED = /^(\s*)(\d+)([.)])(\s+)/;
const BULLET = /^(\s*)([-*+])(\s+)/;

/**
 * What the Enter key does in a list: the next item begins with its mark, and the numbers after it
 * move up by one as far as they count on. In an empty item the list ends. Undefined outside a list.
 */
export function continueList(text: string, at: number): readonly TextChange[] | undefined {
  const start = text.lastIndexOf('\n', at - 1) + 1;
  const line = text.slice(start, lineEnd(text, start));
  const numbered = NUMBERED.exec(line);
  const mark = numbered ?? BULLET.exec(line);
  if (mark === null || at < start + mark[0].length) return undefined;
  if (line.length === mark[0].length) return [{ from: start, to: at, insert: '' }];
  if (numbered === null) return [{ from: at, to: at, insert: `\n${mark[0]}` }];
  const [, indent, written, point, gap] = numbered;
  const next = Number(written) + 1;
  return [
    { from: at, to: at, insert: `\n${indent}${next}${point}${gap}` },
    ...movedUp(text, lineEnd(text, at) + 1, next),
  ];
}

/** How many characters before the cursor are an item's number written a second time: "2. 2.". */
export function doubledNumber(before: string): number {
  const doubled = /^\s*(\d+[.)])\s+(\d+[.)])$/.exec(before);
  return doubled !== null && doubled[1] === doubled[2] ? doubled[2]!.length : 0;
}

function lineEnd(text: string, from: number): number {
  const end = text.indexOf('\n', from);
  return end < 0 ? text.length : end;
}

/** Items that count on from `number`, up to the next section, each by one more. */
function movedUp(text: string, from: number, number: number): TextChange[] {
  const changes: TextChange[] = [];
  let expected = number;
  for (let start = from; start < text.length; start = lineEnd(text, start) + 1) {
    const line = text.slice(start, lineEnd(text, start));
    if (/^#{1,2}\s/.test(line)) break;
    const item = NUMBERED.exec(line);
    if (item === null) continue;
    if (Number(item[2]) !== expected) break;
    const place = start + item[1]!.length;
    expected++;
    changes.push({ from: place, to: place + item[2]!.length, insert: String(expected) });
  }
  return changes;
}
