import type { Diagnostic } from '../diagnostic.ts';
import type { Material } from '../chemistry/material.ts';
import type { MaterialUse } from '../experiment/step.ts';
import type { Basis } from '../ledger/posting.ts';
import { formatNumber } from '../quantity/print.ts';
import type { ActualCharge } from './actuals.ts';
import type { Reckoned } from './charge-checks.ts';
import { checkAmounts } from './charge-checks.ts';
import type { Charge } from './enactment.ts';
import type { EquivalentsBasis } from './equivalents.ts';
import { solutePerGram_mmol, takings } from './equivalents.ts';
import type { Measures, Stated } from './measures.ts';
import { readMeasures } from './measures.ts';
import { remark } from './say.ts';
import type { Shelf } from './shelf.ts';
import { place, plainMatter } from './shelf.ts';

/** Molar volume of an ideal gas at 20 °C and 101.325 kPa, in mL/mmol: R T / p, CODATA 2018. */
const GAS_ML_MMOL = (8.314462618 * 293.15) / 101.325;

/** The rest of a bottle whose assay was measured. */
export const REST = 'inert remainder';

/** One component of a taking, in kernel units (mmol, or g without a formula). */
export interface Component {
  readonly substance: number;
  readonly quantity: number;
}

/** A use of a material, worked out for all its takings together. */
export interface PlannedUse {
  readonly use: MaterialUse;
  readonly material: Material;
  readonly step: string;
  readonly account: string;
  readonly takings: number;
  /** The number of the material's own substance. */
  readonly substance: number;
  readonly components: readonly Component[];
  readonly mass_g: number;
  readonly volume_mL?: number;
  readonly amount_mmol?: number;
  readonly measuredAs: Charge['measuredAs'];
  readonly lastDigit?: number;
  /** In excess, or until something is reached: a reaction draws on it. */
  readonly standing: 'no' | 'excess' | 'until';
  readonly basis: Basis;
  readonly assumed: readonly string[];
  /** What is said of an amount that is not counted. */
  readonly uncounted?: string;
  readonly diagnostics: readonly Diagnostic[];
}

interface Taking {
  readonly reckoned?: Reckoned;
  readonly mass_g: number;
  readonly volume_mL?: number;
  readonly measuredAs: Charge['measuredAs'];
  readonly lastDigit?: number;
  readonly assumed: readonly string[];
  readonly problem?: Diagnostic;
}

/** Works out how much a use takes from the stock; undefined where the material is not known. */
export function planUse(
  shelf: Shelf,
  step: string,
  use: MaterialUse,
  basisOf: (use: MaterialUse) => EquivalentsBasis | undefined,
  tolerance: number,
): PlannedUse | undefined {
  const material = use.material;
  if (material === undefined) return undefined;
  const measures = readMeasures(use.amounts);
  const counts = measures.equivalents !== undefined || measures.molePercent !== undefined;
  const basis = counts ? basisOf(use) : undefined;
  const taking = reckon(step, use, material, measures, basis);
  const times = takings(use);
  const raw_g = taking.mass_g * times;
  const mass_g = Number.isFinite(raw_g) && raw_g > 0 ? raw_g : 0;
  const diagnostics = taking.problem === undefined ? [] : [taking.problem];
  if (taking.reckoned !== undefined)
    diagnostics.push(...checkAmounts(step, use, measures, taking.reckoned, basis, tolerance));
  const words = measures.words;
  const counted = taking.reckoned !== undefined;
  const standing = counted ? 'no' : standingOf(measures);
  const uncounted = counted || standing === 'excess' ? undefined : uncountedText(use, measures);
  const perGram = solutePerGram_mmol(use);
  const guessed = words?.assumed !== undefined && counted;
  return {
    use,
    material,
    step,
    account: `stock/${material.name}`,
    takings: times,
    substance: place(shelf, material.substance),
    components: componentsOf(shelf, material, mass_g),
    mass_g,
    ...(taking.volume_mL === undefined ? {} : { volume_mL: taking.volume_mL * times }),
    ...(perGram === undefined ? {} : { amount_mmol: mass_g * perGram }),
    measuredAs: standing === 'no' ? taking.measuredAs : 'excess',
    ...(taking.lastDigit === undefined ? {} : { lastDigit: taking.lastDigit }),
    standing,
    basis: guessed || taking.assumed.length > 0 ? 'assumed' : 'planned',
    assumed: named(material, [
      ...material.assumed,
      ...taking.assumed,
      ...densityNote(material, taking.measuredAs),
    ]),
    ...(uncounted === undefined ? {} : { uncounted }),
    diagnostics,
  };
}

