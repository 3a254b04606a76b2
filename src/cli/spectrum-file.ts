import { readInstrumentFile } from '../core/evidence/spectrum/read/read-file.ts';
import type { MeasuredTrace } from '../core/evidence/spectrum/trace.ts';
import type { FileTrouble, Io } from './io.ts';
import { LARGEST_SPECTRUM_bytes } from './io.ts';
import { harmless } from './paint/text.ts';

export type SpectrumOpening =
  | { readonly ok: true; readonly traces: readonly MeasuredTrace[] }
  | { readonly ok: false; readonly message: string; readonly hint?: string };

const TROUBLE: Readonly<Record<FileTrouble['trouble'], readonly [message: string, hint: string]>> =
  {
    missing: ['There is no file of this name.', 'Is the folder right?'],
    folder: ['This is a folder.', 'Name the file in it that the instrument wrote.'],
    denied: ['It may not be read.', 'Ask whoever owns it.'],
    'too-large': ['It is larger than 50 MB.', 'Export one spectrum at a time.'],
    terminal: ['Nothing comes from the standard input.', 'Send a file to it: < FILE'],
    other: ['It cannot be read.', 'Copy it to this machine and try again.'],
  };

/** What an instrument wrote, from a file or the standard input (`-`). */
export async function openSpectrum(path: string, io: Io): Promise<SpectrumOpening> {
  const read =
    path === '-'
      ? await io.stdin(LARGEST_SPECTRUM_bytes)
      : await io.read(path, LARGEST_SPECTRUM_bytes);
  const name = path === '-' ? 'standard input' : path;
  if (!(read instanceof Uint8Array)) {
    const [message, hint] = TROUBLE[read.trouble];
    return { ok: false, message: `${harmless(name)}: ${message}`, hint };
  }
  const reading = readInstrumentFile(read, name.replace(/^.*[/\\]/, ''));
  if (reading.ok) return { ok: true, traces: reading.traces };
  const { message, hint, at } = reading.problem;
  const line = at === undefined ? '' : `, line ${at.line}`;
  return {
    ok: false,
    message: `${harmless(name)}${line}: ${harmless(message)}`,
    ...(hint !== undefined && { hint }),
  };
}
