import type { FileTrouble, Io } from './io.ts';
import { harmless } from './paint/text.ts';

export type TextReading =
  | { readonly ok: true; readonly text: string; readonly remark?: string }
  | { readonly ok: false; readonly message: string; readonly hint?: string };

/** What a file or the standard input (`-`) says, or in plain words why it cannot be read. */
export async function readText(path: string, io: Io): Promise<TextReading> {
  const read = path === '-' ? await io.stdin() : await io.read(path);
  const name = path === '-' ? 'the standard input' : harmless(path);
  return read instanceof Uint8Array ? decode(read, name) : troubleText(read, name);
}

function troubleText({ trouble, detail }: FileTrouble, name: string): TextReading {
  const texts: Record<FileTrouble['trouble'], [message: string, hint?: string]> = {
    missing: [`There is no file ${name}.`, 'Is the folder right? Paths start from where you are.'],
    folder: [`${name} is a folder.`, 'Name the experiment in it, a .md file.'],
    denied: [`${name} may not be read.`, 'Ask whoever owns the file.'],
    'too-large': [`${name} is larger than 5 MB, which no experiment is.`, 'Is it the right file?'],
    terminal: [
      'Nothing comes from the standard input.',
      'Send a file to it: weighboat check - < FILE',
    ],
    other: [`${name} cannot be read${detail === undefined ? '' : `: ${detail}`}.`],
  };
  const [message, hint] = texts[trouble];
  return { ok: false, message, ...(hint === undefined ? {} : { hint }) };
}

/** First bytes of what people pass by mistake. */
const OTHER_FORMATS: readonly (readonly [bytes: string, what: string])[] = [
  ['PK\u0003\u0004', 'a word-processor, spreadsheet or zip file'],
  ['\u00d0\u00cf\u0011\u00e0', 'an older word-processor or spreadsheet file'],
  ['%PDF', 'a PDF'],
  ['\u0089PNG', 'a picture'],
  ['\u00ff\u00d8\u00ff', 'a picture'],
  ['{\\rtf', 'a rich-text file'],
];

function decode(bytes: Uint8Array, name: string): TextReading {
  const start = String.fromCharCode(...bytes.subarray(0, 8));
  const other = OTHER_FORMATS.find(([mark]) => start.startsWith(mark));
  if (other !== undefined)
    return {
      ok: false,
      message: `${name} is ${other[1]}, not plain text.`,
      hint: 'Save or export it as plain text (UTF-8) first.',
    };
  const wide = wideEncoding(bytes);
  if (wide !== undefined) return { ok: true, text: new TextDecoder(wide).decode(bytes) };
  if (looksBinary(bytes))
    return { ok: false, message: `${name} is not text.`, hint: 'Is it the right file?' };
  try {
    return { ok: true, text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    return {
      ok: true,
      text: new TextDecoder('windows-1252').decode(bytes),
      remark: `${name} is not UTF-8; it was read as Windows-1252. Save it as UTF-8 to be sure of ° and µ.`,
    };
  }
}

function wideEncoding(bytes: Uint8Array): 'utf-16le' | 'utf-16be' | undefined {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le';
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'utf-16be';
  return undefined;
}

/** A nought byte, or more than one control character in fifty. */
function looksBinary(bytes: Uint8Array): boolean {
  let odd = 0;
  for (const b of bytes) {
    if (b === 0) return true;
    if (b < 32 && b !== 9 && b !== 10 && b !== 12 && b !== 13) odd++;
  }
  return odd * 50 > bytes.length;
}
