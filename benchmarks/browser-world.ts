import type { BrowserContext, Page } from 'playwright-core';
import { createHash } from 'node:crypto';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import setup from '../test/browser/setup.ts';
import { openWorld } from '../test/browser/world.ts';
import type { World } from '../test/browser/world.ts';
import type { ExperimentSummary } from '../src/wire/experiment.ts';
import { documentHere, root, textOf } from './files.ts';
import { opened } from './opened.ts';

/** An experiment on the shelf of a Weighboat that was started for the measurement. */
export interface Shelved {
  readonly id: string;
  readonly name: string;
  readonly text: string;
  readonly steps: number;
}

export interface Measured {
  readonly world: World;
  readonly context: BrowserContext;
  readonly page: Page;
  /** The example with the most steps. */
  readonly example: Shelved;
  /** `two-hundred.md`, put on the shelf. */
  readonly long: Shelved;
}

/** Built pages, served as a user serves them, in a browser that is signed in. */
export async function inBrowser<T>(measure: (at: Measured) => Promise<T>): Promise<T> {
  await setup();
  const world = await openWorld();
  try {
    const { context, page } = await world.signedIn();
    // Functions run in a page come out of tsx, which calls this helper to keep their names.
    await context.addInitScript('globalThis.__name = (named) => named');
    const [example, long] = [await largestExample(world, context), await putIn(world, context)];
    return await measure({ world, context, page, example, long });
  } finally {
    await world.close();
  }
}

/** Sends something to the server as the page would. */
export async function post<T>(
  { origin }: Pick<World, 'origin'>,
  context: BrowserContext,
  path: string,
  data: unknown,
): Promise<T> {
  const answer = await context.request.post(origin + path, { data, headers: { origin } });
  if (!answer.ok()) throw new Error(`${path} was refused: ${await answer.text()}`);
  return (await answer.json()) as T;
}

const stepsIn = (text: string): number => opened(text).plan.trace.length;

async function largestExample(world: World, context: BrowserContext): Promise<Shelved> {
  const folder = join(root, 'examples');
  const [largest] = readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map(({ name }) => ({ name, text: textOf(join(folder, name, 'experiment.md')) }))
    .map((example) => ({ ...example, steps: stepsIn(example.text) }))
    .sort((a, b) => b.steps - a.steps);
  const { name, text, steps } = largest!;
  const document = createHash('sha256').update(text).digest('hex');
  const answer = await context.request.get(`${world.origin}/api/experiments`);
  const shelf = (await answer.json()) as ExperimentSummary[];
  const found = shelf.find(({ head }) => head.document === document);
  const { id } =
    found ?? (await post<{ id: string }>(world, context, '/api/experiments', put(text)));
  return { id, name, text, steps };
}

const put = (text: string) => ({ id: `bench-${crypto.randomUUID()}`, text });

async function putIn(world: World, context: BrowserContext): Promise<Shelved> {
  const name = 'two-hundred.md';
  const text = documentHere(name);
  const { id } = await post<{ id: string }>(world, context, '/api/experiments', put(text));
  return { id, name, text, steps: stepsIn(text) };
}
