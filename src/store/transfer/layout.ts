import * as z from 'zod';
import { hashSchema, idSchema, instantSchema } from '../../wire/common.ts';
import { versionSchema } from '../../wire/experiment.ts';
import { runSchema } from '../../wire/run.ts';
import { spectrumSchema } from '../../wire/spectrum.ts';

/** How an export is laid out: docs/spec/export.md. Paths are from its root, with forward slashes. */
export const FORMAT = 'weighboat-export';
/** 2: the spectra of the library came in. What it reads of 1 is the same. */
export const FORMAT_VERSION = 2;

export const PATHS = {
  manifest: 'manifest.json',
  settings: 'settings.json',
  attachments: 'attachments.json',
  spectra: 'spectra/spectra.json',
} as const;

const path = z.string().min(1).max(400);

export const manifestSchema = z.strictObject({
  format: z.literal(FORMAT),
  version: z.int().min(1).max(FORMAT_VERSION),
  files: z.array(z.strictObject({ path, size_bytes: z.int().min(0), sha256: hashSchema })),
});

/** Enough of any manifest to say that it is too new. */
export const anyManifestSchema = z.object({ format: z.literal(FORMAT), version: z.int() });

/** A setting that this export does not know yet has its default. */
export const settingsFileSchema = z.record(z.string(), z.unknown());

export const versionsFileSchema = z.strictObject({
  id: idSchema,
  putAway: z.boolean(),
  versions: z.array(z.strictObject({ ...versionSchema.shape, file: path })).min(1),
});

export const attachmentsSchema = z.array(
  z.strictObject({
    hash: hashSchema,
    mediaType: z.string().regex(/^[\w.+-]+\/[\w.+-]+$/),
    file: path,
  }),
);

export const runFileSchema = z.strictObject({
  ...runSchema.omit({ title: true, entries: true }).shape,
  received: z.array(
    z.strictObject({
      id: z.string(),
      seq: z.int().min(1),
      receivedAt: instantSchema,
      receivedBy: z.string(),
    }),
  ),
  attachments: attachmentsSchema,
});

export const spectraFileSchema = z.strictObject({
  spectra: z.array(z.strictObject(spectrumSchema.shape)),
  attachments: attachmentsSchema,
});

export type SpectraFile = z.infer<typeof spectraFileSchema>;
export type Manifest = z.infer<typeof manifestSchema>;
export type VersionsFile = z.infer<typeof versionsFileSchema>;
export type RunFile = z.infer<typeof runFileSchema>;
export type AttachmentFile = z.infer<typeof attachmentsSchema>[number];

/** A name that any file system takes and somebody recognises; the id makes it the only one. */
export function folderName(title: string, id: string): string {
  const words = title
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, 48)
    .replace(/^-+|-+$/g, '');
  return words === '' ? id : `${words}-${id}`;
}

const ENDINGS: Readonly<Record<string, string>> = {
  'image/png': 'png',
  'image/jpeg': 'jpg',
  'image/webp': 'webp',
  'image/gif': 'gif',
  'image/heic': 'heic',
};

export function attachmentName(hash: string, mediaType: string): string {
  return `attachments/${hash}.${ENDINGS[mediaType] ?? 'bin'}`;
}
