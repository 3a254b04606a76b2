import { useState } from 'react';
import type { BenchEntry } from '../../../core/record/entry.ts';
import type { NewFile } from '../outbox/bench.ts';
import { useRecord } from '../record-context.ts';

const NO_ROOM = 'This device could not keep it: is there room left? It is not entered yet.';

/** Enters, and says so where the device could not keep it. */
export function useEnter() {
  const { enter } = useRecord();
  const [problem, setProblem] = useState<string>();
  return {
    problem,
    enter: async (entry: BenchEntry, files?: readonly NewFile[]): Promise<boolean> => {
      try {
        await enter(entry, files);
        setProblem(undefined);
        return true;
      } catch {
        setProblem(NO_ROOM);
        return false;
      }
    },
  };
}
