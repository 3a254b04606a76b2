import type { Diagnostic } from '../../../diagnostic.ts';
import { shown, warning } from './finding.ts';
import { headerNumber } from './number-scan.ts';

type Headers = Readonly<Record<string, string>>;

export interface Shifts {
  readonly x: Float64Array;
  readonly frequency_MHz: number;
  readonly warnings: readonly Diagnostic[];
}

const positive = (value: string | undefined): number | undefined => {
  const read = headerNumber(value)?.value;
  return read !== undefined && read > 0 ? read : undefined;
};

/** MHz of 0 ppm where the file has it ($SF), else of the carrier, which is a few ppm beside it. */
export const frequencyOf = (headers: Headers): number | undefined =>
  positive(headers['$SF']) ?? positive(headers['.OBSERVEFREQUENCY']);

interface Anchor {
  readonly hz: number;
  readonly ppm: number;
}

/** ##.SHIFT REFERENCE= INTERNAL, compound, number of the point, its ppm. Points count from 1. */
function fromReference(headers: Headers, asWritten: Float64Array): Anchor | undefined {
  const fields = (headers['.SHIFTREFERENCE'] ?? '').replace(/[()]/g, '').split(',');
  const point = headerNumber(fields.at(-2))?.value;
  const ppm = headerNumber(fields.at(-1))?.value;
  if (fields.length < 4 || point === undefined || ppm === undefined) return undefined;
  const below = asWritten[Math.floor(point) - 1];
  const above = asWritten[Math.ceil(point) - 1];
  if (below === undefined || above === undefined) return undefined;
  return { hz: below + (point - Math.floor(point)) * (above - below), ppm };
}

/** $OFFSET: the ppm of the point that is furthest down the field. */
function fromOffset(headers: Headers, asWritten: Float64Array): Anchor | undefined {
  const ppm = headerNumber(headers['$OFFSET'])?.value;
  const [first, last] = [asWritten[0], asWritten.at(-1)];
  if (ppm === undefined || first === undefined || last === undefined) return undefined;
  return { hz: Math.max(first, last), ppm };
}

/** Two references of one file may differ by this before it is said: common practice. */
const SAME_ppm = 0.01;

/**
 * Hz to ppm: δ = δ_ref + (ν − ν_ref)/ν₀, ν in Hz and ν₀ in MHz, in the order of the file. Undefined
 * where the file does not say the frequency. Without a reference the zero of the file's own scale is
 * taken, and said.
 */
export function chemicalShifts(headers: Headers, asWritten: Float64Array): Shifts | undefined {
  const frequency_MHz = frequencyOf(headers);
  if (frequency_MHz === undefined) return undefined;
  const reference = fromReference(headers, asWritten);
  const offset = fromOffset(headers, asWritten);
  const anchor = reference ?? offset ?? { hz: 0, ppm: 0 };
  const warnings: Diagnostic[] = [];
  const shiftOf = (hz: number) => anchor.ppm + (hz - anchor.hz) / frequency_MHz;
  if (reference === undefined && offset === undefined)
    warnings.push(
      warning('shift-reference', {
        message:
          'The file does not say which frequency is 0 ppm. The zero of its own scale was taken.',
        hint: 'Check the solvent signal before trusting a shift.',
      }),
    );
  else if (reference !== undefined && offset !== undefined) {
    const other = offset.ppm - shiftOf(offset.hz);
    if (Math.abs(other) > SAME_ppm)
      warnings.push(
        warning('shift-reference', {
          message:
            `The two references of the file differ by ${shown(Math.abs(other))} ppm. ` +
            'SHIFT REFERENCE was taken.',
          hint: 'Check the solvent signal before trusting a shift.',
        }),
      );
  }
  return { x: asWritten.map(shiftOf), frequency_MHz, warnings };
}
