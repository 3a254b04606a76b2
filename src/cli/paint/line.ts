import { widthOf } from './text.ts';

interface Cell {
  readonly text: string;
  readonly set: (text: string) => string;
}

/** One line of a picture made of characters: texts are put at columns, later ones over earlier. */
export interface Line {
  readonly put: (x: number, text: string, set?: (text: string) => string) => void;
  readonly at: (x: number) => string;
  readonly paint: () => string;
}

const bare = (text: string) => text;

export function blankLine(width: number): Line {
  const cells = new Map<number, Cell>();
  return {
    put(x, text, set = bare) {
      let at = x;
      for (const c of text) {
        const wide = widthOf(c);
        if (at >= 0 && at + wide <= width) cells.set(at, { text: c, set });
        at += Math.max(1, wide);
      }
    },
    at: (x) => cells.get(x)?.text ?? ' ',
    paint: () => paintCells(cells),
  };
}

/** Neighbours of one style are set together, so that a line holds few escapes. */
function paintCells(cells: ReadonlyMap<number, Cell>): string {
  const columns = [...cells.keys()].sort((a, b) => a - b);
  let text = '';
  let end = 0;
  let run = '';
  let set = bare;
  const close = () => {
    text += run.trim() === '' ? run : set(run);
    run = '';
  };
  for (const x of columns) {
    const cell = cells.get(x)!;
    if (x < end) continue;
    if (x > end || cell.set !== set) {
      close();
      text += ' '.repeat(x - end);
      set = cell.set;
    }
    run += cell.text;
    end = x + Math.max(1, widthOf(cell.text));
  }
  run = run.trimEnd();
  close();
  return text.trimEnd();
}
