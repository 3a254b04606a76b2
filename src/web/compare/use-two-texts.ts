import { useMemo } from 'react';
import { differenceOf } from '../../core/report/difference/difference.ts';
import { useVersion } from '../api/queries.ts';

/** Both texts and what is another between them; reads and enacts both, so only when one changes. */
export function useTwoTexts(id: string, from: number, to: number) {
  const before = useVersion(id, from);
  const after = useVersion(id, to);
  const [a, b] = [before.data?.text, after.data?.text];
  const both = useMemo(
    () =>
      a === undefined || b === undefined
        ? undefined
        : { from: a, to: b, difference: differenceOf(a, b) },
    [a, b],
  );
  return { both, missing: a === undefined ? before : after };
}
