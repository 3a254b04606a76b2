/**
 * Writes into the store of a folder as fast as it can, three entries a call from many writers at
 * once, and prints each call when it is acknowledged. Runs until it is killed.
 */
import { writeSync } from 'node:fs';
import { openSqliteStore } from '../../src/store/sqlite.ts';
import { net, RUN } from '../../src/store/testing/pieces.ts';

const [folder = '', round = ''] = process.argv.slice(2);
const opened = await openSqliteStore(folder);
if (!opened.ok) throw new Error(opened.refusal.message);
const store = opened.value;

async function write(writer: number): Promise<void> {
  for (let n = 0; ; n++) {
    const call = `${round}-${writer}-${n}`;
    const entries = ['a', 'b', 'c'].map((part) => net(`${call}-${part}`, n));
    const answer = await store.addEntries(RUN, entries, 'R. T.');
    if (!answer.ok) throw new Error(answer.refusal.message);
    writeSync(1, `${call}\n`);
  }
}

await Promise.all(Array.from({ length: 10 }, (_, writer) => write(writer)));