function standingOf(measures: Measures): PlannedUse['standing'] {
  if (measures.words?.sense === 'excess') return 'excess';
  return measures.words?.sense === 'until' || measures.toPH !== undefined ? 'until' : 'no';
}

function uncountedText(use: MaterialUse, measures: Measures): string {
  const text = measures.words?.text ?? measures.toPH?.text;
  return text ?? (use.amounts.length === 0 ? 'no amount written' : use.amounts[0]!.text);
}

function densityNote(material: Material, measuredAs: Charge['measuredAs']): string[] {
  if (measuredAs !== 'volume' || material.density_g_mL === undefined) return [];
  const at = material.density_T_C === undefined ? '' : ` at ${material.density_T_C} °C`;
  const source = material.densitySource === undefined ? '' : ` (${material.densitySource})`;
  return [`density ${formatNumber(material.density_g_mL)} g/mL${at}${source}`];
}

/** Each once, with the material's name in front. */
function named(material: Material, assumed: readonly string[]): string[] {
  const prefix = `${material.name}: `;
  return [...new Set(assumed)].map((text) => (text.startsWith(prefix) ? text : prefix + text));
}

/** The mass of one taking: by mass, else volume, else moles, else equivalents. */
function reckon(
  step: string,
  use: MaterialUse,
  material: Material,
  measures: Measures,
  basis: EquivalentsBasis | undefined,
): Taking {
  const perGram = solutePerGram_mmol(use);
  const from = (
    measuredAs: Reckoned['measuredAs'],
    stated: Stated,
    mass_g: number,
    extraHalf = 0,
  ): Taking => {
    const relativeHalf = (stated.value === 0 ? 0 : stated.half / stated.value) + extraHalf;
    const amount = perGram === undefined ? {} : { amount_mmol: mass_g * perGram };
    const density = material.density_g_mL;
    const volume_mL =
      measuredAs === 'volume'
        ? { volume_mL: stated.value }
        : density === undefined
          ? {}
          : { volume_mL: mass_g / density };
    const reckoned = { measuredAs, text: stated.text, mass_g, relativeHalf, ...amount };
    const { lastDigit, assumed } = stated;
    const figures = lastDigit === undefined ? {} : { lastDigit };
    return { reckoned, mass_g, ...volume_mL, measuredAs, ...figures, assumed };
  };
  const { mass_g, volume_mL, amount_mmol } = measures;
  if (mass_g !== undefined) return from('mass', mass_g, mass_g.value);
  if (volume_mL !== undefined) {
    const density = material.density_g_mL ?? gasDensity_g_mL(material, perGram);
    if (density !== undefined) return from('volume', volume_mL, volume_mL.value * density);
    if (amount_mmol === undefined) return nothing(densityUnknown(step, use, material));
  }
  const solute = perGram !== undefined && perGram > 0 ? perGram : undefined;
  if (amount_mmol !== undefined) {
    if (solute === undefined) return nothing(molarMassUnknown(step, use, material));
    return from('amount', amount_mmol, amount_mmol.value / solute);
  }
  const share = measures.equivalents ?? measures.molePercent;
  if (share !== undefined) {
    if (solute === undefined) return nothing(molarMassUnknown(step, use, material));
    if (basis === undefined) return nothing(basisUnknown(step, use, share.text));
    const equivalents = share === measures.equivalents ? share.value : share.value / 100;
    const mass = (equivalents * basis.amount_mmol) / solute;
    return from('equivalents', share, mass, basis.relativeHalf);
  }
  return nothing(
    standingOf(measures) === 'no' && measures.words !== undefined
      ? amountMissing(step, use, measures)
      : undefined,
  );
}

function nothing(problem: Diagnostic | undefined): Taking {
  const empty = { mass_g: 0, measuredAs: 'unquantified', assumed: [] } as const;
  return problem === undefined ? empty : { ...empty, problem };
}

/** A neat gas measured by volume: by the ideal gas law at 20 °C. */
function gasDensity_g_mL(material: Material, perGram: number | undefined): number | undefined {
  if (material.substance.state !== 'gas' || material.strength !== undefined) return undefined;
  return perGram === undefined || perGram <= 0 ? undefined : 1 / (perGram * GAS_ML_MMOL);
}

