import { allInstruments } from './instrument.ts';
import type { Instrument, InstrumentKind } from './instrument.ts';

/** A balance of the laboratory, as its certificate or data sheet has it. */
export interface OwnBalance {
  readonly id: string;
  readonly name: string;
  readonly readability_g: number;
  readonly repeatability_g: number;
  readonly linearity_g: number;
  readonly capacity_g: number;
}

/** A piece of volumetric glassware with the tolerance that is marked on it. */
export interface OwnGlassware {
  readonly id: string;
  readonly name: string;
  readonly volume_mL: number;
  readonly tolerance_mL: number;
}

const SOURCE = 'set down by the laboratory';

/** The more particular first: a piston pipette is a pipette too. */
const KINDS: readonly (readonly [word: RegExp, kind: InstrumentKind])[] = [
  [/piston|micropipet/i, 'piston pipette'],
  [/pipet/i, 'pipette'],
  [/bur+et/i, 'burette'],
  [/cylinder/i, 'cylinder'],
  [/syringe/i, 'syringe'],
  [/beaker|conical|erlenmeyer/i, 'beaker'],
  [/flask/i, 'volumetric flask'],
];

/**
 * The balances and glassware of a laboratory as instruments, for `findInstrument` and the yield.
 * What kind a piece of glass is goes by its name; glass of no known kind counts as a beaker, whose
 * error is spread evenly. How finely a scale is read comes from the table's glass of that kind and
 * size.
 */
export function laboratoryInstruments(own: {
  readonly balances: readonly OwnBalance[];
  readonly glassware: readonly OwnGlassware[];
}): Instrument[] {
  return [...own.balances.map(balanceOf), ...own.glassware.map(glassOf)];
}

function balanceOf(balance: OwnBalance): Instrument {
  return {
    id: balance.id,
    kind: 'balance',
    name: balance.name,
    capacity: balance.capacity_g,
    readability: balance.readability_g,
    tolerance: balance.linearity_g,
    toleranceOf: 'scale',
    unit: 'g',
    distribution: 'rectangular',
    repeatability: balance.repeatability_g,
    source: SOURCE,
  };
}

function glassOf(glass: OwnGlassware): Instrument {
  const kind = KINDS.find(([word]) => word.test(glass.name))?.[1] ?? 'beaker';
  const alike = allInstruments().filter((each) => each.kind === kind);
  const sized = alike.find(({ capacity }) => capacity === glass.volume_mL);
  return {
    id: glass.id,
    kind,
    name: glass.name,
    capacity: glass.volume_mL,
    ...(sized?.readability === undefined ? {} : { readability: sized.readability }),
    tolerance: glass.tolerance_mL,
    toleranceOf: 'scale',
    unit: 'mL',
    distribution: alike[0]?.distribution ?? 'rectangular',
    source: SOURCE,
  };
}
