import bandTable from '../../../facts/ir-bands.json' with { type: 'json' };
import patternTable from '../../../facts/structure_patterns.json' with { type: 'json' };
import { rowsOf } from '../../../facts/table.ts';
import type { StructureFacts } from '../../structure.ts';
import type { SampleState } from '../infrared.ts';

export type Intensity = 'vs' | 's' | 'm' | 'w' | 'v';
export type BandShape = 'sharp' | 'medium' | 'broad' | 'very broad';

/** One row of data/ir-bands.csv: where a vibration of a group is looked for, and how it looks. */
export interface IrBand {
  readonly id: string;
  /** Of data/structure_patterns.csv. */
  readonly pattern: string;
  /** "C=O stretch"; after a comma which of several: "N–H stretch, symmetric". */
  readonly vibration: string;
  readonly states: readonly SampleState[];
  readonly low_percm: number;
  readonly high_percm: number;
  /** Where most of them lie. */
  readonly coreLow_percm: number;
  readonly coreHigh_percm: number;
  /** `v`: anything from silent to strong, as the neighbours make it. */
  readonly intensity: Intensity;
  readonly shape: BandShape;
  /** `must`: the spectrum of a pure sample shows it. */
  readonly duty: 'must' | 'may';
  /** Id of the band that comes with it. */
  readonly partner?: string;
  readonly note: string;
  readonly source: string;
}

export interface ExpectedBand {
  readonly band: IrBand;
  /** Of every group in the structure that should give it. */
  readonly atoms: readonly (readonly number[])[];
}

/**
 * How much lower a recorded ATR maximum may lie than that of a transmitted beam: the refractive
 * index of the sample runs through its dispersion there. docs/methods/ir-bands.md has the measured
 * pairs behind these.
 */
const ATR_LOWER_percm: Record<BandShape, number> = {
  sharp: 10,
  medium: 12,
  broad: 30,
  'very broad': 40,
};

const bands: readonly IrBand[] = rowsOf(bandTable).map((row) => ({
  id: row['id']!,
  pattern: row['pattern']!,
  vibration: row['vibration']!,
  states: row['states']!.split(' ') as SampleState[],
  low_percm: Number(row['low_percm']),
  high_percm: Number(row['high_percm']),
  coreLow_percm: Number(row['core_low_percm']),
  coreHigh_percm: Number(row['core_high_percm']),
  intensity: row['intensity'] as Intensity,
  shape: row['shape'] as BandShape,
  duty: row['duty'] as 'must' | 'may',
  ...(row['partner'] === '' ? {} : { partner: row['partner']! }),
  note: row['note']!,
  source: row['source']!,
}));

const idsIn = (cell: string): string[] => cell.split(' ').filter((id) => id !== '');

const patterns = new Map(
  rowsOf(patternTable).map((row) => [
    row['id']!,
    { refines: idsIn(row['refines']!), outranks: idsIn(row['outranks']!) },
  ]),
);

/**
 * Every pattern whose rows give way to those of this one: what it refines, near and far, and what
 * it outranks though neither holds the other (an o-hydroxyaryl ketone before an aryl ketone).
 */
function generalOf(pattern: string): Set<string> {
  const own = patterns.get(pattern);
  const found = new Set<string>();
  const open = [...(own?.refines ?? []), ...(own?.outranks ?? [])];
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    if (found.has(next)) continue;
    found.add(next);
    open.push(...(patterns.get(next)?.refines ?? []));
  }
  return found;
}

const generals = new Map([...patterns.keys()].map((id) => [id, generalOf(id)]));

export function irBands(): readonly IrBand[] {
  return bands;
}

/** The vibration without which of several it is: what a special case takes over whole. */
export const vibrationKind = (band: IrBand): string => band.vibration.split(',')[0]!;

function inState(band: IrBand, state: SampleState): IrBand {
  if (state !== 'atr' || (band.intensity !== 'vs' && band.intensity !== 's')) return band;
  const lower = ATR_LOWER_percm[band.shape];
  return {
    ...band,
    low_percm: band.low_percm - lower,
    coreLow_percm: band.coreLow_percm - lower,
  };
}

type Atoms = readonly number[];

/** Two matches speak of one group when each holds the other's anchor, its first atom. */
const isSameGroup = (one: Atoms, other: Atoms): boolean =>
  other.includes(one[0]!) && one.includes(other[0]!);

/**
 * The bands that a structure should or may show in this state, in the order of the table. Where a
 * pattern refines or outranks another and both have rows for one kind of vibration in this state,
 * the special rows hold for the groups that it matches, and the general rows only for the others.
 * Strong bands of `atr` may lie lower than in the table.
 */
export function bandsFor(facts: StructureFacts, state: SampleState): readonly ExpectedBand[] {
  const here = bands.filter(
    (band) => band.states.includes(state) && facts.matches[band.pattern] !== undefined,
  );
  // By general pattern and kind of vibration: the groups that a special row speaks for
  const taken = new Map<string, Atoms[]>();
  for (const band of here)
    for (const general of generals.get(band.pattern) ?? []) {
      const key = `${general}|${vibrationKind(band)}`;
      taken.set(key, [...(taken.get(key) ?? []), ...(facts.matches[band.pattern] ?? [])]);
    }
  return here.flatMap((band) => {
    const special = taken.get(`${band.pattern}|${vibrationKind(band)}`) ?? [];
    const atoms = (facts.matches[band.pattern] ?? []).filter(
      (match) => !special.some((other) => isSameGroup(match, other)),
    );
    return atoms.length === 0 ? [] : [{ band: inState(band, state), atoms }];
  });
}
