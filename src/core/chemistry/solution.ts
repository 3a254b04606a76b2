import {
  conventionOf,
  densityCurve,
  densityOn,
  massFractionOfDensity,
  massFractionWhere,
  solubilityInWater,
  strongest,
} from './solution-table.ts';
import type { DensityCurve } from './solution-table.ts';
import type { Substance } from './substance.ts';

export type StrengthKind =
  'molarity' | 'massPercent' | 'volumePercent' | 'massVolumePercent' | 'saturated' | 'dilute';

export interface Strength {
  readonly kind: StrengthKind;
  /** mol/L or percent; none for saturated and dilute. */
  readonly value?: number;
}

/** What a solution holds: grams of solute in a gram of it, and its density. */
export interface Solution {
  readonly ok: true;
  readonly massFraction: number;
  readonly density_g_mL?: number;
  readonly density_T_C?: number;
  readonly densitySource?: string;
  readonly compositionSource: string;
  /** What had to be assumed, in plain words. */
  readonly assumed: readonly string[];
}

export interface NoSolution {
  readonly ok: false;
  readonly message: string;
  readonly hint: string;
}

interface Task {
  readonly solute: Substance;
  readonly solvent: Substance;
  readonly value: number;
  /** Tabulated aqueous solutions; none for another solvent. */
  readonly curve: DensityCurve | undefined;
}

const refuse = (message: string, hint: string): NoSolution => ({ ok: false, message, hint });

/** For want of a table, a dilute solution is taken to be as dense as its solvent. */
function asSolvent({ solvent, solute }: Task, massFraction: number, source: string): Solution {
  const { density_g_mL, densityT_C } = solvent;
  const said = `the density of a solution of ${solute.name} in ${solvent.name} is not tabulated: taken as that of ${solvent.name}`;
  const base = { ok: true, massFraction, compositionSource: source } as const;
  // What does not dissolve is a dispersion: its density is not the liquid's.
  if (density_g_mL === undefined || solute.phase === 'insoluble') return { ...base, assumed: [] };
  const density = {
    density_g_mL,
    densitySource: solvent.sources.density ?? 'this document',
    ...(densityT_C !== undefined && { density_T_C: densityT_C }),
  };
  return { ...base, ...density, assumed: massFraction === 0 ? [] : [said] };
}

/** Stronger than any tabulated solution: as dense as the strongest one. */
function pastTheTable(
  { solute }: Task,
  massFraction: number,
  source: string,
  curve: DensityCurve,
): Solution {
  const last = curve.points.at(-1)!;
  const percent = `${(last.massFraction * 100).toFixed(0)} %`;
  return {
    ok: true,
    massFraction,
    density_g_mL: last.density_g_mL,
    density_T_C: curve.temperature_C,
    densitySource: last.source,
    compositionSource: source,
    assumed: [
      `the density of ${solute.name} this strong is not tabulated: taken as that of ${percent}`,
    ],
  };
}

/** A solution of a known mass fraction, with the density that the table gives it. */
function ofMassFraction(task: Task, massFraction: number, source: string): Solution {
  const { curve, solute } = task;
  const reading = curve && densityOn(curve, massFraction);
  if (curve === undefined) return asSolvent(task, massFraction, source);
  if (reading === undefined) return pastTheTable(task, massFraction, source, curve);
  return {
    ok: true,
    massFraction,
    density_g_mL: reading.density_g_mL,
    density_T_C: reading.temperature_C,
    densitySource: reading.source,
    compositionSource: source,
    assumed: reading.beyond
      ? [
          `the density lies just beyond the table of ${solute.name} solutions: drawn on from its end`,
        ]
      : [],
  };
}

/** Amount concentration (mol/L) of a solution: c = 1000 w ρ / M. */
export function molarityOf(
  massFraction: number,
  density_g_mL: number,
  molarMass_g_mol: number,
): number {
  return (1000 * massFraction * density_g_mL) / molarMass_g_mol;
}

