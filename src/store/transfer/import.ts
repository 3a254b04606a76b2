import type { z } from 'zod';
import { versionOf } from '../../core/experiment/version.ts';
import { benchEntrySchema } from '../../core/record/schema.ts';
import { documentTextSchema } from '../../wire/experiment.ts';
import { DEFAULT_SETTINGS, settingsSchema } from '../../wire/settings.ts';
import { sha256 } from '../attachments.ts';
import { keeping, kept, refusalError } from '../refusal.ts';
import { printOfFile } from '../spectrum-print.ts';
import type { Attachment, Everything, Kept, Receipt, Store } from '../store.ts';
import { refuseContradictions } from './agree.ts';
import type { AttachmentFile, RunFile, SpectraFile } from './layout.ts';
import {
  anyManifestSchema,
  attachmentsSchema,
  FORMAT_VERSION,
  manifestSchema,
  PATHS,
  runFileSchema,
  settingsFileSchema,
  spectraFileSchema,
  versionsFileSchema,
} from './layout.ts';
import { unzip } from './unzip.ts';

export const IMPORT_LIMITS = {
  size_bytes: 500_000_000,
  unpacked_bytes: 1_000_000_000,
  files: 60_000,
  /** Of one file that is read as text: parsed, it takes up to thirty times as much memory. */
  text_bytes: 64_000_000,
} as const;

/** How much has come in. */
export interface Imported {
  readonly experiments: number;
  readonly runs: number;
  readonly entries: number;
  readonly attachments: number;
}

/** Puts an export into an empty store, all of it or nothing. */
export async function importAll(store: Store, bytes: Uint8Array): Promise<Kept<Imported>> {
  return keeping(async () => {
    const everything = await read(unzip(bytes, IMPORT_LIMITS));
    const answer = await store.putEverything(everything);
    if (!answer.ok) return answer;
    const receipts = [...everything.receipts.values()];
    return kept({
      experiments: everything.experiments.length,
      runs: everything.runs.length,
      entries: receipts.reduce((sum, each) => sum + each.length, 0),
      attachments: everything.attachments.length,
    });
  });
}

type Files = ReadonlyMap<string, Uint8Array>;

/** What is not in the manifest, such as what a file manager adds, is not looked at. */
async function read(files: Files): Promise<Everything> {
  const listed = listedFiles(files);
  const experiments: Everything['experiments'][number][] = [];
  const runs: Everything['runs'][number][] = [];
  const documents = new Map<string, string>();
  const receipts = new Map<string, readonly Receipt[]>();
  const attachments = new Map<string, Attachment>();
  const spectra: SpectraFile['spectra'] = [];
  const settings = {
    ...DEFAULT_SETTINGS,
    ...parsed(listed, PATHS.settings, settingsFileSchema),
  };
  for (const path of listed.keys()) {
    const folder = path.slice(0, path.lastIndexOf('/') + 1);
    if (path.endsWith('/versions.json')) {
      const { id, putAway, versions } = parsed(listed, path, versionsFileSchema);
      for (const { file, document } of versions)
        documents.set(document, await documentText(listed, folder + file, document));
      experiments.push({ id, putAway, versions: versions.map(({ file: _, ...rest }) => rest) });
    } else if (path.endsWith('/run.json')) {
      const { received, attachments: own, ...run } = parsed(listed, path, runFileSchema);
      runs.push(run);
      receipts.set(run.id, receiptsOf(listed, `${folder}record.json`, received));
      takeAttachments(listed, folder, own, attachments);
    } else if (path === PATHS.spectra) {
      const { spectra: listedThere, attachments: own } = parsed(listed, path, spectraFileSchema);
      spectra.push(...listedThere);
      takeAttachments(listed, folder, own, attachments);
    } else if (path === PATHS.attachments)
      takeAttachments(listed, folder, parsed(listed, path, attachmentsSchema), attachments);
  }
  const everything: Everything = {
    settings: fitted(settingsSchema, settings, PATHS.settings),
    experiments,
    runs,
    documents,
    receipts,
    attachments: [...attachments.values()],
    spectra: spectra.map((spectrum) => ({
      spectrum,
      print: printOfFile(attachments.get(spectrum.file)?.bytes, spectrum.state),
    })),
  };
  refuseContradictions(everything);
  return everything;
}

