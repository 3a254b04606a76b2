import type { Diagnostic } from '../../diagnostic.ts';
import { readFormula } from '../../chemistry/formula.ts';
import { molarMass } from '../../chemistry/molar-mass.ts';
import type { Instrument } from '../../quantity/instrument.ts';
import {
  findInstrument,
  standardUncertaintyOfDifference,
  standardUncertaintyOfReading,
} from '../../quantity/instrument.ts';
import type { Uncertain } from '../../quantity/uncertain.ts';
import {
  divide,
  exact,
  fromHalfWidth,
  measured,
  multiply,
  scale,
  subtract,
  sum,
} from '../../quantity/uncertain.ts';
import { DROP_mL } from '../../quantity/unit.ts';
import { meanOf } from './mean.ts';
import type { TitrationEntered, TitrationStrength, TitrationVolume } from './schema.ts';

/** Taken where nobody names one. */
export const USUAL_BURETTE = 'burette-50-B';
const USUAL_BALANCE = 'balance-1mg';
/** Relative standard uncertainty of a concentration that is only told. Common practice. */
export const GIVEN_U = 0.005;

export interface Reckoning {
  readonly concentration_mol_L: Uncertain;
  /** Of the runs that count, in their order: titre less blank, or blank less titre. */
  readonly consumed_mL: readonly Uncertain[];
  /** Millimoles of titrant that a gram of sample takes, of each run that counts. */
  readonly each_mmol_g: readonly Uncertain[];
  /** Their mean. */
  readonly taken_mmol_g: Uncertain;
}

export interface Reckoned {
  readonly result?: Reckoning;
  readonly diagnostics: readonly Diagnostic[];
}

/** Tools of one titration, and the ids under which their errors are shared. */
interface Bench {
  readonly burette: Instrument;
  readonly balance: Instrument;
  readonly endPoint_mL: number;
}

export function titreOf({ start_mL, end_mL, titre_mL }: TitrationVolume): number | undefined {
  if (start_mL !== undefined && end_mL !== undefined) return end_mL - start_mL;
  return titre_mL;
}

/**
 * A titre: two readings, the end point, and the calibration of the burette, whose error is one for
 * all runs of a kind. The terms are those of QUAM:2012, example A2.
 */
function volumeOf(bench: Bench, id: string, kind: string, titre_mL: number): Uncertain {
  const { terms } = standardUncertaintyOfReading(bench.burette, titre_mL);
  const u = (name: string) => terms.find((term) => term.name === name)?.u ?? 0;
  return sum([
    measured(`${id}.readings`, titre_mL, Math.SQRT2 * u('readability')),
    measured(`${id}.end`, 0, fromHalfWidth(bench.endPoint_mL, 'rectangular')),
    measured(`burette.${kind}`, 0, u('tolerance')),
  ]);
}

function massOf(bench: Bench, id: string, mass_g: number): Uncertain {
  return measured(id, mass_g, standardUncertaintyOfDifference(bench.balance, mass_g, 0).u);
}

/** c = m·P·e/(M·V) for each run of the standardisation, then their mean; mol/L. */
function concentrationOf(bench: Bench, strength: TitrationStrength): Uncertain | undefined {
  if (strength.by === 'given') {
    const c = strength.concentration_mol_L;
    return measured('concentration', c, strength.u_mol_L ?? GIVEN_U * c);
  }
  const { equivalents, molarMass_g_mol, purity, purityU, runs } = strength;
  const share = measured('standard.purity', purity ?? 1, purityU ?? 0);
  const each = runs.flatMap((run, i) => {
    const titre_mL = titreOf(run);
    if (titre_mL === undefined || !(titre_mL > 0)) return [];
    const volume = volumeOf(bench, `standard.${i}`, 'standard', titre_mL);
    const mass = massOf(bench, `standard.${i}.mass`, run.standard_g);
    const moles = scale(multiply(mass, share), (1000 * equivalents) / molarMass_g_mol);
    return [divide(moles, volume)];
  });
  return each.length === 0 ? undefined : meanOf(each, 'standard.scatter');
}

function benchOf(entered: TitrationEntered): { bench: Bench; diagnostics: Diagnostic[] } {
  const diagnostics: Diagnostic[] = [];
  const tool = (asked: string | undefined, kind: string, usual: string): Instrument => {
    const found = asked === undefined ? undefined : findInstrument(asked);
    if (found?.kind === kind) return found;
    if (asked !== undefined)
      diagnostics.push({
        code: 'titration-tool-unknown',
        severity: 'warning',
        message: `${asked} is no ${kind} of the table.`,
        hint: `A ${findInstrument(usual)!.name} is taken in its place.`,
      });
    return findInstrument(usual)!;
  };
  const bench = {
    burette: tool(entered.burette, 'burette', USUAL_BURETTE),
    balance: tool(entered.balance, 'balance', USUAL_BALANCE),
    endPoint_mL: entered.endPoint_mL ?? DROP_mL,
  };
  return { bench, diagnostics };
}

