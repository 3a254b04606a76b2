import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readCsvRecord } from '../../core/record/csv.ts';
import type { BenchEntry } from '../../core/record/entry.ts';
import { DEFAULT_SETTINGS } from '../../wire/settings.ts';
import { sha256 } from '../attachments.ts';
import { printOfFile } from '../spectrum-print.ts';
import type { Store } from '../store.ts';
import { forEachKind, sqlitePlace } from '../testing/kinds.ts';
import { begin, EXPERIMENT, net, RUN } from '../testing/pieces.ts';
import { codeOf, valueOf } from '../testing/value-of.ts';
import { exportAll } from './export.ts';
import { IMPORT_LIMITS, importAll } from './import.ts';

async function exportedBytes(store: Store): Promise<Uint8Array> {
  const parts: Uint8Array[] = [];
  for await (const part of exportAll(store)) parts.push(part);
  return Buffer.concat(parts);
}

const newStore = async () => (await sqlitePlace()).open();
const photo = (text: string) => ({
  hash: sha256(strToU8(text)),
  mediaType: 'image/jpeg',
  bytes: strToU8(text),
});
const IN_RECORD = photo('a photo that an entry names');
const ALONE = photo('a photo that none names');

/** A spectrum of two bands as an instrument writes it. */
const SPECTRUM_TEXT = Array.from({ length: 800 }, (_, i) => {
  const x = 700 + 4 * i;
  const band = (at: number) => Math.exp(-(((x - at) / 15) ** 2));
  return `${x},${(0.8 * band(1690) + 0.4 * band(1290)).toFixed(4)}`;
}).join('\n');
const SPECTRUM = {
  hash: sha256(strToU8(`cm-1,absorbance\n${SPECTRUM_TEXT}\n`)),
  mediaType: 'application/octet-stream',
  bytes: strToU8(`cm-1,absorbance\n${SPECTRUM_TEXT}\n`),
};

const IDS = ['spectrum-1'];

/** A little of everything. */
async function filled(): Promise<Store> {
  const store = await newStore();
  await begin(store);
  const entries: BenchEntry[] = [
    net('a'),
    { id: 'b', at: '2026-02-03', by: 'R', kind: 'observation', attachments: [IN_RECORD.hash] },
    { id: 'c', at: '2026-02-03', by: '', kind: 'observation', text: '=1+1, "5 °C"\n\u0000\uD800' },
  ];
  valueOf(await store.addEntries(RUN, entries, 'R. T.'));
  valueOf(await store.addAttachment(IN_RECORD));
  valueOf(await store.addAttachment({ ...ALONE, mediaType: 'application/pdf' }));
  valueOf(await store.addAttachment(SPECTRUM));
  const spectrum = { id: 'spectrum-1', name: 'Benzoësäure', smiles: null, state: 'atr' } as const;
  const print = printOfFile(SPECTRUM.bytes, 'atr');
  valueOf(await store.addSpectrum({ ...spectrum, file: SPECTRUM.hash }, print, 'R. T.'));
  await store.changeSpectrum('spectrum-1', { putAway: true });
  const save = { text: '# Zweite Fassung\n\n\u{1F9EA}', base: 1, name: 'Für die Klasse' };
  valueOf(await store.addVersion(EXPERIMENT, save, 'M. O.'));
  await store.setSettings({ ...DEFAULT_SETTINGS, decimalSign: ',' });
  return store;
}

