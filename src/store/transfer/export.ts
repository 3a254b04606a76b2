import { printCsvRecord } from '../../core/record/csv.ts';
import { printJsonRecord } from '../../core/record/json.ts';
import { sha256 } from '../attachments.ts';
import { refusalError } from '../refusal.ts';
import type { Catalogue, CataloguedExperiment, CataloguedRun, Store } from '../store.ts';
import type { AttachmentFile, Manifest, RunFile, SpectraFile, VersionsFile } from './layout.ts';
import { attachmentName, folderName, FORMAT, FORMAT_VERSION, PATHS } from './layout.ts';
import { zipWriter } from './zip.ts';

interface ExportedFile {
  readonly path: string;
  readonly bytes: Uint8Array;
  /** Pictures are packed already. */
  readonly packed: boolean;
}

/** What the zip format can count without its 64-bit extension, with room for the rest. */
const MOST = { files: 60_000, attachments_bytes: 3_500_000_000 } as const;

/**
 * Everything that is kept as one zip file of open formats, part by part, as it stood at one moment.
 * The same content gives the same bytes. Throws what `refusalOf` understands.
 */
export async function* exportAll(store: Store): AsyncGenerator<Uint8Array, void> {
  const catalogue = await store.catalogue();
  refuseTooLarge(catalogue);
  const zip = zipWriter();
  const files: Manifest['files'] = [];
  for await (const { path, bytes, packed } of filesOf(store, catalogue)) {
    files.push({ path, size_bytes: bytes.length, sha256: sha256(bytes) });
    yield* zip.add(path, bytes, packed);
  }
  const manifest: Manifest = { format: FORMAT, version: FORMAT_VERSION, files };
  yield* zip.add(PATHS.manifest, json(manifest), true);
  yield* zip.end();
}

async function* filesOf(store: Store, catalogue: Catalogue): AsyncGenerator<ExportedFile, void> {
  yield textFile(PATHS.settings, json(catalogue.settings));
  const named = new Set<string>();
  for (const experiment of catalogue.experiments) {
    const folder = `experiments/${folderName(experiment.title, experiment.id)}`;
    yield* experimentFiles(store, folder, experiment);
    for (const run of catalogue.runs.filter((each) => each.experiment === experiment.id))
      yield* runFiles(store, `${folder}/runs/${folderName(run.bench, run.id)}`, {
        run,
        catalogue,
        named,
      });
  }
  if (catalogue.spectra.length > 0) yield* spectrumFiles(store, catalogue, named);
  yield* attachmentFiles(store, '', unnamedFiles(catalogue, named));
  yield textFile(PATHS.attachments, json(unnamedFiles(catalogue, named)));
}

async function* experimentFiles(
  store: Store,
  folder: string,
  { id, putAway, versions }: CataloguedExperiment,
): AsyncGenerator<ExportedFile, void> {
  const listed: VersionsFile['versions'] = [];
  for (const version of versions) {
    const file = `version-${version.number}.md`;
    const text = (await store.documentText(version.document))!;
    yield textFile(`${folder}/${file}`, new TextEncoder().encode(text));
    listed.push({ ...version, file });
  }
  const content: VersionsFile = { id, putAway, versions: listed };
  yield textFile(`${folder}/versions.json`, json(content));
}

interface RunInCatalogue {
  readonly run: CataloguedRun;
  readonly catalogue: Catalogue;
  /** Attachments that an entry names are added here. */
  readonly named: Set<string>;
}

async function* runFiles(
  store: Store,
  folder: string,
  { run, catalogue, named }: RunInCatalogue,
): AsyncGenerator<ExportedFile, void> {
  const receipts = await store.receipts(run.id, catalogue.lastSeq);
  const entries = receipts.map(({ entry }) => entry);
  const mine = new Set(entries.flatMap((entry) => entry.attachments ?? []));
  for (const hash of mine) named.add(hash);
  const attachments = catalogue.attachments.filter(({ hash }) => mine.has(hash)).map(fileOf);
  const content: RunFile = {
    ...run,
    received: receipts.map(({ seq, receivedAt, receivedBy, entry }) => ({
      id: entry.id,
      seq,
      receivedAt,
      receivedBy,
    })),
    attachments,
  };
  yield textFile(`${folder}/run.json`, json(content));
  yield textFile(`${folder}/record.json`, new TextEncoder().encode(printJsonRecord(entries)));
  yield textFile(`${folder}/record.csv`, new TextEncoder().encode(printCsvRecord(entries)));
  yield* attachmentFiles(store, `${folder}/`, attachments);
}

/** What they are found by is left out: an import works it out from the files. */
async function* spectrumFiles(
  store: Store,
  { spectra, attachments }: Catalogue,
  named: Set<string>,
): AsyncGenerator<ExportedFile, void> {
  const mine = new Set(spectra.map(({ file }) => file));
  for (const hash of mine) named.add(hash);
  const files = attachments.filter(({ hash }) => mine.has(hash)).map(fileOf);
  const content: SpectraFile = { spectra: [...spectra], attachments: files };
  yield textFile(PATHS.spectra, json(content));
  yield* attachmentFiles(store, 'spectra/', files);
}

/** What neither an entry nor the library names (yet). */
function unnamedFiles({ attachments }: Catalogue, named: ReadonlySet<string>): AttachmentFile[] {
  return attachments.filter(({ hash }) => !named.has(hash)).map(fileOf);
}

function fileOf({ hash, mediaType }: Catalogue['attachments'][number]): AttachmentFile {
  return { hash, mediaType, file: attachmentName(hash, mediaType) };
}

async function* attachmentFiles(
  store: Store,
  folder: string,
  files: readonly AttachmentFile[],
): AsyncGenerator<ExportedFile, void> {
  for (const { hash, file } of files) {
    const { bytes } = (await store.attachment(hash))!;
    yield { path: `${folder}${file}`, bytes, packed: false };
  }
}

function textFile(path: string, bytes: Uint8Array): ExportedFile {
  return { path, bytes, packed: true };
}

function json(value: unknown): Uint8Array {
  return new TextEncoder().encode(`${JSON.stringify(value, null, 1)}\n`);
}

function refuseTooLarge({ experiments, runs, attachments }: Catalogue): void {
  const versions = experiments.reduce((sum, each) => sum + each.versions.length + 1, 0);
  const files = versions + 3 * runs.length + attachments.length + 4;
  const size_bytes = attachments.reduce((sum, each) => sum + each.size_bytes, 0);
  if (files <= MOST.files && size_bytes <= MOST.attachments_bytes) return;
  throw refusalError({
    code: 'export-too-large',
    message: `There are ${files.toLocaleString('en')} files with ${Math.ceil(size_bytes / 1e6).toLocaleString('en')} MB of attachments: more than one zip file holds.`,
    hint: 'Make a backup instead: that has no such limit.',
  });
}
