import { Zip, ZipDeflate, ZipPassThrough } from 'fflate';

export interface ZipWriter {
  /** What is to be written for a file. */
  add(path: string, bytes: Uint8Array, packed: boolean): Uint8Array[];
  end(): Uint8Array[];
}

/** The earliest date that the format knows, so that the same content makes the same bytes. */
const NO_DATE = new Date(1980, 0, 1);

/** Writes a zip file part by part: a part is done with when it has been taken. */
export function zipWriter(): ZipWriter {
  let parts: Uint8Array[] = [];
  const zip = new Zip((error, part) => {
    if (error !== null) throw error;
    parts.push(part);
  });
  const taken = (): Uint8Array[] => {
    const all = parts;
    parts = [];
    return all;
  };
  return {
    add(path, bytes, packed) {
      const file = packed ? new ZipDeflate(path, { level: 6 }) : new ZipPassThrough(path);
      file.mtime = NO_DATE;
      zip.add(file);
      file.push(bytes, true);
      return taken();
    },
    end() {
      zip.end();
      return taken();
    },
  };
}
