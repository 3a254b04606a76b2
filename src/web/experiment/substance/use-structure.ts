import { useEffect, useState } from 'react';
import { Refused } from '../../api/request.ts';
import { structureOf } from '../../api/deeds.ts';
import type { StructureAnswer } from '../../api/deeds.ts';

const PAUSE_ms = 250;

/** What the structure toolkit says of a SMILES while it is written; nothing without a network. */
export function useStructure(smiles: string): StructureAnswer | undefined {
  const [answer, setAnswer] = useState<StructureAnswer>();
  const asked = smiles.trim();
  useEffect(() => {
    if (asked === '') return setAnswer(undefined);
    const abort = new AbortController();
    const timer = setTimeout(() => {
      structureOf(asked, abort.signal)
        .then(setAnswer)
        .catch((error: unknown) => {
          if (abort.signal.aborted) return;
          if (!(error instanceof Refused)) throw error;
          setAnswer(error.status === 0 ? undefined : { ok: false, message: error.refusal.message });
        });
    }, PAUSE_ms);
    return () => {
      clearTimeout(timer);
      abort.abort();
    };
  }, [asked]);
  return answer;
}