function tooStrong({ solute, solvent, curve }: Task, written: string): NoSolution {
  const molarMass = solute.molarMass_g_mol;
  const most = curve && strongest(curve);
  const density = curve && most !== undefined ? densityOn(curve, most)?.density_g_mL : undefined;
  const reach =
    most === undefined || density === undefined
      ? ''
      : ` The table ends at ${(most * 100).toFixed(0)} % by mass` +
        (molarMass === undefined
          ? '.'
          : `, ${molarityOf(most, density, molarMass).toPrecision(3)} mol/L.`);
  return refuse(
    `${written} ${solute.name} in ${solvent.name} is more than the solution can hold.${reach}`,
    'Check the unit and the decimal point.',
  );
}

function ofMolarity(task: Task): Solution | NoSolution {
  const { solute, solvent, value, curve } = task;
  const molarMass = solute.molarMass_g_mol;
  if (molarMass === undefined)
    return refuse(
      `A molarity of ${solute.name} means nothing: its molar mass is not known.`,
      'Give its formula, or a percentage instead.',
    );
  if (curve !== undefined) {
    const found = massFractionWhere(curve, (w, rho) => molarityOf(w, rho, molarMass), value);
    if (found === undefined) return tooStrong(task, `${value} mol/L`);
    const reading = densityOn(curve, found)!;
    return ofMassFraction(task, found, `molarity as written; density: ${reading.source}`);
  }
  const density = solvent.density_g_mL;
  if (density === undefined)
    return refuse(
      `The density of ${solvent.name} is not known, so that ${value} mol/L has no mass.`,
      `Declare the density of ${solvent.name}, or write a percentage by mass.`,
    );
  const massFraction = (value * molarMass) / (1000 * density);
  if (massFraction >= 1) return tooStrong(task, `${value} mol/L`);
  return asSolvent(task, massFraction, 'molarity as written');
}

/** Percent by volume: mL of the pure solute in 100 mL of the finished solution, at 20 °C. */
function ofVolumePercent(task: Task): Solution | NoSolution {
  const { solute, solvent, value, curve } = task;
  const source = 'percentage by volume as written';
  const pure = (curve && densityOn(curve, 1)?.density_g_mL) ?? solute.density_g_mL;
  if (pure === undefined)
    return refuse(
      `The density of ${solute.name} is not known, so that a percentage by volume has no mass.`,
      'Declare its density, or write the percentage by mass: 5 % w/w.',
    );
  const found = curve && massFractionWhere(curve, (w, rho) => (100 * w * rho) / pure, value);
  if (curve !== undefined && found !== undefined)
    return ofMassFraction(task, found, `${source}; density: ${densityOn(curve, found)!.source}`);
  const other = solvent.density_g_mL;
  if (other === undefined)
    return refuse(`The density of ${solvent.name} is not known.`, 'Declare its density.');
  const solute_g = (value / 100) * pure;
  const solvent_g = (1 - value / 100) * other;
  return {
    ok: true,
    massFraction: solute_g / (solute_g + solvent_g),
    density_g_mL: solute_g + solvent_g,
    ...(solvent.densityT_C !== undefined && { density_T_C: solvent.densityT_C }),
    densitySource: 'computed from the pure liquids',
    compositionSource: source,
    assumed: [`the volumes of ${solute.name} and ${solvent.name} are taken to add up`],
  };
}

/** Grams of solute in 100 mL of solution. */
function ofMassVolumePercent(task: Task): Solution | NoSolution {
  const { value, curve, solvent } = task;
  const source = 'percentage by mass in volume as written';
  if (curve !== undefined) {
    const found = massFractionWhere(curve, (w, rho) => 100 * w * rho, value);
    if (found === undefined) return tooStrong(task, `${value} % w/v`);
    return ofMassFraction(task, found, source);
  }
  const density = solvent.density_g_mL;
  if (density === undefined)
    return refuse(`The density of ${solvent.name} is not known.`, 'Declare its density.');
  const massFraction = value / (100 * density);
  if (massFraction >= 1) return tooStrong(task, `${value} % w/v`);
  return asSolvent(task, massFraction, source);
}