/** The files that the manifest lists, each with the hash that it says. */
function listedFiles(files: Files): Files {
  const given = value(files, PATHS.manifest);
  const { version } = fitted(anyManifestSchema, given, PATHS.manifest);
  if (version > FORMAT_VERSION)
    throw refusalError({
      code: 'import-newer',
      message: `This export was written by a newer Weighboat: its format is ${version}, and this one reads ${FORMAT_VERSION}.`,
      hint: 'Install the newer Weighboat. Nothing was changed.',
    });
  const manifest = fitted(manifestSchema, given, PATHS.manifest);
  return new Map(
    manifest.files.map(({ path, size_bytes, sha256: hash }) => {
      const bytes = fileAt(files, path);
      if (bytes.length !== size_bytes || sha256(bytes) !== hash)
        throw damaged(`${path} is not as it was exported`);
      return [path, bytes];
    }),
  );
}

async function documentText(files: Files, path: string, hash: string): Promise<string> {
  const text = fitted(documentTextSchema, textAt(files, path), path);
  if ((await versionOf(text)) !== hash) throw damaged(`${path} is not the text of its version`);
  return text;
}

function receiptsOf(files: Files, path: string, received: RunFile['received']): Receipt[] {
  const entries = parsed(files, path, benchEntrySchema.array());
  if (entries.length !== received.length || entries.some(({ id }, i) => id !== received[i]!.id))
    throw damaged(`${path} does not have the entries that run.json beside it lists`);
  return received.map(({ id: _, ...receipt }, i) => ({ ...receipt, entry: entries[i]! }));
}

function takeAttachments(
  files: Files,
  folder: string,
  listed: readonly AttachmentFile[],
  into: Map<string, Attachment>,
): void {
  for (const { hash, mediaType, file } of listed) {
    const bytes = fileAt(files, folder + file);
    if (sha256(bytes) !== hash) throw damaged(`${folder}${file} is not as it was exported`);
    into.set(hash, { hash, mediaType, bytes });
  }
}

function fileAt(files: Files, path: string): Uint8Array {
  const bytes = files.get(path);
  if (bytes === undefined) throw damaged(`${path} is missing`);
  return bytes;
}

function textAt(files: Files, path: string): string {
  const bytes = fileAt(files, path);
  if (bytes.length > IMPORT_LIMITS.text_bytes)
    throw refusalError({
      code: 'import-too-large',
      message: `${path} is larger than any file of an export that is read.`,
      hint: 'Restore a backup instead: that has no such limit.',
    });
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch (error) {
    if (error instanceof TypeError) throw damaged(`${path} is no text`);
    throw error;
  }
}

function value(files: Files, path: string): unknown {
  const text = textAt(files, path);
  try {
    return JSON.parse(text);
  } catch {
    throw damaged(`${path} is no JSON`);
  }
}

function parsed<T>(files: Files, path: string, schema: z.ZodType<T>): T {
  return fitted(schema, value(files, path), path);
}

function fitted<T>(schema: z.ZodType<T>, given: unknown, path: string): T {
  const result = schema.safeParse(given);
  if (result.success) return result.data;
  const [issue] = result.error.issues;
  const place = issue === undefined || issue.path.length === 0 ? '' : ` at ${issue.path.join('.')}`;
  throw refusalError({
    code: 'import-unreadable',
    message: `${path} is not as an export has it${place}: ${issue?.message ?? 'it does not fit'}`,
    hint: 'Take the file as the export wrote it. Nothing was changed.',
  });
}

function damaged(what: string): Error {
  return refusalError({
    code: 'import-damaged',
    message: `This export is damaged: ${what}.`,
    hint: 'Copy it again from where it came, or export once more. Nothing was changed.',
  });
}
