/**
 * Bytes to text, by hand, since the core has no decoder: UTF-8, UTF-16 by its byte-order mark or by
 * its zero bytes, else ISO 8859-1, in which every byte is a character. Line ends become \n.
 */

const CHUNK = 8192;

function joined(units: Uint16Array): string {
  const parts: string[] = [];
  for (let at = 0; at < units.length; at += CHUNK)
    parts.push(String.fromCharCode.apply(null, units.subarray(at, at + CHUNK) as never));
  return parts.join('');
}

function utf16(bytes: Uint8Array, start: number, low: 0 | 1): Uint16Array {
  const units = new Uint16Array((bytes.length - start) >> 1);
  for (let i = 0; i < units.length; i++) {
    const at = start + 2 * i;
    units[i] = bytes[at + low]! | (bytes[at + 1 - low]! << 8);
  }
  return units;
}

/** Code point, length; undefined where the bytes are not UTF-8 (RFC 3629). */
function codePointAt(bytes: Uint8Array, at: number): readonly [number, number] | undefined {
  const lead = bytes[at]!;
  const length = lead < 0x80 ? 1 : lead < 0xc2 ? 0 : lead < 0xe0 ? 2 : lead < 0xf0 ? 3 : 4;
  if (length === 0 || lead > 0xf4 || at + length > bytes.length) return undefined;
  if (length === 1) return [lead, 1];
  let point = lead & (0xff >> (length + 1));
  for (let i = 1; i < length; i++) {
    const next = bytes[at + i]!;
    if ((next & 0xc0) !== 0x80) return undefined;
    point = (point << 6) | (next & 0x3f);
  }
  const least = length === 2 ? 0x80 : length === 3 ? 0x800 : 0x10000;
  const isSurrogate = point >= 0xd800 && point <= 0xdfff;
  return point < least || point > 0x10ffff || isSurrogate ? undefined : [point, length];
}

function utf8(bytes: Uint8Array, start: number): Uint16Array | undefined {
  const units = new Uint16Array(bytes.length - start);
  let count = 0;
  for (let at = start; at < bytes.length;) {
    const byte = bytes[at]!;
    if (byte < 0x80) {
      units[count++] = byte;
      at++;
      continue;
    }
    const read = codePointAt(bytes, at);
    if (read === undefined) return undefined;
    const [point, length] = read;
    if (point < 0x10000) units[count++] = point;
    else {
      units[count++] = 0xd800 | ((point - 0x10000) >> 10);
      units[count++] = 0xdc00 | ((point - 0x10000) & 0x3ff);
    }
    at += length;
  }
  return units.subarray(0, count);
}

/** UTF-16 without a mark: every second byte of the beginning is zero, the others are not. */
function zeroSide(bytes: Uint8Array): 0 | 1 | undefined {
  const seen = Math.min(bytes.length, 512) & ~1;
  if (seen < 8) return undefined;
  const zeros = [0, 0];
  for (let at = 0; at < seen; at++) if (bytes[at] === 0) zeros[at & 1]!++;
  const half = seen / 2;
  if (zeros[1]! > 0.9 * half && zeros[0] === 0) return 1;
  if (zeros[0]! > 0.9 * half && zeros[1] === 0) return 0;
  return undefined;
}

function unitsOf(bytes: Uint8Array): Uint16Array {
  const [a, b, c] = bytes;
  if (a === 0xff && b === 0xfe) return utf16(bytes, 2, 0);
  if (a === 0xfe && b === 0xff) return utf16(bytes, 2, 1);
  const zeros = zeroSide(bytes);
  if (zeros !== undefined) return utf16(bytes, 0, zeros === 1 ? 0 : 1);
  const start = a === 0xef && b === 0xbb && c === 0xbf ? 3 : 0;
  return utf8(bytes, start) ?? Uint16Array.from(bytes.subarray(start));
}

/** The text of a file, lines ended by \n whatever ended them. */
export function decodeText(bytes: Uint8Array): string {
  const text = joined(unitsOf(bytes));
  return text.includes('\r') ? text.replaceAll('\r\n', '\n').replaceAll('\r', '\n') : text;
}
