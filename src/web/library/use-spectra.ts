import { queryOptions, useQuery } from '@tanstack/react-query';
import type { InfraredSpectrum, SampleState } from '../../core/evidence/spectrum/infrared.ts';
import { infraredIn } from '../../core/evidence/spectrum/library/reference.ts';
import { readInstrumentFile } from '../../core/evidence/spectrum/read/read-file.ts';
import type { Spectrum, SpectrumHits, SpectrumSearch } from '../../wire/spectrum.ts';
import { attachmentBytes } from '../api/attachment.ts';
import { Refused, request } from '../api/request.ts';

/** The library, by name; what is put away is among it. */
export const useSpectra = () =>
  useQuery({
    queryKey: ['/api/spectra'],
    queryFn: () => request<Spectrum[]>('/api/spectra'),
  });

/** The file of a reference, read; asked for once, since it never changes. */
const referenceQuery = ({ file, state }: Pick<Spectrum, 'file' | 'state'>) =>
  queryOptions({
    queryKey: ['reference spectrum', file, state],
    queryFn: () => readReference(file, state),
    staleTime: Infinity,
  });

async function readReference(file: string, state: SampleState | null): Promise<InfraredSpectrum> {
  const bytes = await attachmentBytes(file);
  const got = infraredIn(readInstrumentFile(bytes), state === null ? {} : { state });
  if (!got.ok) throw new Refused(422, got.problem);
  return got.spectrum;
}

/** The trace of a reference, to be drawn or laid over another; nothing is asked while there is none. */
export const useReference = (of: Pick<Spectrum, 'file' | 'state'> | undefined) =>
  useQuery({ ...referenceQuery(of ?? { file: '', state: null }), enabled: of !== undefined });

/** What the server finds in the library; asked again after the library has changed. */
export const useSpectrumSearch = (asked: SpectrumSearch | undefined) =>
  useQuery({
    queryKey: ['/api/spectra/search', asked],
    queryFn: () => request<SpectrumHits>('/api/spectra/search', { method: 'POST', body: asked }),
    enabled: asked !== undefined,
  });
