import { createHash } from 'node:crypto';
import type { AddressInfo } from 'node:net';
import { describe, expect, it } from 'vitest';
import { BENZOIC, entry, serving, withRun } from './serving.ts';
import type { Answer } from './serving.ts';

const sha256 = (bytes: string | Uint8Array): string =>
  createHash('sha256').update(bytes).digest('hex');

/** Status and code of a refusal, or the status and the body. */
const seen = (answer: Answer): unknown[] => {
  const body: { code?: string } = answer.body();
  return [answer.status, body.code ?? body];
};

describe('experiments', () => {
  it('are made once, listed, opened and put away', async () => {
    const served = await serving();
    const ask = served.as(await served.signIn());
    const given = { id: 'experiment-1', text: BENZOIC };
    const made = await ask('POST', '/api/experiments', given);
    expect([made.status, made.body()]).toEqual([
      201,
      {
        id: 'experiment-1',
        title: 'Benzoic acid from sodium benzoate',
        course: 'Preparative chemistry 1',
        head: {
          number: 1,
          document: sha256(BENZOIC),
          savedAt: '2026-01-15T09:00:00.000Z',
          savedBy: 'R. Thorne',
          name: null,
        },
        runs: 0,
        putAway: false,
        text: BENZOIC,
      },
    ]);
    const again = await ask('POST', '/api/experiments', given);
    expect([again.status, again.text]).toEqual([201, made.text]);
    const other = { ...given, text: '# Something else\n' };
    expect(seen(await ask('POST', '/api/experiments', other))).toEqual([409, 'experiment-differs']);
    const { text: _text, ...summary }: { text: string } = made.body();
    expect((await ask('GET', '/api/experiments')).body()).toEqual([summary]);
    expect((await ask('GET', '/api/experiments/experiment-1')).text).toBe(made.text);
    const away = await ask('PATCH', '/api/experiments/experiment-1', { putAway: true });
    expect(away.body()).toMatchObject({ id: 'experiment-1', putAway: true });
  });

  it('that are not there, or not as they should be, are refused in words', async () => {
    const served = await serving();
    const ask = served.as(await served.signIn());
    expect(seen(await ask('GET', '/api/experiments/no-such-one'))).toEqual([404, 'not-found']);
    expect(seen(await ask('PATCH', '/api/experiments/no-such-one', { putAway: true }))).toEqual([
      404,
      'not-found',
    ]);
    expect(seen(await ask('GET', '/api/experiments/x'))).toEqual([400, 'wrong-input']);
    const wrong: readonly unknown[] = [
      {},
      { id: 'short', text: '' },
      { id: 'experiment-1', text: 7 },
      { id: 'experiment-1', text: '', more: true },
      '[',
      'null',
    ];
    for (const body of wrong) {
      const headers = { 'content-type': 'application/json' };
      expect(seen(await ask('POST', '/api/experiments', body, headers))).toEqual([
        400,
        'wrong-input',
      ]);
    }
    const plain = await ask('POST', '/api/experiments', 'x', { 'content-type': 'text/plain' });
    expect(seen(plain)).toEqual([415, 'wrong-media-type']);
    const place = await ask('POST', '/api/experiments', { id: 'experiment-1', text: 7 });
    expect(place.body()).toMatchObject({ message: expect.stringContaining('body at text') });
  });
});

