import {
  FINGERPRINT_FORM,
  fingerprintFrom,
} from '../core/evidence/spectrum/library/fingerprint.ts';
import type { Fingerprint } from '../core/evidence/spectrum/library/fingerprint.ts';
import type { KeptBand } from '../core/evidence/spectrum/library/kept-bands.ts';
import { packLibrary } from '../core/evidence/spectrum/library/search.ts';
import type { PackedLibrary } from '../core/evidence/spectrum/library/search.ts';
import type { SpectrumPrint } from '../store/spectra.ts';
import { printOfFile } from '../store/spectrum-print.ts';
import type { Store } from '../store/store.ts';
import type { Spectrum } from '../wire/spectrum.ts';

interface Remembered {
  readonly fingerprint: Fingerprint | undefined;
  readonly bands: readonly KeptBand[];
}

/** The library as it is searched. What is put away is not in it. */
export interface SearchedLibrary {
  readonly packed: PackedLibrary;
  readonly withBands: readonly { readonly id: string; readonly bands: readonly KeptBand[] }[];
}

/** How it was measured is part of it: another state gives another fingerprint. */
const keyOf = ({ id, state }: Spectrum): string => `${id} ${state}`;

/**
 * Keeps the fingerprints of the library in memory, 1 kB each, so that a search asks the store only for
 * the list and for what has come in since. A fingerprint of another form is made anew from its file.
 */
export function spectrumMemory(store: Store): () => Promise<SearchedLibrary> {
  let known = new Map<string, Remembered>();
  let library: { readonly of: string; readonly value: SearchedLibrary } | undefined;

  const read = async (spectra: readonly Spectrum[]): Promise<void> => {
    const missing = spectra.filter((spectrum) => !known.has(keyOf(spectrum)));
    const prints = new Map(
      (await store.spectrumPrints(missing.map(({ id }) => id))).map((print) => [print.id, print]),
    );
    const next = new Map<string, Remembered>();
    for (const spectrum of spectra) {
      const key = keyOf(spectrum);
      const before = known.get(key);
      next.set(key, before ?? (await remember(store, spectrum, prints.get(spectrum.id))));
    }
    known = next;
  };

  return async () => {
    const spectra = (await store.spectra()).filter(({ putAway }) => !putAway);
    const of = spectra.map(keyOf).join('\n');
    if (library?.of === of) return library.value;
    await read(spectra);
    const all = spectra.flatMap((spectrum) => {
      const remembered = known.get(keyOf(spectrum));
      return remembered === undefined ? [] : [{ id: spectrum.id, ...remembered }];
    });
    const value: SearchedLibrary = {
      packed: packLibrary(
        all.flatMap(({ id, fingerprint }) =>
          fingerprint === undefined ? [] : [{ id, fingerprint }],
        ),
      ),
      withBands: all,
    };
    library = { of, value };
    return value;
  };
}

async function remember(
  store: Store,
  { file, state }: Spectrum,
  print: SpectrumPrint | undefined,
): Promise<Remembered> {
  const own =
    print?.form === FINGERPRINT_FORM
      ? print
      : printOfFile((await store.attachment(file))?.bytes, state);
  return { fingerprint: fingerprintFrom(own.fingerprint), bands: own.bands };
}
