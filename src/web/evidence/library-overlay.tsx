import { useId, useMemo } from 'react';
import type { InfraredSpectrum } from '../../core/evidence/spectrum/infrared.ts';
import type { Spectrum } from '../../wire/spectrum.ts';
import { toHeightOf } from '../library/overlay.ts';
import { useReference, useSpectra } from '../library/use-spectra.ts';

/** The chosen reference, without its background and as high as the spectrum it is laid over. */
export function useLibraryCurve(
  spectrum: InfraredSpectrum,
  chosen: Spectrum | undefined,
): InfraredSpectrum | undefined {
  const reference = useReference(chosen).data;
  return useMemo(
    () =>
      chosen === undefined || reference === undefined ? undefined : toHeightOf(spectrum, reference),
    [spectrum, chosen, reference],
  );
}

/** The course's own references, those of the same substance first. */
export function LibraryChoice({
  smiles,
  chosen,
  onChoose,
}: {
  readonly smiles: string | undefined;
  readonly chosen: Spectrum | undefined;
  readonly onChoose: (chosen: Spectrum | undefined) => void;
}) {
  const id = useId();
  const spectra = (useSpectra().data ?? [])
    .filter(({ putAway }) => !putAway)
    .toSorted((a, b) => Number(b.smiles === smiles) - Number(a.smiles === smiles));
  if (spectra.length === 0) return null;
  return (
    <p className="evidence-overlay screen-only">
      <label htmlFor={id}>Lay over it from the library</label>{' '}
      <select
        id={id}
        value={chosen?.id ?? ''}
        onChange={({ target }) => onChoose(spectra.find((one) => one.id === target.value))}
      >
        <option value="">nothing</option>
        {spectra.map((one) => (
          <option key={one.id} value={one.id}>
            {one.name}
          </option>
        ))}
      </select>
    </p>
  );
}
