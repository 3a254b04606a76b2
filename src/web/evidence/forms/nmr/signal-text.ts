import { readMultiplicity } from '../../../../core/evidence/nmr/multiplicity.ts';
import type { NmrSignal } from '../../../../core/evidence/nmr/schema.ts';
import { numberText } from '../../../bench/typed/typed-number.ts';
import type { DecimalSign } from '../../../bench/typed/typed-number.ts';
import { readDraft } from '../draft.ts';
import type { Draft, DraftReader } from '../draft.ts';
import { typed } from '../from-file.tsx';

const LOWEST_ppm = -10;
const HIGHEST_ppm = 30;
const WIDEST_Hz = 400;

/** "7.26", "7.20–7.34", "0.1 to -0.2". */
const RANGE = /^([-−+]?[\d.,]+)\s*(?:[-–—−]|to)\s*([-−+]?[\d.,]+)$/;

/** The numbers of a text, each read as a field of its own would be. */
function numbersOf(
  parts: readonly string[],
  sign: DecimalSign,
  [low, high]: readonly [number, number],
): readonly number[] | undefined {
  const reader = readDraft(Object.fromEntries(parts.map((part, i) => [`${i}`, part])), sign);
  const numbers = parts.map((_, i) => reader.number(`${i}`, low, high));
  const isSound = Object.keys(reader.problems).length === 0 && !numbers.includes(undefined);
  return isSound ? (numbers as number[]) : undefined;
}

/** A shift, or both ends of a range, in ppm. */
export function readShift(row: DraftReader) {
  const { sign } = row;
  const text = row.text('shift', 60);
  if (text === undefined) {
    row.say('shift', 'This is needed.');
    return { shift_ppm: 0 };
  }
  const bare = text.replace(/\s*ppm$/i, '');
  const range = RANGE.exec(bare);
  const parts = range === null ? [bare] : [range[1]!, range[2]!];
  const numbers = numbersOf(parts, sign, [LOWEST_ppm, HIGHEST_ppm]);
  if (numbers === undefined) {
    const example = sign === ',' ? '7,26 or 7,20–7,34' : '7.26 or 7.20–7.34';
    row.say('shift', `A shift in ppm is expected, or a range: ${example}.`);
    return { shift_ppm: 0 };
  }
  const [shift_ppm = 0, to_ppm] = numbers;
  return { shift_ppm, to_ppm };
}

/** Coupling constants in Hz, one beside the other. */
export function readCouplings(row: DraftReader): readonly number[] | undefined {
  const { sign } = row;
  const text = row.text('J', 100);
  if (text === undefined) return undefined;
  const parting = sign === ',' ? /[;\s]+|,\s+/ : /[;,\s]+/;
  const parts = text
    .replace(/\s*Hz$/i, '')
    .split(parting)
    .filter((part) => part !== '');
  const couplings = numbersOf(parts, sign, [0, WIDEST_Hz]);
  if (couplings === undefined || couplings.length > 8)
    row.say('J', `Couplings in Hz are expected: ${sign === ',' ? '7,1; 1,4' : '7.1, 1.4'}.`);
  return couplings;
}

export function readPattern(row: DraftReader): string | undefined {
  const text = row.text('multiplicity', 24);
  if (text !== undefined && readMultiplicity(text) === undefined)
    row.say('multiplicity', 'Write s, d, t, q, quint, sext, sept or m; dd, dt; br for broad.');
  return text;
}

/** A signal as it stands in its row. */
export function signalDraft(signal: NmrSignal, sign: DecimalSign): Draft {
  const { shift_ppm, to_ppm, integral, multiplicity, J_Hz } = signal;
  const shown = (ppm: number) => numberText({ value: Number(ppm.toFixed(3)), decimals: 2 }, sign);
  const ends = [shift_ppm, ...(to_ppm === undefined ? [] : [to_ppm])].sort((a, b) => b - a);
  return {
    shift: ends.map(shown).join('–'),
    ...(integral !== undefined && { integral: typed(integral, 4, sign) }),
    ...(multiplicity !== undefined && { multiplicity }),
    ...(J_Hz !== undefined && {
      J: J_Hz.map((J) => typed(J, 4, sign)).join(sign === ',' ? '; ' : ', '),
    }),
  };
}
