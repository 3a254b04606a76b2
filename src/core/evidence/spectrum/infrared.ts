/** How the sample was put into the beam: windows, intensities and what can hide differ. */
export const SAMPLE_STATES = ['film', 'solution', 'atr', 'disc', 'mull', 'gas'] as const;

export type SampleState = (typeof SAMPLE_STATES)[number];

/**
 * An infrared spectrum ready to be treated: wavenumbers rise, all values are finite, there are at
 * least 50 points. Places where the file has none are left out, and `gaps` tells where.
 */
export interface InfraredSpectrum {
  readonly title: string;
  readonly wavenumber_percm: Float64Array;
  /** Decadic absorbance; of ATR as recorded, until it is corrected. */
  readonly absorbance: Float64Array;
  /** As the file gave it: what noise and saturation are judged from. */
  readonly recordedAs: 'absorbance' | 'transmittance' | 'absorptionIndex';
  /** Absent: neither the file nor the person said. */
  readonly state?: SampleState;
  /** Stretches without data inside the range, widest spacing × 4 or more. */
  readonly gaps: readonly (readonly [from_percm: number, to_percm: number])[];
  /** The record was linear in wavelength, or digitised from paper: positions are good to this. */
  readonly positionU_percm: number;
  /** As the file says. */
  readonly resolution_percm?: number;
  /**
   * The record was linear in wavelength: its wavelengths are good to this, so that the wavenumber
   * is uncertain by ν̃² times it. `positionU_percm` is then of 2000 cm⁻¹.
   */
  readonly wavelengthU_um?: number;
}
