import type { Failure, Material, MaterialExtra, MaterialReading, Share } from './material.ts';
import type { Words, WrittenStrength } from './material-words.ts';
import { bareShelfForm, shelfForm } from './shelf.ts';
import type { ShelfForm } from './shelf.ts';
import { compose, composeFromDensity } from './solution.ts';
import type { NoSolution, Solution, Strength } from './solution.ts';
import { conventionOf } from './solution-table.ts';
import type { SubstanceTable } from './substance-table.ts';
import type { Substance } from './substance.ts';

/** What the name does not settle by itself: the composition and all that goes with it. */
export type Made = Pick<Material, 'composition' | 'compositionSource'> & Partial<Material>;

/** One reading under way. */
export interface Making {
  readonly words: Words;
  readonly table: SubstanceTable;
  readonly substance: Substance;
  readonly shelved?: ShelfForm;
  readonly extra: MaterialExtra;
  /** Grows as things have to be assumed. */
  readonly assumed: string[];
  /** Reads a solvent, which may be a material itself. */
  readonly read: (text: string) => MaterialReading;
}

/** A neat liquid of at least this percentage is a grade of purity, not a solution in water. */
const GRADE_percent = 97;
/** A solid of at least this percentage is a grade of purity too. */
const SOLID_GRADE_percent = 70;

export const failure = (
  kind: Failure['kind'],
  message: string,
  hint: string,
  near: readonly string[] = [],
): Failure => ({ ok: false, kind, message, hint, near });

const unsolved = ({ message, hint }: NoSolution): Failure => failure('strength', message, hint);

/** The solute under the name that was written for it, for what is said of it. */
const called = ({ substance, words }: Making): Substance => ({ ...substance, name: words.rest });

/** Pure, or of an assay whose remainder is known by mass only. */
function neat({ table, substance }: Making, purity_percent?: number): Made {
  const share = (purity_percent ?? 100) / 100;
  const rest = table.byName.get('inert remainder');
  const { density_g_mL, densityT_C } = substance;
  const pure: Share = { substance, massFraction: 1 };
  return {
    composition:
      share < 1 && rest !== undefined
        ? [
            { substance, massFraction: share },
            { substance: rest, massFraction: 1 - share },
          ]
        : [pure],
    compositionSource: purity_percent === undefined ? 'taken as pure' : 'assay as written',
    ...(purity_percent !== undefined && { purity_percent }),
    ...(density_g_mL !== undefined && {
      density_g_mL,
      densitySource: substance.sources.density ?? 'this document',
    }),
    ...(density_g_mL !== undefined && densityT_C !== undefined && { density_T_C: densityT_C }),
  };
}

function assayed(making: Making, purity_percent: number): Made | Failure {
  if (purity_percent > 0 && purity_percent <= 100) return neat(making, purity_percent);
  return failure(
    'strength',
    `An assay of ${purity_percent} % cannot be.`,
    'Write a number above 0 and up to 100.',
  );
}

/** A solution in a solvent that may itself be a mixture, as 95 % ethanol is. */
function dissolved(substance: Substance, solution: Solution, solvent: readonly Share[]): Made {
  const left = 1 - solution.massFraction;
  const shares = new Map<Substance, number>([[substance, solution.massFraction]]);
  for (const part of solvent)
    shares.set(part.substance, (shares.get(part.substance) ?? 0) + part.massFraction * left);
  const { density_g_mL, density_T_C, densitySource } = solution;
  return {
    composition: [...shares]
      .filter(([, massFraction]) => massFraction > 0)
      .map(([of, massFraction]) => ({ substance: of, massFraction })),
    compositionSource: solution.compositionSource,
    ...(density_g_mL !== undefined && { density_g_mL }),
    ...(density_T_C !== undefined && { density_T_C }),
    ...(densitySource !== undefined && { densitySource }),
  };
}

