import type { Diagnostic } from '../../../diagnostic.ts';
import type { FileReading } from '../trace.ts';
import { decodeText } from './decode-text.ts';
import { kindOfBytes, kindOfText } from './file-kind.ts';
import { refusal } from './finding.ts';
import { jcampStart, readJcamp } from './jcamp.ts';
import { MAX_BYTES } from './limits.ts';
import { readTable } from './table.ts';

const refused = (problem: Diagnostic): FileReading => ({ ok: false, problem });

const notASpectrum = ({ what, hint }: { what: string; hint: string }): FileReading =>
  refused(refusal('file-not-spectrum', { message: `This is ${what}, not a spectrum.`, hint }));

/**
 * Reads what an instrument wrote: JCAMP-DX (4.24, 5.0x, 6.00 labels) or a table of numbers. A file is
 * read whole, read with warnings, or refused with the line and the reason; it never throws. Time and
 * memory grow with the size of the file, up to 50 MB and four million points.
 *
 * @param name of the file; a title where the file has none of its own.
 */
export function readInstrumentFile(bytes: Uint8Array, name?: string): FileReading {
  if (bytes.length > MAX_BYTES)
    return refused(
      refusal('file-too-large', {
        message: `The file has ${Math.ceil(bytes.length / 1_048_576)} MB. At most 50 MB are read.`,
        hint: 'Export one spectrum at a time.',
      }),
    );
  if (bytes.length === 0)
    return refused(
      refusal('file-empty', { message: 'The file is empty.', hint: 'Copy or export it again.' }),
    );
  const binary = kindOfBytes(bytes);
  if (binary !== undefined) return notASpectrum(binary);
  const text = decodeText(bytes);
  if (text.trim() === '')
    return refused(
      refusal('file-empty', { message: 'The file holds blanks only.', hint: 'Export it again.' }),
    );
  const start = jcampStart(text);
  if (start >= 0) return readJcamp(text, start);
  const other = kindOfText(text);
  return other === undefined ? readTable(text, name) : notASpectrum(other);
}
