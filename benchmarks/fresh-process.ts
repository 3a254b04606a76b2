import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { benchmarks, demo, root } from './files.ts';
import type { Item } from './item.ts';
import { timeText } from './item.ts';
import { median, timesOf } from './measure.ts';

const RUNS = 7;
const PREPARE = "import { buildIfStale } from './scripts/prepare.mjs'; await buildIfStale();";

/** Runs this same Node and gives what it printed. */
function node(...args: string[]): string {
  const done = spawnSync(process.execPath, args, { cwd: root, encoding: 'utf8' });
  if (done.status !== 0) throw new Error(done.stderr);
  return done.stdout;
}

/** A command as somebody types it: a whole process, from its start to its end. */
export function coldYield(): Item[] {
  node('--input-type=module', '-e', PREPARE);
  const ask = ['bin/weighboat.mjs', 'yield', demo.document, '--record', demo.record];
  node(...ask);
  const pairs = Array.from({ length: RUNS }, () => {
    const [asked] = timesOf(
      1,
      () => node(...ask),
      () => undefined,
    );
    const [empty] = timesOf(
      1,
      () => node('-e', '0'),
      () => undefined,
    );
    return { asked: asked!, empty: empty! };
  });
  const times_ms = pairs.map(({ asked }) => asked);
  const empty_ms = pairs.map(({ empty }) => empty);
  return [
    {
      what: '`weighboat yield` of the demonstration, a whole cold process',
      times_ms,
      budget_ms: 500,
      baseline: { what: 'an empty process: node -e 0', times_ms: empty_ms },
      remarks: [
        `Over and above the start of Node: ${timeText(median(times_ms) - median(empty_ms))}.`,
      ],
    },
  ];
}

interface FirstRead {
  readonly load_ms: number;
  readonly first_ms: number;
  readonly enact_ms: number;
  readonly second_ms: number;
}

/** Tables as text that is parsed at need, as the program's own bundle has them. */
const tablesAsText = {
  name: 'tables-as-text',
  setup(
    bundling: Parameters<NonNullable<Parameters<typeof build>[0]['plugins']>[number]['setup']>[0],
  ) {
    bundling.onLoad({ filter: /facts[\\/][^\\/]+\.json$/ }, ({ path }) => {
      const text = JSON.stringify(JSON.parse(readFileSync(path, 'utf8')));
      return { contents: `export default JSON.parse(${JSON.stringify(text)});`, loader: 'js' };
    });
  },
};

/** The first document that a process reads: every table and index is made on the way. */
export async function firstRead(): Promise<Item[]> {
  const folder = mkdtempSync(join(tmpdir(), 'weighboat-'));
  try {
    const bundle = join(folder, 'core.mjs');
    await build({
      entryPoints: [join(benchmarks, 'first-read.entry.ts')],
      outfile: bundle,
      bundle: true,
      platform: 'node',
      format: 'esm',
      target: 'node20',
      logLevel: 'error',
      plugins: [tablesAsText],
    });
    const script = join(benchmarks, 'first-read.mjs');
    const runs = Array.from(
      { length: RUNS },
      () => JSON.parse(node(script, bundle, demo.document)) as FirstRead,
    );
    const each = (key: keyof FirstRead) => runs.map((run) => run[key]);
    return [
      {
        what: 'First read of the demonstration in a fresh process',
        times_ms: each('first_ms'),
        baseline: {
          what: 'reading it again in the same process',
          times_ms: each('second_ms'),
        },
        remarks: [
          `Before it, loading the program and its tables: ${timeText(median(each('load_ms')))}. ` +
            `After it, the first enactment: ${timeText(median(each('enact_ms')))}.`,
        ],
      },
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
