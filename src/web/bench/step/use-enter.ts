import { useRef, useState } from 'react';
import type { BenchEntry } from '../../../core/record/entry.ts';
import type { NewFile } from '../outbox/bench.ts';
import { useRecord } from '../record-context.ts';

const NO_ROOM = 'This device could not keep it: is there room left? It is not entered yet.';
/** Where a target makes room for another one: a second tap so soon was meant for the first. */
export const SECOND_TAP_ms = 600;
/** So long a doubtful number is read before it can be kept. */
export const KEEP_REST_ms = 1000;

/**
 * Enters one line at a time, and says so where the device could not keep it. False: it was not
 * entered. After a line `pause_ms` go by before the next one is taken.
 */
export function useEnter(pause_ms = 0) {
  const { enter } = useRecord();
  const [problem, setProblem] = useState<string>();
  const busyUntil_ms = useRef(0);
  return {
    problem,
    enter: async (entry: BenchEntry, files?: readonly NewFile[]): Promise<boolean> => {
      if (performance.now() < busyUntil_ms.current) return false;
      busyUntil_ms.current = Infinity;
      try {
        await enter(entry, files);
        setProblem(undefined);
        busyUntil_ms.current = performance.now() + pause_ms;
        return true;
      } catch {
        setProblem(NO_ROOM);
        busyUntil_ms.current = 0;
        return false;
      }
    },
  };
}
