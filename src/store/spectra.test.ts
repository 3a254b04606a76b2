import { join } from 'node:path';
import { expect, it } from 'vitest';
import { sha256 } from './attachments.ts';
import type { SpectrumPrint } from './spectra.ts';
import { printOfFile } from './spectrum-print.ts';
import type { Store } from './store.ts';
import { restoreFrom } from './restore.ts';
import { forEachKind, newFolder, sqlitePlace } from './testing/kinds.ts';
import { codeOf, valueOf } from './testing/value-of.ts';

const NOON = '2026-02-03T12:00:00.000Z';
const PRINT: SpectrumPrint = {
  form: 1,
  fingerprint: Uint8Array.of(0, 255, 7),
  bands: [{ position_percm: 1715.2, share: 1 }],
};

async function sent(store: Store, text: string): Promise<string> {
  const bytes = new TextEncoder().encode(text);
  const hash = sha256(bytes);
  valueOf(await store.addAttachment({ hash, mediaType: 'application/octet-stream', bytes }));
  return hash;
}

const given = (id: string, name: string, file: string) =>
  ({ id, name, smiles: 'CC(=O)C', state: 'film', file }) as const;

forEachKind('the spectra', ({ place }) => {
  it('are kept with what they are found by, and are there when the store is opened again', async () => {
    const where = await place();
    const store = await where.open({ now: () => NOON });
    const file = await sent(store, 'one');
    const kept = valueOf(
      await store.addSpectrum(given('spectrum-1', 'acetone', file), PRINT, 'R. T.'),
    );
    expect(kept).toEqual({
      ...given('spectrum-1', 'acetone', file),
      addedAt: NOON,
      addedBy: 'R. T.',
      putAway: false,
    });
    await store.close();
    const again = await where.open();
    expect(await again.spectra()).toEqual([kept]);
    expect(await again.spectrum('spectrum-1')).toEqual(kept);
    const [print] = await again.spectrumPrints(['spectrum-1', 'no-such-one']);
    expect({ ...print, fingerprint: [...print!.fingerprint] }).toEqual({
      id: 'spectrum-1',
      form: 1,
      fingerprint: [0, 255, 7],
      bands: PRINT.bands,
    });
    expect(await again.isSpectrumFile(file)).toBe(true);
    expect(await again.isSpectrumFile('0'.repeat(64))).toBe(false);
    expect(await again.isEmpty()).toBe(false);
  });

  it('are listed by name, and asked for many at once', async () => {
    const store = await (await place()).open();
    expect(await store.spectra()).toEqual([]);
    expect(await store.spectrumPrints([])).toEqual([]);
    for (const name of ['toluene', 'acetone', 'benzene'])
      valueOf(
        await store.addSpectrum(
          given(`spectrum-${name}`, name, await sent(store, name)),
          PRINT,
          'R',
        ),
      );
    expect((await store.spectra()).map(({ name }) => name)).toEqual([
      'acetone',
      'benzene',
      'toluene',
    ]);
    const ids = [...Array.from({ length: 1200 }, (_, n) => `none-${n}`), 'spectrum-toluene'];
    expect((await store.spectrumPrints(ids)).map(({ id }) => id)).toEqual(['spectrum-toluene']);
  });

  it('are added once: again is the same, another file under the id and a file twice are refused', async () => {
    const store = await (await place()).open();
    const [one, two] = [await sent(store, 'one'), await sent(store, 'two')];
    const first = valueOf(await store.addSpectrum(given('spectrum-1', 'acetone', one), PRINT, 'R'));
    expect(valueOf(await store.addSpectrum(given('spectrum-1', 'x', one), PRINT, 'R'))).toEqual(
      first,
    );
    const refused = async (id: string, file: string) =>
      codeOf(await store.addSpectrum(given(id, 'x', file), PRINT, 'R'));
    expect(await refused('spectrum-1', two)).toBe('spectrum-differs');
    expect(await refused('spectrum-2', one)).toBe('spectrum-there');
    expect(await refused('spectrum-2', '0'.repeat(64))).toBe('attachment-unknown');
    expect(await store.spectra()).toEqual([first]);
  });

  it('change in what is said of them, and go away without being lost', async () => {
    const store = await (await place()).open();
    const file = await sent(store, 'one');
    valueOf(await store.addSpectrum(given('spectrum-1', 'acetone', file), PRINT, 'R'));
    const change = async (changes: Parameters<Store['changeSpectrum']>[1]) =>
      store.changeSpectrum('spectrum-1', changes);
    expect(await change({ name: 'propanone', smiles: null })).toMatchObject({
      name: 'propanone',
      smiles: null,
      state: 'film',
    });
    expect(await change({ putAway: true })).toMatchObject({ putAway: true, name: 'propanone' });
    expect(await change({})).toMatchObject({ putAway: true });
    expect(await store.isSpectrumFile(file)).toBe(true);
    const print = { ...PRINT, fingerprint: Uint8Array.of(9) };
    expect(await change({ putAway: false, measured: { state: 'atr', print } })).toMatchObject({
      state: 'atr',
      putAway: false,
    });
    expect([...(await store.spectrumPrints(['spectrum-1']))[0]!.fingerprint]).toEqual([9]);
    expect(await store.changeSpectrum('no-such-one', { putAway: true })).toBeUndefined();
  });
});

it('a file that is no spectrum has no print, and nothing fails', () => {
  expect(printOfFile(undefined, null)).toEqual({
    form: 0,
    fingerprint: new Uint8Array(),
    bands: [],
  });
  expect(printOfFile(new TextEncoder().encode('no spectrum'), 'atr').form).toBe(0);
});

it('a backup has the spectra, their files and what they are found by', async () => {
  const folder = newFolder();
  const store = await (await sqlitePlace(join(folder, 'store'))).open({ now: () => NOON });
  const file = await sent(store, 'one');
  valueOf(await store.addSpectrum(given('spectrum-1', 'acetone', file), PRINT, 'R'));
  await store.backupTo(join(folder, 'a.backup'));
  valueOf(await restoreFrom(join(folder, 'a.backup'), join(folder, 'other')));
  const other = await (await sqlitePlace(join(folder, 'other'))).open();
  expect(await other.spectra()).toEqual(await store.spectra());
  expect(await other.spectrumPrints(['spectrum-1'])).toEqual(
    await store.spectrumPrints(['spectrum-1']),
  );
  expect((await other.attachment(file))?.bytes.length).toBe(3);
});
