import { inflateRawSync } from 'node:zlib';
import { refusalError } from '../refusal.ts';

/** Past these a file is refused before anything of it is unpacked. */
export interface ZipLimits {
  readonly size_bytes: number;
  readonly unpacked_bytes: number;
  readonly files: number;
}

interface Listed {
  readonly path: string;
  readonly method: number;
  readonly packed_bytes: number;
  readonly size_bytes: number;
  readonly start: number;
}

/** Signatures and lengths after the format's own description, APPNOTE.TXT 6.3.10. */
const END = { signature: 0x06054b50, length: 22, longestComment: 0xffff };
const ENTRY = { signature: 0x02014b50, length: 46 };
const LOCAL = { signature: 0x04034b50, length: 30 };
const STORED = 0;
const DEFLATED = 8;
const ENCRYPTED = 1;

/**
 * The files of a zip file by their paths; folders are left out. Nothing in it is believed: what it
 * says of sizes is added up first, no file may unpack to more than was said of it, and no two may
 * share their bytes. Throws what `refusalOf` understands.
 */
export function unzip(bytes: Uint8Array, limits: ZipLimits): Map<string, Uint8Array> {
  if (bytes.length > limits.size_bytes) throw tooLarge(bytes.length, limits.size_bytes);
  const zip = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const listed = list(zip, limits.files);
  const total = listed.reduce((sum, { size_bytes }) => sum + size_bytes, 0);
  if (total > limits.unpacked_bytes) throw tooLarge(total, limits.unpacked_bytes);
  refuseOverlap(listed);
  const files = new Map<string, Uint8Array>();
  for (const file of listed) {
    if (file.path.endsWith('/')) continue;
    if (!isPlainPath(file.path)) throw noZip(`it names a file "${file.path.slice(0, 200)}"`);
    if (files.has(file.path)) throw noZip(`it holds "${file.path}" twice`);
    files.set(file.path, unpack(zip, file));
  }
  return files;
}

function list(zip: Buffer, most: number): Listed[] {
  const end = findEnd(zip);
  const count = zip.readUInt16LE(end + 10);
  let at = zip.readUInt32LE(end + 16);
  if (count === 0xffff || at === 0xffffffff) throw tooMany(most);
  if (count > most) throw tooMany(most);
  return Array.from({ length: count }, () => {
    if (at + ENTRY.length > zip.length || zip.readUInt32LE(at) !== ENTRY.signature)
      throw noZip('its list of files is broken');
    const nameLength = zip.readUInt16LE(at + 28);
    const next =
      at + ENTRY.length + nameLength + zip.readUInt16LE(at + 30) + zip.readUInt16LE(at + 32);
    const path = zip.toString('utf8', at + ENTRY.length, at + ENTRY.length + nameLength);
    if ((zip.readUInt16LE(at + 8) & ENCRYPTED) !== 0) throw noZip('it is encrypted');
    const packed_bytes = zip.readUInt32LE(at + 20);
    const start = dataStart(zip, zip.readUInt32LE(at + 42), packed_bytes);
    const method = zip.readUInt16LE(at + 10);
    const size_bytes = zip.readUInt32LE(at + 24);
    at = next;
    return { path, method, packed_bytes, size_bytes, start };
  });
}

/** Searched from the back: a comment of any text may come after it. */
function findEnd(zip: Buffer): number {
  const first = Math.max(0, zip.length - END.length - END.longestComment);
  for (let at = zip.length - END.length; at >= first; at--)
    if (
      zip.readUInt32LE(at) === END.signature &&
      at + END.length + zip.readUInt16LE(at + 20) === zip.length
    )
      return at;
  throw noZip('it has no list of files at its end');
}

function dataStart(zip: Buffer, local: number, packed_bytes: number): number {
  if (local + LOCAL.length > zip.length || zip.readUInt32LE(local) !== LOCAL.signature)
    throw noZip('a file in it does not begin where its list says');
  const start = local + LOCAL.length + zip.readUInt16LE(local + 26) + zip.readUInt16LE(local + 28);
  if (start + packed_bytes > zip.length) throw noZip('a file in it ends too soon');
  return start;
}

function refuseOverlap(listed: readonly Listed[]): void {
  let end = 0;
  for (const { start, packed_bytes } of [...listed].sort((a, b) => a.start - b.start)) {
    if (start < end) throw noZip('files in it share their bytes');
    end = start + packed_bytes;
  }
}

function unpack(
  zip: Buffer,
  { path, method, packed_bytes, size_bytes, start }: Listed,
): Uint8Array {
  const packed = zip.subarray(start, start + packed_bytes);
  const bytes =
    method === STORED ? packed : method === DEFLATED ? inflate(packed, size_bytes) : undefined;
  if (bytes?.length !== size_bytes) throw noZip(`"${path}" cannot be unpacked`);
  return bytes;
}

function inflate(packed: Buffer, size_bytes: number): Buffer | undefined {
  try {
    return inflateRawSync(packed, { maxOutputLength: Math.max(1, size_bytes) });
  } catch {
    return undefined;
  }
}

/** Below the root, and the same place on every system. */
function isPlainPath(path: string): boolean {
  const isSegment = (segment: string) => segment !== '' && segment !== '.' && segment !== '..';
  return !/[\\:]|\p{Cc}/u.test(path) && path.split('/').every(isSegment);
}

const inMB = (size_bytes: number): string =>
  `${Math.ceil(size_bytes / 1e6).toLocaleString('en')} MB`;

function tooLarge(size_bytes: number, most_bytes: number): Error {
  return refusalError({
    code: 'import-too-large',
    message: `The export has ${inMB(size_bytes)}, and at most ${inMB(most_bytes)} are read.`,
    hint: 'Restore a backup instead: that has no such limit.',
  });
}

function tooMany(most: number): Error {
  return refusalError({
    code: 'import-too-large',
    message: `The export has more files than the ${most.toLocaleString('en')} that are read.`,
    hint: 'Restore a backup instead: that has no such limit.',
  });
}

function noZip(why: string): Error {
  return refusalError({
    code: 'import-no-zip',
    message: `This zip file cannot be read: ${why}.`,
    hint: 'Take the file as the export wrote it, or copy it again from where it came.',
  });
}
