import {
  FINGERPRINT_FORM,
  fingerprintBytes,
} from '../core/evidence/spectrum/library/fingerprint.ts';
import { referenceIn } from '../core/evidence/spectrum/library/reference.ts';
import type { ReferenceReading } from '../core/evidence/spectrum/library/reference.ts';
import type { SampleState } from '../core/evidence/spectrum/infrared.ts';
import type { SpectrumPrint } from './spectra.ts';

const UNREAD: SpectrumPrint = { form: 0, fingerprint: new Uint8Array(), bands: [] };

/** What a spectrum that was read is found by, as it is kept. */
export function printOf({
  fingerprint,
  bands,
}: Extract<ReferenceReading, { readonly ok: true }>): SpectrumPrint {
  return { form: FINGERPRINT_FORM, fingerprint: fingerprintBytes(fingerprint), bands };
}

/** Of the bytes of a file. One that is no spectrum keeps its place in the list but is never found. */
export function printOfFile(
  bytes: Uint8Array | undefined,
  state: SampleState | null,
): SpectrumPrint {
  const read = bytes && referenceIn(bytes, state === null ? {} : { state });
  return read?.ok === true ? printOf(read) : UNREAD;
}