function blankOf(bench: Bench, entered: TitrationEntered): Uncertain | undefined {
  const titres = (entered.blanks ?? []).flatMap((blank) => titreOf(blank) ?? []);
  if (titres.length === 0) return undefined;
  const volumes = titres.map((titre, i) => volumeOf(bench, `blank.${i}`, 'blank', titre));
  return meanOf(volumes, 'blank.scatter');
}

const problem = (
  code: string,
  severity: Diagnostic['severity'],
  message: string,
  hint: string,
): Diagnostic => ({ code, severity, message, hint });

function runProblem(n: number, consumed: Uncertain, isBack: boolean): Diagnostic {
  const message = isBack
    ? `Run ${n} took no less titrant than the blank.`
    : `Run ${n} took no more titrant than the blank.`;
  return problem(
    consumed.value < 0 ? 'titre-beyond-blank' : 'titre-of-nothing',
    'error',
    message,
    'Check the readings, and which of them is the blank.',
  );
}

/**
 * What a gram of sample takes: c·(V − V₀)/m of each run, or c·(V₀ − V)/m where an excess is
 * titrated back, and the mean. Runs without readings, or on the wrong side of the blank, are left
 * out and reported.
 */
export function reckon(entered: TitrationEntered): Reckoned {
  const { bench, diagnostics } = benchOf(entered);
  const concentration = concentrationOf(bench, entered.strength);
  const blank = blankOf(bench, entered);
  const isBack = entered.kind === 'saponification';
  if (concentration === undefined) return { diagnostics: [...diagnostics, NO_STRENGTH] };
  if (isBack && blank === undefined) return { diagnostics: [...diagnostics, NO_BLANK] };
  const runs: { consumed: Uncertain; taken: Uncertain }[] = [];
  entered.runs.forEach((run, i) => {
    if (run.leftOut === true) return;
    const titre_mL = titreOf(run);
    if (titre_mL === undefined) {
      diagnostics.push(
        problem('titre-missing', 'warning', `Run ${i + 1} has no titre.`, 'Enter both readings.'),
      );
      return;
    }
    const volume = volumeOf(bench, `run.${i}`, 'run', titre_mL);
    if (bench.burette.capacity !== undefined && titre_mL > bench.burette.capacity)
      diagnostics.push(
        problem(
          'titre-above-burette',
          'warning',
          `Run ${i + 1} took more than the ${bench.burette.name} holds.`,
          'Check the readings; a second filling adds two readings. Weigh in less.',
        ),
      );
    const consumed = isBack ? subtract(blank!, volume) : subtract(volume, blank ?? exact(0));
    if (!(consumed.value > 0)) {
      diagnostics.push(runProblem(i + 1, consumed, isBack));
      return;
    }
    const moles = multiply(concentration, consumed);
    const taken = divide(moles, massOf(bench, `run.${i}.mass`, run.sample_g));
    runs.push({ consumed, taken });
  });
  if (runs.length === 0) return { diagnostics: [...diagnostics, NO_RUN] };
  const each = runs.map(({ taken }) => taken);
  const result = {
    concentration_mol_L: concentration,
    consumed_mL: runs.map(({ consumed }) => consumed),
    each_mmol_g: each,
    taken_mmol_g: meanOf(each, 'run.scatter'),
  };
  return { result, diagnostics };
}

const NO_STRENGTH = problem(
  'titrant-strength-missing',
  'error',
  'The standardisation has no usable run, so that the titrant has no concentration.',
  'Enter the mass of the primary standard and its titre.',
);
const NO_BLANK = problem(
  'titration-blank-missing',
  'error',
  'A saponification without a blank: how much base there was is not known.',
  'Titrate the same portion of base, boiled alike, without the sample.',
);
const NO_RUN = problem(
  'titration-no-run',
  'error',
  'No run of this titration can be used.',
  'Enter a titre and the mass of the sample for at least one.',
);

/**
 * Molar mass of potassium hydroxide: acid and saponification values are milligrams of it per gram.
 */
export function hydroxideMass_g_mol(): Uncertain {
  const read = readFormula('KOH');
  const mass = read.ok ? molarMass(read.composition) : { value_g_mol: Number.NaN, u_g_mol: 0 };
  return measured('molarMass.KOH', mass.value_g_mol, mass.u_g_mol);
}

/** Mass share of the analyte: n·M/e for a gram of sample. */
export function shareOf(
  taken_mmol_g: Uncertain,
  molarMass_g_mol: Uncertain,
  equivalents: number,
): Uncertain {
  return scale(multiply(taken_mmol_g, molarMass_g_mol), 1 / (1000 * equivalents));
}

/** Grams of sample for a mole of titrant, g/mol. */
export function equivalentMass_g_mol(taken_mmol_g: Uncertain): Uncertain {
  return scale(divide(exact(1), taken_mmol_g), 1000);
}

/** Milligrams of potassium hydroxide for a gram of sample. */
export function hydroxideValue_mg_g(taken_mmol_g: Uncertain): Uncertain {
  return multiply(taken_mmol_g, hydroxideMass_g_mol());
}
