import { open, writeFile } from 'node:fs/promises';
import { DEFAULT_WIDTH, LARGEST_FILE_bytes } from './io.ts';
import type { FileTrouble, Io } from './io.ts';
import { KEEPING } from './serving/keeping.ts';

const TROUBLES: Readonly<Record<string, FileTrouble['trouble']>> = {
  ENOENT: 'missing',
  ENOTDIR: 'missing',
  EISDIR: 'folder',
  EACCES: 'denied',
  EPERM: 'denied',
};

function troubleOf(error: unknown): FileTrouble {
  const { code, message } = error as { code?: string; message?: string };
  return { trouble: TROUBLES[code ?? ''] ?? 'other', detail: message ?? String(error) };
}

async function readFileOf(
  path: string,
  most_bytes = LARGEST_FILE_bytes,
): Promise<Uint8Array | FileTrouble> {
  try {
    const handle = await open(path, 'r');
    try {
      const about = await handle.stat();
      if (about.isDirectory()) return { trouble: 'folder' };
      if (about.size > most_bytes) return { trouble: 'too-large' };
      // A pipe or a device has no size beforehand: it is read as a stream, up to the limit.
      if (!about.isFile())
        return await readStream(handle.createReadStream({ autoClose: false }), most_bytes);
      return new Uint8Array(await handle.readFile());
    } finally {
      await handle.close();
    }
  } catch (error) {
    return troubleOf(error);
  }
}

async function readStream(
  stream: AsyncIterable<unknown>,
  most_bytes: number,
): Promise<Uint8Array | FileTrouble> {
  const parts: Buffer[] = [];
  let size = 0;
  for await (const part of stream) {
    const piece = Buffer.isBuffer(part) ? part : Buffer.from(String(part));
    size += piece.length;
    if (size > most_bytes) return { trouble: 'too-large' };
    parts.push(piece);
  }
  return new Uint8Array(Buffer.concat(parts));
}

async function writeFileOf(path: string, text: string): Promise<FileTrouble | undefined> {
  try {
    await writeFile(path, text, 'utf8');
    return undefined;
  } catch (error) {
    return troubleOf(error);
  }
}

async function readStdin(most_bytes = LARGEST_FILE_bytes): Promise<Uint8Array | FileTrouble> {
  if (process.stdin.isTTY) return { trouble: 'terminal' };
  try {
    return await readStream(process.stdin, most_bytes);
  } catch (error) {
    return troubleOf(error);
  }
}

/** https://no-color.org: any value that is not empty means no styles. */
function mayStyle(): boolean {
  return process.stdout.isTTY && !process.env['NO_COLOR'] && process.env['TERM'] !== 'dumb';
}

/** The real machine. A reader that stops early (`| head`) ends the writing without a complaint. */
export function processIo(): Io {
  for (const stream of [process.stdout, process.stderr])
    stream.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code === 'EPIPE') process.exit();
      throw error;
    });
  return {
    out: (text) => void process.stdout.write(text),
    err: (text) => void process.stderr.write(text),
    width: process.stdout.isTTY ? process.stdout.columns || DEFAULT_WIDTH : DEFAULT_WIDTH,
    colour: mayStyle(),
    read: readFileOf,
    stdin: readStdin,
    write: writeFileOf,
    keeping: KEEPING,
  };
}
