/**
 * `npm run bench`: what is slow and what is not, beside something measured in the same run.
 * `npm run bench -- keystroke` measures one item. Nothing here fails for being slow.
 */
import { cpus, loadavg } from 'node:os';
import { browserKeystroke } from './browser-keystroke.ts';
import { browserPaint } from './browser-paint.ts';
import { compositions } from './compositions.ts';
import { enactForty } from './enact-forty.ts';
import { equations } from './equations.ts';
import { coldYield, firstRead } from './fresh-process.ts';
import type { Item, SizeItem } from './item.ts';
import { itemText } from './item.ts';
import { keystroke } from './keystroke.ts';
import { monteCarloYield } from './monte-carlo.ts';
import { storeEntries } from './store.ts';
import { picture } from './picture.ts';
import { scriptsSize } from './scripts-size.ts';
import { spectrumJudge } from './spectrum-judge.ts';
import { spectrumLibrary } from './spectrum-library.ts';
import { spectrumRead } from './spectrum-read.ts';
import { spectrumTreat } from './spectrum-treat.ts';
import { startToListening } from './start.ts';
import { trace } from './trace.ts';
import { tenThousandBenches } from './ten-thousand.ts';

const ITEMS: Readonly<
  Record<string, () => readonly Item[] | Promise<readonly (Item | SizeItem)[]>>
> = {
  enact: enactForty,
  keystroke,
  picture,
  benches: tenThousandBenches,
  'monte-carlo': monteCarloYield,
  yield: coldYield,
  equations,
  compositions,
  'first-read': firstRead,
  start: startToListening,
  store: storeEntries,
  scripts: scriptsSize,
  'spectrum-read': spectrumRead,
  'spectrum-treat': spectrumTreat,
  'spectrum-judge': spectrumJudge,
  'spectrum-library': spectrumLibrary,
  trace,
  'page-keystroke': browserKeystroke,
  'page-paint': browserPaint,
};

async function run(wanted: readonly string[]): Promise<number> {
  const unknown = wanted.filter((name) => !(name in ITEMS));
  if (unknown.length > 0) {
    console.error(
      `No item is called ${unknown.join(', ')}. There are: ${Object.keys(ITEMS).join(', ')}.`,
    );
    return 2;
  }
  const [core] = cpus();
  const [load = 0] = loadavg();
  console.log(
    `Node ${process.versions.node}, ${cpus().length} × ${core?.model.trim() ?? 'unknown processor'}, ` +
      `load ${load.toFixed(1)} before the start`,
  );
  if (load > cpus().length / 2)
    console.log('Something else is at work here: believe the ratios, not the times.');
  let failed = 0;
  for (const [name, measure] of Object.entries(ITEMS)) {
    if (wanted.length > 0 && !wanted.includes(name)) continue;
    try {
      for (const item of await measure()) console.log(`\n${itemText(item)}`);
    } catch (error) {
      failed = 1;
      console.error(`\n${name} could not be measured: ${String(error)}`);
    }
  }
  return failed;
}

process.exitCode = await run(process.argv.slice(2));