forEachKind('an export', ({ place }) => {
  it('brings everything into an empty store, and is the same from there', async () => {
    const from = await filled();
    const bytes = await exportedBytes(from);
    const to = await (await place()).open();
    expect(valueOf(await importAll(to, bytes))).toEqual({
      experiments: 1,
      runs: 1,
      entries: 3,
      attachments: 3,
    });
    expect(await to.experiments()).toEqual(await from.experiments());
    expect(await to.versions(EXPERIMENT)).toEqual(await from.versions(EXPERIMENT));
    expect(await to.runs()).toEqual(await from.runs());
    expect(await to.receipts(RUN, 99)).toEqual(await from.receipts(RUN, 99));
    expect((await to.attachment(ALONE.hash))?.mediaType).toBe('application/pdf');
    expect(await to.settings()).toEqual(await from.settings());
    expect(await to.spectra()).toEqual(await from.spectra());
    const [mine, theirs] = [await from.spectrumPrints(IDS), await to.spectrumPrints(IDS)];
    expect(theirs.map(({ bands }) => bands)).toEqual(mine.map(({ bands }) => bands));
    expect(theirs.map(({ fingerprint }) => [...fingerprint])).toEqual(
      mine.map(({ fingerprint }) => [...fingerprint]),
    );
    expect(mine[0]!.fingerprint.length).toBeGreaterThan(800);
    expect(sha256(await exportedBytes(to))).toBe(sha256(bytes));
  });

  it('goes into an empty store only, and changes nothing in another', async () => {
    const bytes = await exportedBytes(await filled());
    const to = await (await place()).open();
    valueOf(await to.addExperiment({ id: 'another-one', text: '# Another' }, 'R. T.'));
    expect(codeOf(await importAll(to, bytes))).toBe('store-not-empty');
    expect((await to.experiments()).map(({ id }) => id)).toEqual(['another-one']);
    expect(await to.settings()).toEqual(DEFAULT_SETTINGS);
  });
});

describe('an export', () => {
  it('is files that somebody can read without this program', async () => {
    const files = unzipSync(await exportedBytes(await filled()));
    const folder = 'experiments/zweite-fassung-experiment-1';
    const run = `${folder}/runs/bench-1-run-of-bench-1`;
    expect(Object.keys(files).sort()).toEqual([
      'attachments.json',
      `attachments/${ALONE.hash}.bin`,
      `${run}/attachments/${IN_RECORD.hash}.jpg`,
      `${run}/record.csv`,
      `${run}/record.json`,
      `${run}/run.json`,
      `${folder}/version-1.md`,
      `${folder}/version-2.md`,
      `${folder}/versions.json`,
      'manifest.json',
      'settings.json',
      `spectra/attachments/${SPECTRUM.hash}.bin`,
      'spectra/spectra.json',
    ]);
    expect(strFromU8(files[`${folder}/version-2.md`]!)).toBe('# Zweite Fassung\n\n\u{1F9EA}\n');
    const record = readCsvRecord(strFromU8(files[`${run}/record.csv`]!));
    expect(record.diagnostics).toEqual([]);
    expect(record.entries.map(({ id }) => id)).toEqual(['a', 'b', 'c']);
  });

  it('of an empty store can be imported too', async () => {
    const to = await newStore();
    valueOf(await importAll(to, await exportedBytes(await newStore())));
    expect(await to.isEmpty()).toBe(true);
  });
});

type Files = Record<string, Uint8Array>;

/** The export with its files changed, and a manifest that says so. */
async function changed(change: (files: Files) => void): Promise<Uint8Array> {
  const files: Files = unzipSync(await exportedBytes(await filled()));
  change(files);
  const listed = Object.entries(files).filter(([path]) => path !== 'manifest.json');
  const manifest = {
    format: 'weighboat-export',
    version: 1,
    files: listed.map(([path, bytes]) => ({
      path,
      size_bytes: bytes.length,
      sha256: sha256(bytes),
    })),
  };
  return zipSync({ ...files, 'manifest.json': strToU8(JSON.stringify(manifest)) });
}

/** A change of the text of one file, which has to change it. */
function inFile(end: string, change: (text: string) => string) {
  return (files: Files) => {
    const path = Object.keys(files).find((each) => each.endsWith(end))!;
    const before = strFromU8(files[path]!);
    const after = change(before);
    expect(after).not.toBe(before);
    files[path] = strToU8(after);
  };
}

const replaced = (end: string, from: string | RegExp, to: string) =>
  inFile(end, (text) => text.replace(from, to));
const added = (end: string, bytes: ArrayLike<number>) => (files: Files) => spoil(files, end, bytes);
/** More than is read as text, and packed next to nothing. */
const SPACES = new Uint8Array(IMPORT_LIMITS.text_bytes).fill(0x20);
const withoutLast = (text: string) => JSON.stringify((JSON.parse(text) as unknown[]).slice(0, -1));

