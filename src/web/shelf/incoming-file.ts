/** As many characters as the reader takes (LIMITS of core/experiment/read.ts). */
const MOST_CHARACTERS = 2_000_000;
/** No character of a text takes more bytes than this. */
const MOST_BYTES = 4 * MOST_CHARACTERS;

export type Incoming =
  | { readonly ok: true; readonly name: string; readonly text: string }
  | { readonly ok: false; readonly name: string; readonly why: string };

/** What is in a file that came in, or why it cannot be taken and what to do about it. */
export async function readIncoming(file: File): Promise<Incoming> {
  const { name } = file;
  const refused = (why: string): Incoming => ({ ok: false, name, why });
  if (file.size > MOST_BYTES)
    return refused('is larger than any experiment that can be read (8 MB). Is it the right file?');
  const text = textIn(new Uint8Array(await file.arrayBuffer()));
  if (text === undefined)
    return refused(
      'is not plain text. If it comes from a word processor, save it as plain text or Markdown there and add that.',
    );
  if (text.trim() === '') return refused('is empty.');
  if (text.length > MOST_CHARACTERS)
    return refused('has more than two million characters. Divide it into several experiments.');
  return { ok: true, name, text };
}

/** UTF-8, or what a byte order mark says; undefined where the bytes are no text. */
function textIn(bytes: Uint8Array): string | undefined {
  const encoding =
    bytes[0] === 0xff && bytes[1] === 0xfe
      ? 'utf-16le'
      : bytes[0] === 0xfe && bytes[1] === 0xff
        ? 'utf-16be'
        : 'utf-8';
  try {
    const text = new TextDecoder(encoding, { fatal: true }).decode(bytes);
    return text.includes('\0') ? undefined : text;
  } catch {
    return undefined;
  }
}