/** A form of the shelf: its own strength, and its own density where it has one. */
function fromShelf(making: Making, form: ShelfForm): Made | Failure {
  const { table, substance, assumed } = making;
  const density = {
    ...(form.density_g_mL !== undefined && {
      density_g_mL: form.density_g_mL,
      densitySource: form.source,
    }),
    ...(form.density_T_C !== undefined && { density_T_C: form.density_T_C }),
  };
  if (form.strengthKind === 'pure')
    return { ...neat(making), compositionSource: form.source, ...density };
  const solvent = table.byName.get((form.solvent ?? 'water').toLowerCase());
  if (solvent === undefined)
    return failure('unknown', `No substance is known as "${form.solvent}".`, 'Declare it.');
  const strength: Strength = {
    kind: form.strengthKind,
    ...(form.strength !== undefined && { value: form.strength }),
  };
  const made = compose(substance, strength, solvent);
  if (!made.ok) return unsolved(made);
  // With a density of its own it does not lean on that of its solvent.
  if (form.density_g_mL === undefined) assumed.push(...made.assumed);
  return {
    ...dissolved(substance, made, [{ substance: solvent, massFraction: 1 }]),
    ...density,
    compositionSource: form.source,
    strength,
    solvent,
  };
}

function concentratedForm(substance: Substance): ShelfForm | undefined {
  for (const name of [substance.name, ...substance.synonyms]) {
    const form = shelfForm(`concentrated ${name}`);
    if (form !== undefined) return form;
  }
  return undefined;
}

/** Whether a bare percentage says how pure a thing is, and not how strong its solution in water. */
function isAssay({ words, substance }: Making, value: number): boolean {
  if (words.aqueous || words.solution || words.solvent !== undefined) return false;
  if (words.form !== undefined) return true;
  if (substance.phase === 'organic' || substance.phase === 'insoluble') return true;
  if (concentratedForm(substance) !== undefined) return false;
  const solid = substance.state === 'solid';
  if (!solid && conventionOf(substance.id)?.percentBasis !== undefined) return false;
  return value >= (solid ? SOLID_GRADE_percent : GRADE_percent);
}

type Percent = WrittenStrength & { kind: 'percent' };

function meantByPercent(
  making: Making,
  { value, range, basis }: Percent,
): Strength | { purity_percent: number } {
  const { words, substance, assumed } = making;
  if (range !== undefined) assumed.push(`${range} is taken as its middle, ${value} %`);
  if (basis !== undefined) return { kind: basis, value };
  if (isAssay(making, value)) return { purity_percent: value };
  const convention = conventionOf(substance.id);
  const byVolume = convention?.percentBasis === 'volume' && words.solvent === undefined;
  if (byVolume) assumed.push(`${value} % is taken as percent by volume (${convention.source})`);
  else assumed.push(`${value} % is taken as percent by mass`);
  return { kind: byVolume ? 'volumePercent' : 'massPercent', value };
}

/** A mixed solvent, as 95 % ethanol, with the density of the mixture. */
function asPoured({ substance, composition, ...solvent }: Material): Substance {
  if (composition.length === 1 || solvent.density_g_mL === undefined) return substance;
  const { densityT_C, ...rest } = substance;
  const temperature = solvent.density_T_C ?? densityT_C;
  return {
    ...rest,
    name: solvent.name,
    density_g_mL: solvent.density_g_mL,
    ...(temperature !== undefined && { densityT_C: temperature }),
    sources: { ...substance.sources, density: solvent.densitySource ?? solvent.compositionSource },
  };
}

function inSolvent(making: Making, strength: Strength): Made | Failure {
  const { words, substance, assumed } = making;
  const reading = making.read(words.solvent ?? 'water');
  if (!reading.ok) return reading;
  const solvent = reading.material;
  if (solvent.substance === substance)
    return failure('strength', `A strength means nothing of ${words.rest}.`, 'Leave it out.');
  const made = compose(called(making), strength, asPoured(solvent));
  if (!made.ok) return unsolved(made);
  assumed.push(...solvent.assumed, ...made.assumed);
  return {
    ...dissolved(substance, made, solvent.composition),
    strength,
    solvent: solvent.substance,
  };
}