const REFUSED: [name: string, code: string, change: (files: Files) => void][] = [
  ['a version with another text', 'import-damaged', added('version-1.md', [0x78])],
  ['a photo with other bytes', 'import-damaged', added('.jpg', [0x78])],
  ['a record that is no JSON', 'import-damaged', added('record.json', [0x78])],
  ['a record without its last entry', 'import-damaged', inFile('record.json', withoutLast)],
  ['a document that is no text', 'import-damaged', added('version-2.md', [0xff])],
  ['an entry of no kind', 'import-unreadable', replaced('record.json', '"net"', '"x"')],
  ['a field that is not known', 'import-unreadable', replaced('run.json', '{', '{"owner": "x",')],
  ['settings that are none', 'import-unreadable', replaced('settings.json', '"uk"', '1')],
  ['a settings file without end', 'import-too-large', added('settings.json', SPACES)],
  [
    'a photo of no media type',
    'import-unreadable',
    replaced('run.json', 'image/jpeg', 'constructor'),
  ],
  [
    'two entries that no database can tell apart',
    'import-contradicts-itself',
    (files) => {
      for (const end of ['record.json', 'run.json']) {
        replaced(end, /"id": ?"a"/, '"id":"\\uD800"')(files);
        replaced(end, /"id": ?"b"/, '"id":"\\uFFFD"')(files);
      }
    },
  ],
  [
    'a gap in the versions',
    'import-contradicts-itself',
    replaced('versions.json', '"number": 2', '"number": 3'),
  ],
  [
    'a run of a version that is not there',
    'import-contradicts-itself',
    replaced('run.json', '"versionNumber": 1', '"versionNumber": 2'),
  ],
  [
    'a run of an experiment that is not there',
    'import-contradicts-itself',
    replaced('run.json', `"${EXPERIMENT}"`, '"experiment-2"'),
  ],
  ['a spectrum with other bytes', 'import-damaged', added(`${SPECTRUM.hash}.bin`, [0x78])],
  ['a spectrum of no state', 'import-unreadable', replaced('spectra.json', '"atr"', '"x"')],
  [
    'a spectrum whose file is not there',
    'import-contradicts-itself',
    replaced('spectra.json', `"file": "${SPECTRUM.hash}"`, `"file": "${'0'.repeat(64)}"`),
  ],
  [
    'two entries with one number',
    'import-contradicts-itself',
    replaced('run.json', '"seq": 2', '"seq": 1'),
  ],
];

function spoil(files: Files, end: string, bytes: ArrayLike<number>): void {
  const path = Object.keys(files).find((each) => each.endsWith(end))!;
  files[path] = Buffer.concat([files[path]!, Uint8Array.from(bytes)]);
}

describe('an import is refused, and nothing is kept of it', () => {
  const expectRefused = async (bytes: Uint8Array, code: string) => {
    const store = await newStore();
    expect(codeOf(await importAll(store, bytes))).toBe(code);
    expect(await store.isEmpty()).toBe(true);
    expect(await store.settings()).toEqual(DEFAULT_SETTINGS);
  };

  it.each(REFUSED)('with %s', async (_name, code, change) => {
    await expectRefused(await changed(change), code);
  });

  it('with a file that the manifest gives another hash', async () => {
    const files = unzipSync(await exportedBytes(await filled()));
    spoil(files, 'settings.json', [0x20]);
    await expectRefused(zipSync(files), 'import-damaged');
  });

  it('with a file missing, or the manifest', async () => {
    for (const end of ['record.json', 'manifest.json']) {
      const files = unzipSync(await exportedBytes(await filled()));
      const { [Object.keys(files).find((path) => path.endsWith(end))!]: _, ...rest } = files;
      await expectRefused(zipSync(rest), 'import-damaged');
    }
  });

  it('from a newer program', async () => {
    const manifest = strToU8(JSON.stringify({ format: 'weighboat-export', version: 3 }));
    await expectRefused(zipSync({ 'manifest.json': manifest }), 'import-newer');
  });

  it('whatever byte of it is another', async () => {
    const bytes = await exportedBytes(await filled());
    const before = sha256(bytes);
    let store = await newStore();
    await fc.assert(
      fc.asyncProperty(
        fc.nat(bytes.length - 1),
        fc.integer({ min: 1, max: 255 }),
        async (at, by) => {
          const spoilt = Uint8Array.from(bytes);
          spoilt[at]! ^= by;
          const answer = await importAll(store, spoilt);
          if (!answer.ok) {
            expect(answer.refusal.code).toMatch(/^import-/);
            expect(await store.isEmpty()).toBe(true);
            return;
          }
          // A byte of a date or an attribute says nothing of what is in the files.
          expect(sha256(await exportedBytes(store))).toBe(before);
          await store.close();
          store = await newStore();
        },
      ),
      { numRuns: 150 },
    );
  });
});

