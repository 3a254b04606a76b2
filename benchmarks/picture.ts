import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { flowSheet } from '../src/core/report/flow/flow.ts';
import { flowSheetParts } from '../src/picture/flow-sheet/flow-sheet.ts';
import type { FlowSheetParts } from '../src/picture/flow-sheet/flow-sheet.ts';
import { flowWords } from '../src/picture/flow-sheet/words.ts';
import { root, textOf } from './files.ts';
import type { Item } from './item.ts';
import { warmTimesOf } from './measure.ts';
import type { Opened } from './opened.ts';
import { opened } from './opened.ts';

const REPEATS = 200;
/** Of a laptop's window, and of a telephone. */
const WIDTHS = { wide: 1440, narrow: 390 } as const;

const sheetOf = ({ experiment, plan }: Opened) => flowSheet(experiment, plan);

function partsAt(document: Opened, width: number): FlowSheetParts {
  const words = flowWords(document.plan, document.experiment);
  return flowSheetParts(sheetOf(document), { width, words });
}

/** The pieces that a page has to put in anew, and those that only move. */
function difference(before: FlowSheetParts, after: FlowSheetParts) {
  const standing = new Map(before.parts.map((part) => [part.key, part]));
  let redrawn = 0;
  let moved = 0;
  for (const { key, svg, y } of after.parts) {
    const old = standing.get(key);
    if (old?.svg !== svg) redrawn++;
    else if (old.y !== y) moved++;
  }
  return { redrawn, moved };
}

/** The example with the most steps, and the same with one amount changed early on. */
function largest() {
  const folder = join(root, 'examples');
  const texts = readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map(({ name }) => ({ name, text: textOf(join(folder, name, 'experiment.md')) }));
  const all = texts.map(({ name, text }) => ({ name, text, before: opened(text) }));
  const [first] = all.sort((a, b) => b.before.plan.trace.length - a.before.plan.trace.length);
  const { name, text, before } = first!;
  const at = text.indexOf('\n## Procedure\n');
  const edited = text
    .slice(at)
    .replace(/(\d+(?:\.\d+)?) mL/, (_, n: string) => `${Number(n) + 1} mL`);
  return { name, before, after: opened(text.slice(0, at) + edited) };
}

/** From the report to the drawing that the page shows, and what one edit changes of it. */
export function picture(): Item[] {
  const { name, before, after } = largest();
  const steps = before.plan.trace.length;
  const report = {
    what: 'the report that is drawn, made from the run',
    times_ms: warmTimesOf(REPEATS, () => sheetOf(before)),
  };
  const drawn = Object.entries(WIDTHS).map(([form, width]): Item => {
    const parts = partsAt(before, width);
    const size_kB = JSON.stringify(parts).length / 1000;
    return {
      what: `The flow sheet of ${name}, ${steps} steps, as pieces of a page, ${form} (${width} px)`,
      times_ms: warmTimesOf(REPEATS, () => partsAt(before, width)),
      budget_ms: 8,
      baseline: report,
      remarks: [`${parts.parts.length} pieces, ${size_kB.toFixed(0)} kB.`],
    };
  });
  const [old, now] = [partsAt(before, WIDTHS.wide), partsAt(after, WIDTHS.wide)];
  const { redrawn, moved } = difference(old, now);
  return [
    ...drawn,
    {
      what: 'What one changed amount changes among those pieces, found by comparing them',
      times_ms: warmTimesOf(REPEATS, () => difference(old, now)),
      baseline: { what: drawn[0]!.what.toLowerCase(), times_ms: drawn[0]!.times_ms },
      remarks: [
        `${redrawn} of ${now.parts.length} pieces are drawn anew, ${moved} only move, the others stay.`,
      ],
    },
  ];
}
