import type { Diagnostic } from '../../diagnostic.ts';
import { fixed } from '../melting/compare.ts';
import type { Statement } from '../statement.ts';
import { waterIndex } from './index-at.ts';
import type { RefractionEntered } from './schema.ts';

/** Within this of water an instrument is well set: twice what it is good to (common practice). */
const WATER_GOOD = 0.0004;
/** An instrument this far off on water is to be set, not corrected (judgement). */
const MOST_OFF = 0.003;

/** What water says of the instrument. */
export function instrument(
  water: RefractionEntered['water'],
  expected: number | undefined,
): Statement[] {
  if (water === undefined || expected === undefined) return [];
  const error = water.index - expected;
  const good = Math.abs(error) <= WATER_GOOD;
  const off = `${fixed(Math.abs(error), 4)} ${error > 0 ? 'high' : 'low'}`;
  return [
    {
      id: 'refractive-instrument',
      technique: 'refractiveIndex',
      about: 'instrument',
      what: 'Refractive index of water',
      measured: `${fixed(water.index, 4)} at ${fixed(water.T_C, 1)} °C`,
      expected: `${fixed(expected, 4)} at ${fixed(water.T_C, 1)} °C (handbook values)`,
      agreement: good ? 'agrees' : 'disagrees',
      weight: 'moderate',
      says: good
        ? 'The instrument reads water as it should.'
        : Math.abs(error) <= MOST_OFF
          ? `The instrument reads water ${off}; the reading of the sample is corrected by that.`
          : `The instrument reads water ${off}, too far to be corrected.`,
      limits: 'One liquid checks one place of the scale; far from 1.33 it may err otherwise.',
    },
  ];
}

/** Water as the instrument showed it: one that corrects its readings itself shows it at 20 °C. */
export function waterOf({ water, compensated }: RefractionEntered): RefractionEntered['water'] {
  return water === undefined || compensated !== true ? water : { ...water, T_C: 20 };
}

/** What the instrument is off by, from its reading of water; or why it is not used. */
export function waterCheck(water: RefractionEntered['water']): {
  readonly error?: number;
  readonly expected?: number;
  readonly diagnostics: readonly Diagnostic[];
} {
  if (water === undefined) return { diagnostics: [] };
  const expected = waterIndex(water.T_C);
  if (expected === undefined)
    return {
      diagnostics: [
        {
          code: 'water-check-left-out',
          severity: 'note',
          message: `The index of water is not known here at ${fixed(water.T_C, 1)} °C.`,
          hint: 'Check the instrument with water between 10 and 40 °C.',
        },
      ],
    };
  const error = water.index - expected;
  if (Math.abs(error) <= MOST_OFF) return { error, expected, diagnostics: [] };
  return {
    expected,
    diagnostics: [
      {
        code: 'refractometer-off',
        severity: 'warning',
        message: `The instrument reads ${fixed(water.index, 4)} for water, which has ${fixed(expected, 4)}.`,
        hint: 'Clean the prism and set the instrument with water, then measure again. The reading is not corrected.',
      },
    ],
  };
}
