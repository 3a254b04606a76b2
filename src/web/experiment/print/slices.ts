import type { FlowSheetParts } from '../../../picture/flow-sheet/flow-sheet.ts';

/** A stretch of the sheet from one row to the next, as a picture of its own. */
export interface Slice {
  readonly key: string;
  readonly viewBox: string;
  /** Of the width of the whole: how high it is. */
  readonly ratio: number;
  readonly svg: string;
}

/**
 * The sheet cut between its rows, so that a page of paper can end there. What runs on through many
 * rows (the life of a vessel) is in every slice; each shows only its own stretch.
 */
export function slicesOf({ viewBox, parts, defs }: FlowSheetParts): Slice[] {
  const [, , width = 0, height = 0] = viewBox.split(' ').map(Number);
  const placed = ({ y, svg }: FlowSheetParts['parts'][number]) =>
    `<g transform="translate(0 ${y})">${svg}</g>`;
  const rows = parts.filter(({ step }) => step !== undefined);
  const through = parts.filter(({ step, key }) => step === undefined && key !== 'selected');
  const foot = parts.find(({ key }) => key === 'foot');
  const cuts = [...rows.map(({ y }) => y), ...(foot === undefined ? [] : [foot.y])];
  const starts = [0, ...cuts].filter((y, i, all) => i === 0 || y > all[i - 1]!);
  return starts.flatMap((y, i): Slice[] => {
    const end = starts[i + 1] ?? height;
    if (end <= y) return [];
    const own = rows.filter((row) => row.y >= y && row.y < end);
    const drawn = [...through, ...own].map(placed).join('');
    return [
      {
        key: own[0]?.key ?? (i === 0 ? 'head' : 'foot'),
        viewBox: `0 ${y} ${width} ${end - y}`,
        ratio: (end - y) / width,
        svg: (i === 0 ? `<defs>${defs}</defs>` : '') + drawn,
      },
    ];
  });
}