describe('versions', () => {
  it('are added, named, listed and read; one that moved overwrites nothing', async () => {
    const served = await serving();
    const { instructor: ask } = await withRun(served);
    const path = '/api/experiments/experiment-1/versions';
    const text = `${BENZOIC}\nA remark.\n`;
    const second = await ask('POST', path, { text, base: 1, name: 'After the trial' });
    expect([second.status, second.body()]).toMatchObject([
      201,
      { number: 2, document: sha256(text), name: 'After the trial' },
    ]);
    const late = await ask('POST', path, { text: '# Late\n', base: 1 });
    expect(seen(late)).toEqual([409, 'version-moved']);
    const renamed = await ask('PATCH', `${path}/1`, { name: 'As printed' });
    expect(renamed.body()).toMatchObject({ number: 1, name: 'As printed' });
    const list: { number: number; name: string }[] = (await ask('GET', path)).body();
    expect(list.map(({ number, name }) => [number, name])).toEqual([
      [2, 'After the trial'],
      [1, 'As printed'],
    ]);
    expect((await ask('GET', `${path}/2`)).body()).toMatchObject({ number: 2, text });
    const document = await ask('GET', `/api/documents/${sha256(text)}`);
    expect(document.text).toBe(text);
    expect(document.headers).toMatchObject({
      'content-type': 'text/markdown; charset=utf-8',
      'cache-control': 'private, max-age=31536000, immutable',
    });
    const answer = await ask('GET', `/api/documents/${sha256(text)}/answer`);
    // 1.44 g / 144.105 g/mol = 9.99 mmol; times 122.123 g/mol 1.22 g
    const { matter }: { matter: string[] } = answer.body();
    const [made = ''] = matter;
    expect(made.replaceAll('\u202f', ' ')).toMatch(
      /^Makes at most 1\.22 g \(9\.99 mmol\) of benzoic/,
    );
  });

  it('that are not there are refused', async () => {
    const served = await serving();
    const { instructor: ask } = await withRun(served);
    const none = '/api/experiments/no-such-one/versions';
    const cases: readonly [Parameters<typeof ask>, number][] = [
      [['GET', none], 404],
      [['POST', none, { text: '', base: 1 }], 404],
      [['GET', '/api/experiments/experiment-1/versions/2'], 404],
      [['PATCH', '/api/experiments/experiment-1/versions/2', { name: null }], 404],
      [['GET', '/api/experiments/experiment-1/versions/0'], 400],
      [['GET', '/api/experiments/experiment-1/versions/1e9'], 400],
      [['PATCH', '/api/experiments/experiment-1/versions/1', { name: ' ' }], 400],
      [['GET', `/api/documents/${'0'.repeat(64)}`], 404],
      [['GET', '/api/documents/0'], 400],
      [['GET', `/api/documents/${'0'.repeat(64)}/answer`], 404],
    ];
    for (const [asked, status] of cases)
      expect([asked, (await ask(...asked)).status]).toEqual([asked, status]);
  });
});

describe('bench records', () => {
  it('are begun from a version, opened, and worked through on their sheet', async () => {
    const served = await serving();
    const { instructor: ask, document, run } = await withRun(served);
    const given = { id: run, experiment: 'experiment-1', document, bench: 'Bench 4' };
    expect((await ask('POST', '/api/runs', given)).status).toBe(201);
    expect(seen(await ask('POST', '/api/runs', { ...given, bench: 'Bench 5' }))).toEqual([
      409,
      'run-differs',
    ]);
    const other = { ...given, id: 'run-number-2', document: '0'.repeat(64) };
    expect(seen(await ask('POST', '/api/runs', other))).toEqual([404, 'version-unknown']);
    expect((await ask('GET', '/api/runs?experiment=experiment-1')).body()).toMatchObject([
      { id: run, versionNumber: 1, title: 'Benzoic acid from sodium benzoate', entries: 0 },
    ]);
    expect((await ask('GET', '/api/runs?experiment=no-such-one')).body()).toEqual([]);
    expect((await ask('GET', `/api/runs/${run}`)).body()).toMatchObject({
      text: BENZOIC,
      kept: [],
    });
    const sheet: { steps: { id: string; fields: { kind: string }[] }[] } = (
      await ask('GET', `/api/runs/${run}/sheet`)
    ).body();
    expect(sheet.steps.map(({ id }) => id)).toEqual(['1', '2', '3', '4', '5']);
    expect(sheet.steps[0]!.fields[0]).toMatchObject({ kind: 'charge', item: 'sodium benzoate' });
    expect(seen(await ask('GET', '/api/runs/no-such-run/sheet'))).toEqual([404, 'not-found']);
  });

  it('keep what is entered once, and never two things under one id', async () => {
    const served = await serving();
    const { instructor: ask, run } = await withRun(served);
    const path = `/api/runs/${run}/entries`;
    const first = await ask('POST', path, { entries: [entry('a'), entry('b')] });
    const acknowledged = [
      { id: 'a', seq: 1 },
      { id: 'b', seq: 2 },
    ];
    expect([first.status, first.body()]).toEqual([201, { acknowledged }]);
    const again = await ask('POST', path, { entries: [entry('b'), entry('a')] });
    expect([again.status, again.body()]).toEqual([
      201,
      { acknowledged: [...acknowledged].reverse() },
    ]);
    const other = { entries: [entry('c'), entry('a', { value: 9 })] };
    expect(seen(await ask('POST', path, other))).toEqual([409, 'entry-differs']);
    const kept: { seq: number; entry: object }[] = (await ask('GET', `${path}?after=1`)).body();
    expect(kept).toMatchObject([{ seq: 2, entry: entry('b') }]);
    expect((await ask('GET', `/api/runs/${run}`)).body()).toMatchObject({ entries: 2 });
  });

  it('refuse what is no entry', async () => {
    const served = await serving();
    const { instructor: ask, run } = await withRun(served);
    const path = `/api/runs/${run}/entries`;
    const wrong: readonly unknown[] = [
      { entries: [] },
      { entries: [entry('a', { colour: 'white' })] },
      { entries: [entry('a', { value: '1.4' })] },
      { entries: Array.from({ length: 201 }, (_, n) => entry(`e${n}`)) },
    ];
    for (const body of wrong) expect(seen(await ask('POST', path, body))[0]).toBe(400);
    const none = await ask('POST', '/api/runs/no-such-run/entries', { entries: [entry('a')] });
    expect(seen(none)).toEqual([404, 'run-unknown']);
    expect((await ask('GET', '/api/runs/no-such-run/entries')).status).toBe(404);
    expect((await ask('GET', `${path}?after=x`)).status).toBe(400);
  });
});

