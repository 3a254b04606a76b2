import { expect, it } from 'vitest';
import { openPostgresStore } from './postgres.ts';
import { refusalOf } from './refusal.ts';
import { askPostgres, DATABASE_URL, later, onPostgres, postgresUrl } from './testing/kinds.ts';
import { begin, net, RUN } from './testing/pieces.ts';
import { codeOf, valueOf } from './testing/value-of.ts';

onPostgres('connections that break', () => {
  it('are refusals and nothing worse, and what was acknowledged is there', async () => {
    const name = `breaking-${process.pid}`;
    const url = `${await postgresUrl()}&application_name=${name}`;
    const store = valueOf(await openPostgresStore(url));
    later(() => store.close());
    await begin(store);
    const acknowledged: string[] = [];
    const refusals = new Set<string | undefined>();
    let working = true;
    const writers = Array.from({ length: 8 }, async (_, w) => {
      for (let n = 0; working; n++) {
        const answer = await store.addEntries(RUN, [net(`${w}-${n}`)], 'R. T.');
        if (answer.ok) acknowledged.push(`${w}-${n}`);
        else refusals.add(answer.refusal.code);
      }
    });
    const readers = Array.from({ length: 4 }, async () => {
      while (working)
        await store.runs().catch((error: unknown) => refusals.add(refusalOf(error)?.code));
    });
    for (let n = 0; n < 30; n++)
      await askPostgres(
        DATABASE_URL!,
        `select pg_terminate_backend(pid), pg_sleep(0.02) from pg_stat_activity
         where application_name = '${name}'`,
      );
    working = false;
    await Promise.all([...writers, ...readers]);
    expect([...refusals]).toEqual(['database-unreachable']);
    const kept = new Set((await store.entries(RUN)).map(({ entry }) => entry.id));
    expect(acknowledged.filter((id) => !kept.has(id))).toEqual([]);
  });
});

it('a database at an address that is none is refused in words', async () => {
  for (const url of ['postgres://[::1', 'mysql://localhost/course', 'course'])
    expect(codeOf(await openPostgresStore(url))).toBe('database-refused');
});
