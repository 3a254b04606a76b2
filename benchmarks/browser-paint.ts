import type { BrowserContext, Page } from 'playwright-core';
import type { Run } from '../src/wire/run.ts';
import { inBrowser, post } from './browser-world.ts';
import type { Measured } from './browser-world.ts';
import type { Item } from './item.ts';
import { timeText } from './item.ts';
import { median } from './measure.ts';

const RUNS = 7;
const BUDGET_ms = 1000;
/** A bench record never stops listening to the network, so that its silence cannot be waited for. */
const SETTLED_ms = 1500;

/** A laptop of a student, and the network of a full laboratory. */
const SLOW = { processor: 4, down_Mbit_s: 10, up_Mbit_s: 5, latency_ms: 40 };
const SLOW_TEXT = `processor 4 × slower, ${SLOW.down_Mbit_s} Mbit/s, ${SLOW.latency_ms} ms`;

/** A page, and what of it makes it useful as soon as it is seen. */
interface Opening {
  readonly what: string;
  readonly path: string;
  readonly useful: string;
}

interface Painted {
  readonly cold_ms: number;
  readonly warm_ms: number;
  /** Fetched when cold: as they came over the line. */
  readonly files: number;
  readonly fetched_kB: number;
}

const BYTES_OF_Mbit = 125_000;

async function slowDown(context: BrowserContext, page: Page): Promise<void> {
  const session = await context.newCDPSession(page);
  await session.send('Network.enable');
  await session.send('Network.emulateNetworkConditions', {
    offline: false,
    latency: SLOW.latency_ms,
    downloadThroughput: SLOW.down_Mbit_s * BYTES_OF_Mbit,
    uploadThroughput: SLOW.up_Mbit_s * BYTES_OF_Mbit,
  });
  await session.send('Emulation.setCPUThrottlingRate', { rate: SLOW.processor });
}

/** Looks in every frame, and tells the time when the frame that first has it is at its end. */
function tellWhenSeen(useful: string): void {
  const look = () => {
    const node = document.querySelector(useful);
    if (node === null || node.getClientRects().length === 0) return requestAnimationFrame(look);
    const { port1, port2 } = new MessageChannel();
    const tell = window as unknown as { weighboatSeen: (time_ms: number) => void };
    port1.addEventListener('message', () => tell.weighboatSeen(performance.now()));
    port1.start();
    port2.postMessage(0);
  };
  requestAnimationFrame(look);
}

/** Opened in a browser that was never here, and once more in the same one. */
async function open({ world, context: known }: Measured, opening: Opening): Promise<Painted> {
  const context = await world.browser.newContext({
    viewport: { width: 1440, height: 900 },
    storageState: await known.storageState(),
  });
  let seen: (time_ms: number) => void = () => {};
  await context.exposeFunction('weighboatSeen', (time_ms: number) => seen(time_ms));
  await context.addInitScript(`(globalThis.__name = (named) => named)`);
  await context.addInitScript(tellWhenSeen, opening.useful);
  const page = await context.newPage();
  await slowDown(context, page);
  const visit = async () => {
    const told = new Promise<number>((resolve) => (seen = resolve));
    // By way of another page, so that an address that differs in its last part only is opened anew.
    await page.goto('about:blank');
    await page.goto(world.origin + opening.path, { waitUntil: 'commit' });
    await page.locator(opening.useful).first().waitFor();
    return told;
  };
  const cold_ms = await visit();
  await page.waitForTimeout(SETTLED_ms);
  const fetched = await page.evaluate(() =>
    performance
      .getEntries()
      .filter((entry) => entry instanceof PerformanceResourceTiming)
      .map(({ encodedBodySize }) => encodedBodySize),
  );
  const warm_ms = await visit();
  await context.close();
  const fetched_kB = fetched.reduce((sum, size) => sum + size, 0) / 1000;
  return { cold_ms, warm_ms, files: fetched.length, fetched_kB };
}

async function newRun({ world, context, example }: Measured): Promise<Run> {
  const answer = await context.request.get(`${world.origin}/api/experiments/${example.id}`);
  const { head } = (await answer.json()) as { head: { document: string } };
  return post<Run>(world, context, '/api/runs', {
    id: `bench-${crypto.randomUUID()}`,
    experiment: example.id,
    document: head.document,
    bench: 'Bench 1',
  });
}

function item(opening: Opening, painted: readonly Painted[], empty: readonly Painted[]): Item {
  const warm_ms = painted.map((each) => each.warm_ms);
  const { files, fetched_kB } = painted.at(-1)!;
  return {
    what: `In the browser, never opened before: ${opening.what} (${SLOW_TEXT})`,
    times_ms: painted.map((each) => each.cold_ms),
    budget_ms: BUDGET_ms,
    baseline: {
      what: 'the smallest answer of the same server, shown by the same browser',
      times_ms: empty.map((each) => each.cold_ms),
    },
    remarks: [
      `Opened again in the same browser: median ${timeText(median(warm_ms))}.`,
      `Fetched at first: ${files} files, ${fetched_kB.toFixed(0)} kB as they are sent.`,
    ],
  };
}

/** From the address to the first frame that shows what someone came for. */
export async function browserPaint(): Promise<Item[]> {
  return inBrowser(async (at) => {
    const run = await newRun(at);
    const openings: readonly Opening[] = [
      { what: 'the shelf, to its titles', path: '/', useful: '.shelf-row h2' },
      {
        what: `the experiment ${at.example.name}, to the sentence that answers first`,
        path: `/experiments/${at.example.id}`,
        useful: '.experiment-first',
      },
      {
        what: 'the bench record, to its step',
        path: `/bench/${run.id}#step-1`,
        useful: '.bench-sentence',
      },
    ];
    const nothing: Opening = { what: 'nothing', path: '/api/health', useful: 'body' };
    const [empty, ...pages] = [nothing, ...openings].map((opening) => ({
      opening,
      painted: [] as Painted[],
    }));
    for (let n = 0; n < RUNS; n++)
      for (const { opening, painted } of [empty!, ...pages]) painted.push(await open(at, opening));
    return pages.map(({ opening, painted }) => item(opening, painted, empty!.painted));
  });
}
