import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import type { Spectrum, SpectrumHits } from '../../src/wire/spectrum.ts';
import { entry, serving, withRun } from './serving.ts';
import type { Answer, Ask } from './serving.ts';

/** A spectrum of these bands, a peak a band, as a table. */
function tableOf(bands: readonly (readonly [at: number, height: number])[], tilt = 0): Buffer {
  const lines = Array.from({ length: 1701 }, (_, i) => {
    const x = 600 + 2 * i;
    const y = bands.reduce((sum, [at, height]) => sum + height / (1 + ((x - at) / 9) ** 2), tilt);
    return `${x},${y.toFixed(5)}`;
  });
  return Buffer.from(`cm-1,absorbance\n${lines.join('\n')}\n`);
}

const ACETONE = [
  [1715, 1],
  [1363, 0.6],
  [1222, 0.7],
  [2965, 0.2],
] as const;
const TOLUENE = [
  [3027, 0.5],
  [2921, 0.4],
  [1496, 0.6],
  [729, 1],
  [694, 0.8],
] as const;
const NITRILE = [
  [2253, 1],
  [2944, 0.3],
  [1375, 0.6],
  [918, 0.3],
] as const;

const hashOf = (bytes: Buffer): string => createHash('sha256').update(bytes).digest('hex');
const seen = (answer: Answer): unknown[] => {
  const body: { code?: string } = answer.body();
  return [answer.status, body.code ?? body];
};

async function send(ask: Ask, bytes: Buffer): Promise<string> {
  const hash = hashOf(bytes);
  await ask('PUT', `/api/attachments/${hash}`, bytes, {
    'content-type': 'application/octet-stream',
  });
  return hash;
}

async function add(ask: Ask, id: string, name: string, bytes: Buffer, more = {}): Promise<Answer> {
  const file = await send(ask, bytes);
  return ask('POST', '/api/spectra', { id, name, structure: null, state: null, file, ...more });
}

async function withLibrary() {
  const served = await serving();
  const { instructor: ask, run } = await withRun(served);
  await add(ask, 'spectrum-acetone', 'acetone', tableOf(ACETONE), { structure: 'acetone' });
  await add(ask, 'spectrum-toluene', 'toluene', tableOf(TOLUENE), { structure: 'Cc1ccccc1' });
  await add(ask, 'spectrum-nitrile', 'acetonitrile', tableOf(NITRILE), { state: 'film' });
  return { served, ask, run };
}

describe('reference spectra', () => {
  it('are added with their structure, listed by name, renamed and put away', async () => {
    const { ask } = await withLibrary();
    const all: Spectrum[] = (await ask('GET', '/api/spectra')).body();
    expect(all.map(({ name, smiles, state, putAway }) => [name, smiles, state, putAway])).toEqual([
      ['acetone', 'CC(C)=O', null, false],
      ['acetonitrile', null, 'film', false],
      ['toluene', 'Cc1ccccc1', null, false],
    ]);
    expect(all[0]).toMatchObject({ addedBy: 'R. Thorne', addedAt: '2026-01-15T09:00:00.000Z' });
    const path = '/api/spectra/spectrum-acetone';
    const renamed = await ask('PATCH', path, { name: ' propanone ', state: 'atr' });
    expect(renamed.body()).toMatchObject({ name: 'propanone', state: 'atr', smiles: 'CC(C)=O' });
    const away = await ask('PATCH', path, { putAway: true, structure: null });
    expect(away.body()).toMatchObject({ name: 'propanone', putAway: true, smiles: null });
  });

  it('are answered as they stand when they are sent again, and a file is in the library once', async () => {
    const { ask } = await withLibrary();
    const again = await add(ask, 'spectrum-acetone', 'acetone', tableOf(ACETONE));
    expect([again.status, again.body()]).toMatchObject([201, { smiles: 'CC(C)=O' }]);
    const twice = await add(ask, 'spectrum-another', 'acetone', tableOf(ACETONE));
    expect(seen(twice)).toEqual([409, 'spectrum-there']);
    const other = await add(ask, 'spectrum-acetone', 'acetone', tableOf(ACETONE, 0.1));
    expect(seen(other)).toEqual([409, 'spectrum-differs']);
  });

  it('are refused with the reason where they are none', async () => {
    const { ask } = await withLibrary();
    const refused = async (bytes: Buffer, more = {}): Promise<unknown[]> =>
      seen(await add(ask, 'spectrum-wrong', 'wrong', bytes, more));
    expect(await refused(Buffer.from('<!doctype html>'))).toEqual([422, 'file-not-spectrum']);
    expect(await refused(tableOf([]))).toEqual([422, 'spectrum-without-bands']);
    const fine = tableOf(ACETONE, 0.2);
    expect(await refused(fine, { file: '0'.repeat(64) })).toEqual([404, 'not-found']);
    expect(await refused(fine, { structure: 'no such thing' })).toEqual([422, 'structure-unknown']);
    expect(await refused(fine, { name: '  ' })).toEqual([422, 'name-missing']);
    expect(await refused(fine, { name: '' })).toEqual([400, 'wrong-input']);
    expect(await refused(fine, { state: 'vapour' })).toEqual([400, 'wrong-input']);
    expect(seen(await ask('PATCH', '/api/spectra/no-such-one', { name: 'x' }))).toEqual([
      404,
      'not-found',
    ]);
    expect((await ask('GET', '/api/spectra')).body()).toHaveLength(3);
  });
});

