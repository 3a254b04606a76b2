import type { Diagnostic } from '../../../diagnostic.ts';
import type { InfraredSpectrum, SampleState } from '../infrared.ts';
import { readInstrumentFile } from '../read/read-file.ts';
import { infraredOf } from '../to-infrared.ts';
import type { FileReading } from '../trace.ts';
import { fingerprintOf } from './fingerprint.ts';
import type { Fingerprint } from './fingerprint.ts';
import { keptBands } from './kept-bands.ts';
import type { KeptBand } from './kept-bands.ts';

/** A file made ready for the library: what it is compared and found by. */
export type ReferenceReading =
  | {
      readonly ok: true;
      readonly spectrum: InfraredSpectrum;
      readonly fingerprint: Fingerprint;
      readonly bands: readonly KeptBand[];
    }
  | { readonly ok: false; readonly problem: Diagnostic };

const NO_BANDS: Diagnostic = {
  code: 'spectrum-without-bands',
  severity: 'error',
  message: 'No band stands out of the background between 4000 and 600 cm⁻¹.',
  hint: 'Was the sample in the beam? Measure it again.',
};

/** The first infrared spectrum of a file; the reason of the first trace where there is none. */
export function infraredIn(
  reading: FileReading,
  asked: { readonly state?: SampleState } = {},
): ReturnType<typeof infraredOf> {
  if (!reading.ok) return reading;
  let refused: ReturnType<typeof infraredOf> | undefined;
  for (const trace of reading.traces) {
    const got = infraredOf(trace, asked);
    if (got.ok) return got;
    refused ??= got;
  }
  return refused ?? { ok: false, problem: NO_BANDS };
}

/**
 * Reads a file of an instrument for the library. `asked.state` is how the sample lay in the beam, as
 * the person said; it decides how heights are weighed. Never throws.
 */
export function referenceIn(
  bytes: Uint8Array,
  asked: { readonly state?: SampleState } = {},
): ReferenceReading {
  const got = infraredIn(readInstrumentFile(bytes), asked);
  if (!got.ok) return got;
  const fingerprint = fingerprintOf(got.spectrum);
  if (fingerprint === undefined) return { ok: false, problem: NO_BANDS };
  return { ok: true, spectrum: got.spectrum, fingerprint, bands: keptBands(got.spectrum) };
}
