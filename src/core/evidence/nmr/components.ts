import { molarMass } from '../../chemistry/molar-mass.ts';
import { readSmiles } from '../../chemistry/smiles.ts';
import type { Subject, Subjects } from '../subject.ts';
import { areaPerHydrogen } from './amounts.ts';
import type { Component, CountedIntegral } from './amounts.ts';
import { residualRows } from './residuals.ts';
import { counted, productAmount } from './spectrum.ts';
import type { ReadSpectrum } from './spectrum.ts';

export function subjectNamed(subjects: Subjects, name: string): Subject | undefined {
  const key = name.trim().toLowerCase();
  const all = [...(subjects.product === undefined ? [] : [subjects.product]), ...subjects.others];
  return all.find(
    ({ substance }) =>
      substance.name.toLowerCase() === key ||
      substance.synonyms.some((synonym) => synonym.toLowerCase() === key),
  );
}

export function molarMassOfSmiles(smiles: string): number | undefined {
  const reading = smiles === '' ? undefined : readSmiles(smiles);
  if (reading?.ok !== true) return undefined;
  const { value_g_mol } = molarMass(reading.composition);
  return Number.isFinite(value_g_mol) ? value_g_mol : undefined;
}

export interface Composition {
  /** The product first. */
  readonly components: readonly Component[];
  /** Seen, but without an amount: no integral, no molar mass or no number of hydrogens. */
  readonly uncounted: readonly string[];
}

interface Part {
  readonly name: string;
  readonly molarMass_g_mol: number | undefined;
  readonly integrals: readonly CountedIntegral[];
}

/** Signals assigned by hand to an impurity or to a solvent with a name, gathered by name. */
function assignedParts({ entered, partition }: ReadSpectrum, subjects: Subjects): Part[] {
  const groups = new Map<string, CountedIntegral[]>();
  for (const i of partition.impurities) {
    const { assignment } = entered.signals[i]!;
    const name = assignment?.of ?? 'an impurity without a name';
    const rows = counted(entered, i, assignment?.hydrogens);
    groups.set(name, [...(groups.get(name) ?? []), ...rows]);
  }
  return [...groups].map(([name, integrals]) => {
    const row = residualRows(entered.solvent).find(
      (one) => one.substance.toLowerCase() === name.toLowerCase(),
    );
    const own = subjectNamed(subjects, name)?.substance.molarMass_g_mol;
    return { name, integrals, molarMass_g_mol: own ?? molarMassOfSmiles(row?.smiles ?? '') };
  });
}

function startingParts({ entered, partition }: ReadSpectrum, subjects: Subjects): Part[] {
  const groups = new Map<string, CountedIntegral[]>();
  const usual = subjects.others.find((one) => one.role === 'startingMaterial')?.substance.name;
  for (const i of partition.startingMaterial) {
    const { assignment } = entered.signals[i]!;
    const name = assignment?.of ?? usual ?? 'starting material';
    const rows = counted(entered, i, assignment?.hydrogens);
    groups.set(name, [...(groups.get(name) ?? []), ...rows]);
  }
  return [...groups].map(([name, integrals]) => ({
    name,
    integrals,
    molarMass_g_mol: subjectNamed(subjects, name)?.substance.molarMass_g_mol,
  }));
}

/** Water is left out: it may have come with the deuterated solvent, and a bound must not count it. */
function residualParts({ entered, residuals }: ReadSpectrum): Part[] {
  return residuals
    .filter((one) => one.kind !== 'water')
    .map((one) => ({
      name: one.substance,
      molarMass_g_mol: molarMassOfSmiles(one.smiles),
      integrals: one.signals.flatMap(({ signal, row }) =>
        /OH/.test(row.group) && one.signals.length > 1
          ? []
          : counted(entered, signal, row.hydrogens),
      ),
    }));
}

/** Everything that the spectrum shows beside the product, with amounts where they can be had. */
export function compositionOf(spectrum: ReadSpectrum, subjects: Subjects): Composition {
  const amount = productAmount(spectrum);
  const product = subjects.product?.substance;
  const parts = [
    ...residualParts(spectrum),
    ...startingParts(spectrum, subjects),
    ...assignedParts(spectrum, subjects),
  ];
  const components: Component[] = [];
  const uncounted: string[] = [];
  if (amount !== undefined && product?.molarMass_g_mol !== undefined)
    components.push({ name: product.name, amount, molarMass_g_mol: product.molarMass_g_mol });
  for (const { name, molarMass_g_mol, integrals } of parts) {
    const own = areaPerHydrogen(integrals);
    if (own === undefined || molarMass_g_mol === undefined) uncounted.push(name);
    else components.push({ name, amount: own, molarMass_g_mol });
  }
  const counts = components[0]?.name === product?.name ? components : [];
  return { components: counts, uncounted };
}