describe('a search', () => {
  const searched = async (ask: Ask, body: object): Promise<SpectrumHits> =>
    (await ask('POST', '/api/spectra/search', body)).body();

  it('gives what a file is most like, whatever its thickness and background', async () => {
    const { ask } = await withLibrary();
    const thick = ACETONE.map(([at, height]) => [at + 1, 1.6 * height] as const);
    const file = await send(ask, tableOf(thick, 0.15));
    const { alike, searched: among } = await searched(ask, { file, state: null });
    expect(among).toBe(3);
    expect(alike.map(({ id }) => id)[0]).toBe('spectrum-acetone');
    expect(alike[0]!.similarity).toBeGreaterThan(0.98);
    expect(alike[1]!.similarity).toBeLessThan(0.6);
    expect([alike[0]!.from_percm, alike[0]!.to_percm]).toEqual([600, 4000]);
  });

  it('sees what came in and what was put away since the last one', async () => {
    const { ask } = await withLibrary();
    const file = await send(ask, tableOf(ACETONE, 0.3));
    const first = async () => (await searched(ask, { file, state: null })).alike[0]!.id;
    expect(await first()).toBe('spectrum-acetone');
    await ask('PATCH', '/api/spectra/spectrum-acetone', { putAway: true });
    expect(await first()).not.toBe('spectrum-acetone');
    expect((await searched(ask, { file, state: null })).searched).toBe(2);
    await add(ask, 'spectrum-newer', 'acetone again', tableOf(ACETONE, 0.01));
    expect(await first()).toBe('spectrum-newer');
  });

  it('gives the spectra with all the bands asked for', async () => {
    const { ask } = await withLibrary();
    const by = async (...bands_percm: number[]) =>
      (await searched(ask, { bands_percm, tolerance_percm: 8 })).byBands;
    expect((await by(1715, 1220)).map(({ id }) => id)).toEqual(['spectrum-acetone']);
    expect(
      (await by(1715, 1220))[0]!.bands.map(({ position_percm }) => Math.round(position_percm)),
    ).toEqual([1715, 1222]);
    expect(await by(1715, 3027)).toEqual([]);
    expect(await by(2253)).toHaveLength(1);
  });

  it('makes a fingerprint of another form anew from its file', async () => {
    const { ask, served } = await withLibrary();
    const print = { form: 0, fingerprint: new Uint8Array(), bands: [] };
    await served.store.changeSpectrum('spectrum-acetone', { measured: { state: 'film', print } });
    const file = await send(ask, tableOf(ACETONE, 0.3));
    expect((await searched(ask, { file, state: null })).alike[0]!.id).toBe('spectrum-acetone');
  });

  it('of a file that is not here, or is no spectrum, or of no form, is refused', async () => {
    const { ask } = await withLibrary();
    const post = async (body: object) => seen(await ask('POST', '/api/spectra/search', body));
    expect(await post({ file: '0'.repeat(64), state: null })).toEqual([404, 'not-found']);
    const page = await send(ask, Buffer.from('<html></html>'));
    expect(await post({ file: page, state: null })).toEqual([422, 'file-not-spectrum']);
    expect(await post({ bands_percm: [], tolerance_percm: 5 })).toEqual([400, 'wrong-input']);
    expect(await post({ bands_percm: [10], tolerance_percm: 5 })).toEqual([400, 'wrong-input']);
    expect(await post({})).toEqual([400, 'wrong-input']);
  });
});

describe('a bench', () => {
  it('reads the library and compares its own files with it, and writes nothing', async () => {
    const { served, run } = await withLibrary();
    const bench = served.as(await served.signIn('bench', run));
    const all: Spectrum[] = (await bench('GET', '/api/spectra')).body();
    expect(all).toHaveLength(3);
    expect((await bench('GET', `/api/attachments/${all[0]!.file}`)).status).toBe(200);
    const mine = tableOf(TOLUENE, 0.1);
    const file = await send(bench, mine);
    const ask = async () => bench('POST', '/api/spectra/search', { file, state: null });
    expect((await ask()).status).toBe(404);
    const noted = entry('a', { kind: 'observation', attachments: [file] });
    await bench('POST', `/api/runs/${run}/entries`, { entries: [noted] });
    expect((await ask()).body()).toMatchObject({ alike: [{ id: 'spectrum-toluene' }, {}, {}] });
    expect((await add(bench, 'spectrum-mine', 'mine', mine)).status).toBe(403);
    expect((await bench('PATCH', '/api/spectra/spectrum-toluene', { name: 'x' })).status).toBe(403);
  });
});