/** Splits a mass of material into its components. */
function componentsOf(shelf: Shelf, material: Material, mass_g: number): Component[] {
  const parts =
    material.composition.length > 0
      ? material.composition
      : [{ substance: material.substance, massFraction: 1 }];
  return parts.map((part) => {
    const substance = place(shelf, part.substance);
    return { substance, quantity: (mass_g * part.massFraction) / (shelf.g[substance]! || 1) };
  });
}

/** The same use as a bench took it; undefined where its record has no figure that can be used. */
export function measuredUse(
  shelf: Shelf,
  planned: PlannedUse,
  actual: ActualCharge,
): PlannedUse | undefined {
  const { material } = planned;
  const density =
    material.density_g_mL ??
    (planned.volume_mL !== undefined && planned.volume_mL > 0
      ? planned.mass_g / planned.volume_mL
      : undefined);
  let mass_g = actual.mass_g;
  if (mass_g === undefined && actual.volume_mL !== undefined && density !== undefined)
    mass_g = actual.volume_mL * density;
  const purity = actual.purity_percent;
  if (mass_g === undefined && purity !== undefined) mass_g = planned.mass_g;
  if (mass_g === undefined || !(mass_g >= 0) || !Number.isFinite(mass_g)) return undefined;
  const volume_mL = actual.volume_mL ?? (density === undefined ? undefined : mass_g / density);
  const components =
    purity === undefined
      ? componentsOf(shelf, material, mass_g)
      : assayed(shelf, planned, mass_g, purity);
  const own = components.find((part) => part.substance === planned.substance);
  const {
    amount_mmol: _planned,
    volume_mL: _volume,
    uncounted: _uncounted,
    lastDigit: _lastDigit,
    ...rest
  } = planned;
  return {
    ...rest,
    components,
    mass_g,
    ...(volume_mL === undefined ? {} : { volume_mL }),
    ...(own === undefined || !shelf.counted[own.substance] ? {} : { amount_mmol: own.quantity }),
    measuredAs: actual.mass_g === undefined ? 'volume' : 'mass',
    ...(actual.lastDigit === undefined ? {} : { lastDigit: actual.lastDigit }),
    standing: 'no',
    basis: 'measured',
  };
}

function assayed(
  shelf: Shelf,
  planned: PlannedUse,
  mass_g: number,
  purity_percent: number,
): Component[] {
  const share = Math.min(1, Math.max(0, purity_percent / 100));
  const own = planned.substance;
  const others = planned.material.composition.filter(
    (part) => part.substance.id !== planned.material.substance.id,
  );
  const rest = others.reduce((sum, part) => sum + part.massFraction, 0);
  const parts: Component[] = [{ substance: own, quantity: (mass_g * share) / shelf.g[own]! }];
  if (rest <= 0) {
    const inert = place(shelf, plainMatter(REST, 'insoluble'));
    parts.push({ substance: inert, quantity: (mass_g * (1 - share)) / shelf.g[inert]! });
    return parts;
  }
  for (const part of others) {
    const i = place(shelf, part.substance);
    const fraction = ((1 - share) * part.massFraction) / rest;
    parts.push({ substance: i, quantity: (mass_g * fraction) / shelf.g[i]! });
  }
  return parts;
}

function densityUnknown(step: string, use: MaterialUse, material: Material): Diagnostic {
  return remark(
    step,
    use.span,
    'density-unknown',
    'error',
    `${material.name} is measured by volume, and its density is not known: nothing is counted.`,
    `Add it under Substances ("- ${material.substance.name}: density ... g/mL"), or write its mass.`,
  );
}

function molarMassUnknown(step: string, use: MaterialUse, material: Material): Diagnostic {
  return remark(
    step,
    use.span,
    'molar-mass-unknown',
    'error',
    `${material.name} is measured in moles, and its formula is not known: nothing is counted.`,
    `Add its formula or SMILES under Substances, or write its mass.`,
  );
}

function basisUnknown(step: string, use: MaterialUse, text: string): Diagnostic {
  return remark(
    step,
    use.span,
    'equivalents-without-basis',
    'warning',
    `${use.name}: ${text} of what? No reactant is charged by mass, volume or moles.`,
    'Write the amount of one reactant, or name the basis after the equation ("; basis: ...").',
  );
}

function amountMissing(step: string, use: MaterialUse, measures: Measures): Diagnostic {
  // A use with no amount at all is remarked on by the reader
  const said = `as "${measures.words?.text ?? ''}"`;
  return remark(
    step,
    use.span,
    'amount-missing',
    'note',
    `${use.name} is written ${said}: it is not counted.`,
    'Write an amount if the tables and the waste sheet should count it.',
  );
}