const entry: fc.Arbitrary<BenchEntry> = fc
  .record(
    {
      id: fc.string({ minLength: 1, maxLength: 6, unit: 'binary' }),
      at: fc.constantFrom('2026-02-03', '2026-02-03T10:00:00Z', '2026-02-03T10:00:00.5+01:00'),
      by: fc.string({ maxLength: 8, unit: 'binary' }),
      kind: fc.constantFrom('net', 'charge', 'observation', 'correction'),
      value: fc.double({ noNaN: true, noDefaultInfinity: true }),
      text: fc.string({ maxLength: 30, unit: 'binary' }),
      attachments: fc.uniqueArray(fc.constantFrom(IN_RECORD.hash, ALONE.hash), { minLength: 1 }),
    },
    { requiredKeys: ['id', 'at', 'by', 'kind'] },
  )
  .map((fields) => fields as BenchEntry);

const course = fc.array(
  fc.record({
    texts: fc.array(fc.string({ maxLength: 40, unit: 'grapheme' }), { minLength: 1, maxLength: 4 }),
    name: fc.option(fc.string({ minLength: 1, maxLength: 10, unit: 'binary' })),
    putAway: fc.boolean(),
    benches: fc.array(
      fc.record({
        bench: fc.string({ minLength: 1, maxLength: 8, unit: 'binary' }),
        entries: fc.uniqueArray(entry, { maxLength: 6, selector: ({ id }) => id }),
      }),
      { maxLength: 3 },
    ),
  }),
  { maxLength: 3 },
);
type Course = typeof course extends fc.Arbitrary<infer T> ? T : never;

async function put(store: Store, given: Course): Promise<void> {
  for (const [e, { texts, name, putAway, benches }] of given.entries()) {
    const id = `experiment-${e}`;
    let { head } = valueOf(await store.addExperiment({ id, text: texts[0]! }, 'R. T.'));
    for (const text of texts.slice(1))
      head = valueOf(await store.addVersion(id, { text, base: head.number }, 'M. O.'));
    await store.nameVersion(id, head.number, name);
    await store.putAway(id, putAway);
    for (const [b, { bench, entries }] of benches.entries()) {
      const run = { id: `run-${e}-${b}-00`, experiment: id, document: head.document, bench };
      valueOf(await store.addRun(run));
      valueOf(await store.addEntries(run.id, entries, bench));
    }
  }
}

describe('any course', () => {
  it('comes out of an import as it went into the export', async () => {
    await fc.assert(
      fc.asyncProperty(course, fc.boolean(), async (given, withPhoto) => {
        const [from, to] = [await newStore(), await newStore()];
        if (withPhoto) valueOf(await from.addAttachment(IN_RECORD));
        valueOf(await from.addAttachment(ALONE));
        await put(from, given);
        const bytes = await exportedBytes(from);
        valueOf(await importAll(to, bytes));
        expect(await to.experiments()).toEqual(await from.experiments());
        for (const { id } of await from.runs())
          expect(await to.receipts(id, 1e9)).toEqual(await from.receipts(id, 1e9));
        expect(sha256(await exportedBytes(to))).toBe(sha256(bytes));
        await Promise.all([from.close(), to.close()]);
      }),
      { numRuns: 30 },
    );
  });
});