describe('attachments', () => {
  const picture = Buffer.from('89504e470d0a1a0a', 'hex');
  const path = `/api/attachments/${sha256(picture)}`;

  it('come back as they were sent, and can do nothing', async () => {
    const served = await serving();
    const ask = served.as(await served.signIn());
    const sent = await ask('PUT', path, picture, { 'content-type': 'image/png; x=y' });
    expect([sent.status, sent.body()]).toEqual([201, { hash: sha256(picture) }]);
    const got = await ask('GET', path);
    expect(got.bytes).toEqual(picture);
    expect(got.headers).toMatchObject({
      'content-type': 'image/png',
      'content-security-policy': expect.stringContaining('sandbox'),
      'x-content-type-options': 'nosniff',
    });
    expect(got.headers['content-disposition']).toBeUndefined();
  });

  it.each([
    'image/svg+xml',
    'text/html',
    'application/json',
    'multipart/form-data; boundary=x',
    '',
  ])('of the type "%s" are offered for saving', async (type) => {
    const served = await serving();
    const ask = served.as(await served.signIn());
    const bytes = Buffer.from('<svg onload="x()"/>');
    const url = `/api/attachments/${sha256(bytes)}`;
    const headers = type === '' ? {} : { 'content-type': type };
    expect((await ask('PUT', url, bytes, headers)).status).toBe(201);
    const got = await ask('GET', url);
    expect([got.bytes, got.headers['content-type']]).toEqual([bytes, 'application/octet-stream']);
    expect(got.headers['content-disposition']).toMatch(/^attachment/);
  });

  it('are refused where they are not what the hash says, empty, too large, or not there', async () => {
    const served = await serving();
    const ask = served.as(await served.signIn());
    const type = { 'content-type': 'image/png' };
    const wrong = await ask('PUT', `/api/attachments/${'0'.repeat(64)}`, picture, type);
    expect(seen(wrong)).toEqual([400, 'attachment-differs']);
    expect(seen(await ask('PUT', path, Buffer.alloc(0), type))).toEqual([400, 'empty']);
    const large = await ask('PUT', path, Buffer.alloc(10 * 1024 * 1024 + 1), type);
    expect(seen(large)).toEqual([413, 'too-large']);
    expect((await ask('GET', path)).status).toBe(404);
    expect((await ask('PUT', '/api/attachments/xyz', picture, type)).status).toBe(400);
  });

  it('are shown to a bench when its own record names them', async () => {
    const served = await serving();
    const { run } = await withRun(served);
    const bench = served.as(await served.signIn('bench', run));
    await bench('PUT', path, picture, { 'content-type': 'image/png' });
    expect((await bench('GET', path)).status).toBe(404);
    const seenThere = entry('a', { kind: 'observation', attachments: [sha256(picture)] });
    await bench('POST', `/api/runs/${run}/entries`, { entries: [seenThere] });
    expect((await bench('GET', path)).status).toBe(200);
  });
});

