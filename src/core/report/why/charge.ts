import type { Charge, Enactment } from '../../enact/enactment.ts';
import { figuresGiven } from '../common/figures.ts';
import { sentenceStart } from '../../quantity/sentence.ts';
import type { Instrument } from '../../quantity/instrument.ts';
import type { BenchRun } from '../../record/run.ts';
import { derivation, lineOf } from './derivation.ts';
import type { Derivation, WhyLine } from './derivation.ts';
import { molarMassLine } from './molar-mass.ts';
import { postingsOf } from './postings.ts';
import { readingLines } from './readings.ts';

interface Route {
  readonly formula: string;
  readonly lines: readonly WhyLine[];
}

/** n of one charge: from its mass, its volume and density, its concentration, or as written. */
export function whyCharge(
  enactment: Enactment,
  use: string,
  run?: BenchRun,
  instruments: readonly Instrument[] = [],
): Derivation | undefined {
  const charge = enactment.charges.find((each) => each.use === use);
  if (charge?.amount_mmol === undefined) return undefined;
  const { formula, lines } = ROUTES[charge.measuredAs](charge);
  // The density that was taken stands among the lines, with its source.
  const isShown = (text: string) =>
    lines.some(({ symbol }) => symbol === 'ρ') &&
    text.startsWith(`${charge.material.name}: density `);
  const { substance } = charge.material;
  const name = substance.name === charge.name ? charge.name : `${substance.name} in ${charge.name}`;
  const recorded = run?.charges.find((each) => each.use === use);
  return derivation({
    title: `Amount of ${charge.name}, step ${charge.step}`,
    formula,
    lines: [...lines, ...(recorded ? readingLines(recorded.terms, instruments) : [])],
    result: lineOf('n', `amount of ${name}`, charge.amount_mmol, 'mmol', charge.basis),
    said: charge.assumed.flatMap((text) => (isShown(text) ? [] : `${sentenceStart(text)}.`)),
    postings: postingsOf(
      enactment,
      (posting) => posting.step === charge.step && posting.from === `stock/${charge.material.name}`,
    ),
  });
}

const ROUTES: Readonly<Record<Charge['measuredAs'], (charge: Charge) => Route>> = {
  mass: byMass,
  volume: byVolume,
  amount: (charge) => ({ formula: 'n as written; m = n · M / w', lines: backToMass(charge) }),
  equivalents: (charge) => ({
    formula: 'n = e · n(basis); m = n · M / w',
    lines: backToMass(charge),
  }),
  excess: (charge) => ({
    formula: 'n = what the reactions drew',
    lines: backToMass(charge),
  }),
  unquantified: (charge) => ({ formula: 'n as taken for the words', lines: backToMass(charge) }),
};

function byMass(charge: Charge): Route {
  const share = shareLines(charge);
  return {
    formula: share.length === 0 ? 'n = m / M' : 'n = w · m / M',
    lines: [massLine(charge), ...share, ...molarMassOf(charge)],
  };
}

function byVolume(charge: Charge): Route {
  const { material, volume_mL, basis } = charge;
  if (volume_mL === undefined) return byMass(charge);
  const volume = lineOf(
    'V',
    `volume of ${charge.name}${timesOf(charge)}`,
    volume_mL,
    'mL',
    basis,
    undefined,
    figuresGiven([charge], volume_mL),
  );
  const { strength, density_g_mL } = material;
  if (strength?.kind === 'molarity' && strength.value !== undefined) {
    const what = `concentration of ${material.substance.name}`;
    return {
      formula: 'n = c · V',
      lines: [lineOf('c', what, strength.value, 'mol/L', 'planned'), volume],
    };
  }
  if (density_g_mL === undefined) return byMass(charge);
  const at = material.density_T_C === undefined ? '' : ` at ${material.density_T_C} °C`;
  const density = lineOf(
    'ρ',
    `density of ${charge.name}${at}`,
    density_g_mL,
    'g/mL',
    'table',
    material.densitySource,
  );
  const share = shareLines(charge);
  return {
    formula: share.length === 0 ? 'n = ρ · V / M' : 'n = w · ρ · V / M',
    lines: [volume, density, ...share, ...molarMassOf(charge)],
  };
}

/** Where moles come first, the mass is what follows. */
function backToMass(charge: Charge): WhyLine[] {
  return [massLine(charge), ...shareLines(charge), ...molarMassOf(charge)];
}

function massLine(charge: Charge): WhyLine {
  const what = `mass of ${charge.name}${timesOf(charge)}`;
  const { mass_g, measuredAs, basis } = charge;
  const figures = measuredAs === 'mass' ? figuresGiven([charge], mass_g) : undefined;
  return lineOf('m', what, mass_g, 'g', basis, undefined, figures);
}

function timesOf({ repeat }: Charge): string {
  return repeat > 1 ? `, ${repeat} times` : '';
}

function molarMassOf({ material: { substance } }: Charge): WhyLine[] {
  const { molarMass_g_mol } = substance;
  return molarMass_g_mol === undefined ? [] : [molarMassLine(substance, molarMass_g_mol)];
}

/** The mass fraction that is really found: what the moles and the mass of the charge come to. */
function shareLines(charge: Charge): WhyLine[] {
  const { material, mass_g, amount_mmol } = charge;
  const { molarMass_g_mol, name } = material.substance;
  if (molarMass_g_mol === undefined || amount_mmol === undefined || !(mass_g > 0)) return [];
  const w = (amount_mmol * molarMass_g_mol) / (1000 * mass_g);
  if (Math.abs(w - 1) < 1e-9) return [];
  const basis = charge.basis === 'measured' ? 'planned' : charge.basis;
  const what = `mass fraction of ${name}`;
  return [lineOf('w', what, w, 'g/g', basis, material.compositionSource)];
}