type ByKind = {
  readonly [K in WrittenStrength['kind']]: (
    making: Making,
    written: WrittenStrength & { kind: K },
  ) => Made | Failure;
};

const BY_KIND: ByKind = {
  saturated: inSolvent,
  dilute: inSolvent,
  molarity: (making, { value }) => inSolvent(making, { kind: 'molarity', value }),
  normality(making, { value }) {
    const equivalents = conventionOf(making.substance.id)?.equivalents;
    if (equivalents === undefined)
      making.assumed.push(`N is read as mol/L: one equivalent in a mole of ${making.words.rest}`);
    return inSolvent(making, { kind: 'molarity', value: value / (equivalents ?? 1) });
  },
  percent(making, written) {
    const meant = meantByPercent(making, written);
    return 'purity_percent' in meant
      ? assayed(making, meant.purity_percent)
      : inSolvent(making, meant);
  },
  concentrated(making) {
    const form = concentratedForm(making.substance);
    if (form !== undefined) return fromShelf(making, form);
    const name = making.words.rest;
    return failure(
      'strength',
      `How strong concentrated ${name} is, the table does not say.`,
      `Write its strength, as in 5 M ${name}.`,
    );
  },
};

function fromStrength(making: Making, written: WrittenStrength): Made | Failure {
  const handle = BY_KIND[written.kind] as (m: Making, w: WrittenStrength) => Made | Failure;
  const made = handle(making, written);
  const density_g_mL = making.words.density_g_mL;
  if ('ok' in made || density_g_mL === undefined) return made;
  return { ...made, density_g_mL, densitySource: 'as written' };
}

function fromDensity(making: Making, density_g_mL: number): Made | Failure {
  const made = composeFromDensity(called(making), density_g_mL);
  if (!made.ok) return unsolved(made);
  making.assumed.push(...made.assumed);
  const water = making.table.byName.get('water')!;
  return {
    ...dissolved(making.substance, made, [{ substance: water, massFraction: 1 }]),
    strength: { kind: 'massPercent', value: made.massFraction * 100 },
    solvent: water,
  };
}

/** With no strength written: the bottle that the bare name means, or the pure substance. */
function withoutStrength(making: Making): Made | Failure {
  const { words, substance, assumed, extra } = making;
  const plain = substance.origin !== 'document' && extra.purity_percent === undefined;
  const usual = plain
    ? (bareShelfForm(words.rest) ??
      (words.aqueous ? bareShelfForm(`aqueous ${words.rest}`) : undefined))
    : undefined;
  if (usual !== undefined && words.solvent === undefined) {
    const percent = usual.strengthKind === 'massPercent' && !usual.name.includes('%');
    assumed.push(
      `no strength written: taken as ${usual.name}${percent ? `, ${usual.strength} % w/w` : ''}`,
    );
    return fromShelf(making, usual);
  }
  const inSolution = words.aqueous || words.solution || words.solvent !== undefined;
  if (inSolution && substance.id !== 'water')
    return failure(
      'strength',
      `How strong the solution of ${words.rest} is, is not written.`,
      `Write its strength, as in 1 M ${words.rest} or 5 % aqueous ${words.rest}.`,
    );
  return extra.purity_percent === undefined ? neat(making) : assayed(making, extra.purity_percent);
}

/** Composition and density of what the words say. */
export function makeMaterial(making: Making): Made | Failure {
  const { words, shelved } = making;
  if (words.clash !== undefined)
    return failure('strength', `Two strengths of ${words.rest}.`, 'Write one of them.');
  if (shelved !== undefined && words.strength === undefined) return fromShelf(making, shelved);
  if (words.strength !== undefined) return fromStrength(making, words.strength);
  if (words.density_g_mL !== undefined) return fromDensity(making, words.density_g_mL);
  return withoutStrength(making);
}