describe('structures', () => {
  it('are drawn in either ink, read, and refused with the reason', async () => {
    const served = await serving();
    const ask = served.as(await served.signIn());
    const light = await ask('GET', '/api/drawings?smiles=OC(%3DO)c1ccccc1');
    const dark = await ask('GET', '/api/drawings?smiles=OC(%3DO)c1ccccc1&dark=1');
    expect(light.headers['content-type']).toBe('image/svg+xml');
    expect(light.text).toMatch(/^<svg /);
    expect(dark.text).not.toBe(light.text);
    expect((await ask('GET', '/api/drawings?smiles=OC(%3DO)c1ccccc1')).text).toBe(light.text);
    expect(seen(await ask('GET', '/api/drawings?smiles=C1CC'))).toEqual([422, 'no-structure']);
    expect((await ask('GET', '/api/drawings')).status).toBe(400);
    expect((await ask('GET', `/api/drawings?smiles=${'C'.repeat(1001)}`)).status).toBe(400);
    const read = await ask('POST', '/api/structures', { smiles: 'OC(=O)c1ccccc1' });
    expect(read.body()).toEqual({ ok: true, canonical: 'O=C(O)c1ccccc1', formula: 'C7H6O2' });
    const unread = await ask('POST', '/api/structures', { smiles: 'C1CC' });
    expect(unread.body()).toEqual({ ok: false, message: expect.stringMatching(/column/) });
  });

  it('of a document are drawn as its reactions, with the amounts of its plan', async () => {
    const served = await serving();
    const ask = served.as(await served.signIn());
    const drawn: { svg: string } = (
      await ask('POST', '/api/schemes', { text: BENZOIC, dark: false })
    ).body();
    expect(drawn.svg).toMatch(/^<svg /);
    expect(drawn.svg).not.toMatch(/style=|<script/);
    // 1.44 g of sodium benzoate, 144.10 g/mol, gives 9.99 mmol of benzoic acid, 122.12 g/mol.
    expect(drawn.svg.replace(/\u202f/g, ' ')).toContain('sodium benzoate, 9.99 mmol');
    expect(drawn.svg.replace(/\u202f/g, ' ')).toContain('benzoic acid, 1.22 g in theory');
    const none = await ask('POST', '/api/schemes', { text: '# Nothing yet\n', dark: true });
    expect([none.status, none.body()]).toEqual([200, { svg: null }]);
    expect((await ask('POST', '/api/schemes', { text: BENZOIC })).status).toBe(400);
  });

  it('one below the other where a document declares several', async () => {
    const served = await serving();
    const ask = served.as(await served.signIn());
    const text = BENZOIC.replace('## Vessels', 'HCl + NaOH -> NaCl + H2O\n\n## Vessels');
    const { svg }: { svg: string } = (
      await ask('POST', '/api/schemes', { text, dark: false })
    ).body();
    expect(svg.match(/<svg /g)).toHaveLength(3);
    expect(svg.match(/<svg x="0" y="\d/g)).toHaveLength(2);
  });
});

describe('settings', () => {
  it('are read by everybody who is signed in and set as a whole', async () => {
    const served = await serving();
    const { instructor: ask, run } = await withRun(served);
    const before: object = (await ask('GET', '/api/settings')).body();
    const wanted = { ...before, decimalSign: ',', terms: 'us' };
    const set = await ask('PUT', '/api/settings', wanted);
    expect([set.status, set.body()]).toEqual([200, wanted]);
    expect((await ask('GET', '/api/settings')).body()).toEqual(wanted);
    expect((await ask('PUT', '/api/settings', { ...wanted, decimalSign: ';' })).status).toBe(400);
    const bench = served.as(await served.signIn('bench', run));
    expect((await bench('PUT', '/api/settings', wanted)).status).toBe(403);
  });
});

describe('signing in', () => {
  it('takes a link once', async () => {
    const served = await serving();
    const ask = served.as(await served.signIn());
    const { path, expiresAt }: { path: string; expiresAt: string } = (
      await ask('POST', '/api/links', { run: null })
    ).body();
    expect([path, expiresAt]).toEqual([
      expect.stringMatching(/^\/sign-in#[\w-]{43}$/),
      '2026-01-15T09:10:00.000Z',
    ]);
    const token = path.split('#')[1];
    const first = await served.as(null)('POST', '/api/session', { token });
    expect(first.status).toBe(200);
    const cookie = String(first.headers['set-cookie']);
    expect(cookie).toMatch(/Max-Age=2592000; Path=\/; HttpOnly; SameSite=Strict$/);
    const second = await served.as(null)('POST', '/api/session', { token });
    expect(seen(second)).toEqual([401, 'link-spent']);
  });

  it('a link runs out: that of a console after ten minutes, that of a bench after a morning', async () => {
    const served = await serving();
    const { instructor: ask, run } = await withRun(served);
    const tokenOf = async (of: string | null): Promise<string> =>
      (await ask('POST', '/api/links', { run: of })).text.match(/#([\w-]+)/)![1]!;
    const [own, bench] = [await tokenOf(null), await tokenOf(run)];
    served.later(10 * 60_000 + 1);
    const signIn = (token: string) => served.as(null)('POST', '/api/session', { token });
    expect([(await signIn(own)).status, (await signIn(bench)).status]).toEqual([401, 200]);
    const late = await tokenOf(run);
    served.later(12 * 3_600_000 + 1);
    expect((await signIn(late)).status).toBe(401);
    expect((await ask('POST', '/api/links', { run: 'no-such-run' })).status).toBe(404);
  });

  it('sets a cookie that only HTTPS carries, where that is how it is reached', async () => {
    const address = { hosts: ['lab.example'], origin: 'https://lab.example' };
    const served = await serving({ address });
    const ask = served.as(await served.signIn());
    const { text } = await ask('POST', '/api/links', { run: null });
    const token = /#([\w-]+)/.exec(text)![1];
    const { headers } = await served.as(null)('POST', '/api/session', { token });
    expect(String(headers['set-cookie'])).toContain('; Secure');
  });
});

describe('faults', () => {
  it('of ours are told to the console, and in words to whoever asked', async () => {
    const broken = () => Promise.reject(new Error('no toolkit'));
    const served = await serving({ structures: broken });
    const ask = served.as(await served.signIn());
    expect(seen(await ask('POST', '/api/structures', { smiles: 'C' }))).toEqual([500, 'fault']);
    expect(served.faults).toEqual([new Error('no toolkit')]);
  });

  it('of the disk are refusals', async () => {
    const served = await serving();
    const ask = served.as(await served.signIn());
    expect((await ask('GET', '/api/health')).body()).toEqual({ ok: true });
    await served.store.close();
    expect(seen(await ask('GET', '/api/health'))).toEqual([503, 'store-closed']);
    expect(served.faults).toEqual([]);
  });

  it('are not what comes while the server stops: it is answered, and the line closed', async () => {
    const { app, signIn } = await serving();
    const cookie = await signIn();
    let asked: Response | undefined;
    app.addHook('preClose', async () => {
      const { port } = app.server.address() as AddressInfo;
      asked = await fetch(`http://127.0.0.1:${port}/api/experiments`, { headers: { cookie } });
    });
    await app.listen({ port: 0, host: '127.0.0.1' });
    await app.close();
    expect([asked?.status, asked?.headers.get('connection')]).toEqual([200, 'close']);
  });

  it('in an address are refused', async () => {
    const served = await serving();
    const ask = served.as(await served.signIn());
    expect((await ask('GET', '/api/experiments/%E0%A4%A')).status).toBe(400);
    expect(seen(await ask('GET', '/api/nothing'))).toEqual([404, 'not-found']);
  });
});
