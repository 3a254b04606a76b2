import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { root } from './files.ts';
import type { Item } from './item.ts';

const RUNS = 10;
const LISTENS = 'Weighboat listens';

/** How long a process takes to print `until`, or to end where that is not asked, in ms. */
async function timeTo(until: string | undefined, folder: string, ...args: string[]) {
  const begun = performance.now();
  const child = spawn(process.execPath, args, {
    cwd: root,
    env: { ...process.env, WEIGHBOAT_FOLDER: folder, INIT_CWD: root },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const ended = once(child, 'exit');
  let said = '';
  if (until !== undefined)
    for await (const part of child.stdout.setEncoding('utf8')) {
      said += part as string;
      if (said.includes(until)) break;
    }
  else await ended;
  const time_ms = performance.now() - begun;
  child.kill('SIGTERM');
  await ended;
  if (until !== undefined && !said.includes(until)) throw new Error(`it ended, saying: ${said}`);
  return time_ms;
}

const start = (folder: string) => timeTo(LISTENS, folder, 'scripts/start.mjs', '--port', '0');

/** From the shell's Enter to the line that says where it listens, the look for stale parts included. */
export async function startToListening(): Promise<Item[]> {
  const folders = Array.from({ length: RUNS + 1 }, () =>
    mkdtempSync(join(tmpdir(), 'weighboat-start-')),
  );
  try {
    // Once uncounted: it builds what is stale, and fills the system's cache of files.
    await start(folders[0]!);
    const [empty_ms, first_ms, again_ms]: [number[], number[], number[]] = [[], [], []];
    for (const folder of folders.slice(1)) {
      empty_ms.push(await timeTo(undefined, folder, '-e', '0'));
      first_ms.push(await start(folder));
      again_ms.push(await start(folder));
    }
    const baseline = { what: 'an empty process: node -e 0', times_ms: empty_ms };
    return [
      {
        what: '`npm start` without npm, built, to the line where it listens',
        times_ms: again_ms,
        budget_ms: 1500,
        baseline,
        remarks: [],
      },
      {
        what: 'The same in an empty folder: the store is made and the demonstration course put in',
        times_ms: first_ms,
        budget_ms: 1500,
        baseline,
        remarks: [],
      },
    ];
  } finally {
    for (const folder of folders) rmSync(folder, { recursive: true, force: true });
  }
}
