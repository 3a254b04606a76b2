import { kindOfBytes, kindOfText } from '../../core/evidence/spectrum/read/file-kind.ts';
import type { Technique } from '../../core/evidence/statement.ts';

export type FileTechnique = Extract<Technique, 'infrared' | 'nmr' | 'mass' | 'chromatogram'>;

const DATA_TYPE = /##\s*DATA\s*[_-]?\s*TYPE\s*=\s*([^\r\n$]*)/gi;

const BY_TYPE: readonly (readonly [RegExp, FileTechnique])[] = [
  [/NMR/i, 'nmr'],
  [/MASS/i, 'mass'],
  [/CHROMATO/i, 'chromatogram'],
  [/INFRARED|\bIR\b|FTIR/i, 'infrared'],
];

/** What a file most likely is, from its beginning: asked of the person, never only taken. */
export function likelyTechnique(beginning: string): FileTechnique {
  // A file of several blocks begins with one that says only LINK
  const types = [...beginning.matchAll(DATA_TYPE)].map(([, type = '']) => type);
  const found = types.flatMap((type) => BY_TYPE.find(([words]) => words.test(type))?.[1] ?? []);
  return found[0] ?? 'infrared';
}

const MB = 1024 * 1024;
export const LARGEST_FILE_bytes = 10 * MB;

/** Why a file is nothing that an instrument wrote; undefined where it may be. */
export function notFromInstrument(
  name: string,
  size: number,
  beginning: string,
): string | undefined {
  if (size === 0) return `${name} is empty. Save it again on the instrument.`;
  if (size > LARGEST_FILE_bytes)
    return `${name} is larger than ${LARGEST_FILE_bytes / MB} MB. Export one spectrum as JCAMP-DX or as a table.`;
  const bytes = Uint8Array.from(beginning, (character) => character.charCodeAt(0) & 0xff);
  const other = kindOfBytes(bytes) ?? kindOfText(beginning);
  if (other !== undefined) return `${name} is ${other.what}, not a spectrum. ${other.hint}`;
  return undefined;
}

/** The first bytes as text, one character a byte. */
export async function beginningOf(file: Blob): Promise<string> {
  const bytes = new Uint8Array(await file.slice(0, 16_384).arrayBuffer());
  return String.fromCharCode(...bytes)
    .replace(/\0/g, '')
    .replace(/^(?:ï»¿|ÿþ|þÿ)/, '');
}
