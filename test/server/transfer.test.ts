import { describe, expect, it } from 'vitest';
import { entry, serving, withRun } from './serving.ts';

const ZIP = { 'content-type': 'application/zip' };

describe('everything', () => {
  it('goes out as one file and comes into an empty store as it was', async () => {
    const from = await serving();
    const { instructor, run } = await withRun(from);
    await instructor('POST', `/api/runs/${run}/entries`, { entries: [entry('a'), entry('b')] });
    const out = await instructor('GET', '/api/export');
    expect(out.headers).toMatchObject({
      'content-type': 'application/zip',
      'content-disposition': 'attachment; filename="weighboat-2026-01-15.zip"',
    });
    const to = await serving();
    const ask = to.as(await to.signIn());
    const came = await ask('POST', '/api/import', out.bytes, ZIP);
    expect([came.status, came.body()]).toEqual([
      200,
      { experiments: 1, runs: 1, entries: 2, attachments: 0 },
    ]);
    for (const path of ['/api/experiments', '/api/runs', `/api/runs/${run}`])
      expect((await ask('GET', path)).body()).toEqual((await instructor('GET', path)).body());
  });

  it('does not come in over what is there, nor where it is no export', async () => {
    const served = await serving();
    const { instructor } = await withRun(served);
    const { bytes } = await instructor('GET', '/api/export');
    const over = await instructor('POST', '/api/import', bytes, ZIP);
    expect([over.status, over.body()]).toMatchObject([409, { code: 'store-not-empty' }]);
    const empty = await serving();
    const ask = empty.as(await empty.signIn());
    const wrong: readonly [body: Buffer, headers: Record<string, string>, status: number][] = [
      [Buffer.from('no zip'), ZIP, 422],
      [bytes.subarray(0, bytes.length - 40), ZIP, 422],
      [Buffer.alloc(0), ZIP, 400],
      [bytes, { 'content-type': 'application/json' }, 415],
    ];
    for (const [body, headers, status] of wrong)
      expect((await ask('POST', '/api/import', body, headers)).status).toBe(status);
    expect((await ask('GET', '/api/experiments')).body()).toEqual([]);
    // A try that was refused does not stand in the way of the next.
    expect((await ask('POST', '/api/import', bytes, ZIP)).status).toBe(200);
  });

  it('comes in once, whoever sends it at the same time', async () => {
    const from = await serving();
    const { instructor } = await withRun(from);
    const { bytes } = await instructor('GET', '/api/export');
    const to = await serving();
    const ask = to.as(await to.signIn());
    const answers = await Promise.all([1, 2].map(() => ask('POST', '/api/import', bytes, ZIP)));
    const codes = answers.map(({ text }) => /"code":"([\w-]+)"/.exec(text)?.[1]);
    expect(new Set(codes)).toEqual(new Set(['import-under-way', undefined]));
  });

  it('is nothing for a bench', async () => {
    const served = await serving();
    const { run } = await withRun(served);
    const bench = served.as(await served.signIn('bench', run));
    expect((await bench('GET', '/api/export')).status).toBe(403);
    expect((await bench('POST', '/api/import', Buffer.from('x'), ZIP)).status).toBe(403);
  });
});