function ofSaturation(task: Task): Solution | NoSolution {
  const { solute, solvent } = task;
  const solubility = solvent.id === 'water' ? solubilityInWater(solute.id) : undefined;
  if (solubility === undefined)
    return refuse(
      `How much ${solute.name} saturates ${solvent.name} at 20 °C is not in the table.`,
      'Write the strength as a percentage or a molarity instead.',
    );
  return ofMassFraction(task, solubility.massFraction, `solubility at 20 °C: ${solubility.source}`);
}

function ofDilution(task: Task): Solution | NoSolution {
  const { solute } = task;
  const convention = conventionOf(solute.id);
  const value = convention?.dilute_mol_L;
  if (value === undefined)
    return refuse(
      `How strong dilute ${solute.name} is, nobody can tell.`,
      `Write its strength, as in 1 M ${solute.name}.`,
    );
  const made = ofMolarity({ ...task, value });
  if (!made.ok) return made;
  const said = `dilute ${solute.name} is taken as ${value} mol/L (${convention!.source})`;
  return { ...made, compositionSource: convention!.source, assumed: [said, ...made.assumed] };
}

const BY_KIND: Record<StrengthKind, (task: Task) => Solution | NoSolution> = {
  molarity: ofMolarity,
  massPercent: (task) => ofMassFraction(task, task.value / 100, 'percentage by mass as written'),
  volumePercent: ofVolumePercent,
  massVolumePercent: ofMassVolumePercent,
  saturated: ofSaturation,
  dilute: ofDilution,
};

const VALUED: ReadonlySet<StrengthKind> = new Set([
  'molarity',
  'massPercent',
  'volumePercent',
  'massVolumePercent',
]);

/**
 * What a solution of a strength consists of, at 20 °C: mass fraction of the solute and density,
 * from tabulated aqueous solutions where there are any (data/solution_density.csv), else with the
 * density of the solvent, and says so. Impossible strengths come back as a message.
 */
export function compose(
  solute: Substance,
  strength: Strength,
  solvent: Substance,
): Solution | NoSolution {
  const value = strength.value ?? 0;
  if (VALUED.has(strength.kind)) {
    if (!Number.isFinite(value) || value <= 0)
      return refuse(`A strength of ${value} cannot be.`, 'Write a number above 0.');
    if (strength.kind !== 'molarity' && strength.kind !== 'massVolumePercent' && value > 100)
      return refuse(`${value} % is more than all.`, 'Check the decimal point.');
  }
  const curve = solvent.id === 'water' ? densityCurve(solute.id) : undefined;
  return BY_KIND[strength.kind]({ solute, solvent, value, curve });
}

/** An aqueous solution known by its density alone, as acids were sold: sulfuric acid sp gr 1.32. */
export function composeFromDensity(solute: Substance, density_g_mL: number): Solution | NoSolution {
  const curve = densityCurve(solute.id);
  const massFraction = curve && massFractionOfDensity(curve, density_g_mL);
  if (curve === undefined || massFraction === undefined)
    return refuse(
      `No solution of ${solute.name} in water of density ${density_g_mL} g/mL is tabulated.`,
      'Write its strength as a percentage or a molarity.',
    );
  const reading = densityOn(curve, massFraction)!;
  return {
    ok: true,
    massFraction,
    density_g_mL,
    density_T_C: reading.temperature_C,
    densitySource: 'as written',
    compositionSource: `density as written, read at 20 °C against: ${reading.source}`,
    assumed: [
      `its density of ${density_g_mL} g/mL is that of ${(massFraction * 100).toFixed(1)} % by mass at 20 °C`,
    ],
  };
}
