import { useState } from 'react';
import type { FileTechnique } from './sniff.ts';
import { beginningOf, likelyTechnique, notFromInstrument } from './sniff.ts';

/** A file that waits for its questions to be answered. */
export interface AskedFile {
  readonly name: string;
  readonly bytes: ArrayBuffer;
  readonly likely: FileTechnique;
}

/** Files that were dropped or chosen: read one by one, asked about one by one. */
export function useFiles() {
  const [asked, setAsked] = useState<readonly AskedFile[]>([]);
  const [refused, setRefused] = useState<readonly string[]>([]);
  const take = async (files: readonly File[]): Promise<void> => {
    const read: AskedFile[] = [];
    const said: string[] = [];
    for (const file of files) {
      try {
        const beginning = await beginningOf(file);
        const problem = notFromInstrument(file.name, file.size, beginning);
        if (problem !== undefined) said.push(problem);
        else
          read.push({
            name: file.name,
            bytes: await file.arrayBuffer(),
            likely: likelyTechnique(beginning),
          });
      } catch {
        said.push(`${file.name} could not be read. Is it a folder, or open elsewhere?`);
      }
    }
    setRefused(said);
    setAsked((before) => [...before, ...read]);
  };
  return {
    /** The one to ask about now. */
    current: asked[0],
    /** How many wait behind it. */
    more: Math.max(0, asked.length - 1),
    refused,
    take,
    done: () => setAsked((before) => before.slice(1)),
  };
}
