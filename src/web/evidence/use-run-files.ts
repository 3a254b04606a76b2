import { useQueries } from '@tanstack/react-query';
import { readInstrumentFile } from '../../core/evidence/spectrum/read/read-file.ts';
import type { FileReading } from '../../core/evidence/spectrum/trace.ts';
import { attachmentBytes } from '../api/attachment.ts';
import type { RunEvidence } from '../../core/record/run.ts';

const UNREACHED: FileReading = {
  ok: false,
  problem: {
    code: 'file-not-here',
    severity: 'warning',
    message: 'The file is not on this server yet.',
    hint: 'It is sent when the device that it was entered on has a network.',
  },
};

/** The files of the evidence, read; by hash. Those under way are not among them. */
export function useRunFiles(evidence: readonly RunEvidence[]): ReadonlyMap<string, FileReading> {
  const asked = evidence.flatMap(({ entry, evidence: entered }) => {
    const hash = entry.attachments?.[0];
    const name = 'file' in entered ? (entered.file ?? '') : '';
    return hash === undefined ? [] : [{ hash, name }];
  });
  const names = new Map(asked.map(({ hash, name }) => [hash, name]));
  return useQueries({
    queries: [...names].map(([hash, name]) => ({
      queryKey: ['instrument file', hash],
      queryFn: async () => readInstrumentFile(await attachmentBytes(hash), name),
      staleTime: Infinity,
      // It may come yet: the bench that entered it may be without a network.
      refetchInterval: ({ state }: { state: { status: string } }) =>
        state.status === 'error' ? 15_000 : false,
    })),
    combine: (results) =>
      new Map(
        [...names.keys()].flatMap((hash, i) => {
          const { data, isError } = results[i]!;
          if (data !== undefined) return [[hash, data] as const];
          return isError ? [[hash, UNREACHED] as const] : [];
        }),
      ),
  });
}
