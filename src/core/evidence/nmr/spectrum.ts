import { hydrogenEnvironments } from '../../chemistry/environments.ts';
import type { Environments } from '../../chemistry/environments.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import { sum } from '../../quantity/uncertain.ts';
import type { Uncertain } from '../../quantity/uncertain.ts';
import type { Subjects } from '../subject.ts';
import { areaPerHydrogen } from './amounts.ts';
import type { CountedIntegral } from './amounts.ts';
import { identify } from './identify.ts';
import type { Identification } from './identify.ts';
import { areaOf, partitionOf } from './partition.ts';
import type { Partition } from './partition.ts';
import { INTEGRAL_U } from './proton-counts.ts';
import { nameResiduals } from './residuals.ts';
import type { NamedResidual } from './residuals.ts';
import type { NmrEntered } from './schema.ts';

/** A spectrum with everything told apart: what each statement is made from. */
export interface ReadSpectrum {
  readonly entered: NmrEntered;
  readonly partition: Partition;
  /** Absent without a structure of the product. */
  readonly environments?: Environments;
  /** Signal numbers in it are places in `partition.open`. */
  readonly identification?: Identification;
  readonly residuals: readonly NamedResidual[];
  /** Open signals that neither the product nor the table of solvents explains. */
  readonly unexplained: readonly number[];
  readonly diagnostics: readonly Diagnostic[];
}

function structureFinding(name: string, message: string): Diagnostic {
  return {
    code: 'nmr-no-structure',
    severity: 'note',
    message: `The signals are not compared with a structure: ${message}`,
    hint: `Give ${name} a structure as SMILES in the document.`,
  };
}

export function readSpectrum(entered: NmrEntered, subjects: Subjects): ReadSpectrum {
  const partition = partitionOf(entered);
  const relativeU = relativeUOf(entered);
  const diagnostics: Diagnostic[] = [...partition.diagnostics];
  const product = subjects.product?.substance;
  const name = product?.name ?? 'the product';
  const smiles = product?.smiles;
  const reading = smiles === undefined ? undefined : hydrogenEnvironments(smiles);
  if (reading === undefined) diagnostics.push(structureFinding(name, `${name} has no structure.`));
  else if (!reading.ok) diagnostics.push(structureFinding(name, reading.message));
  const { signals } = entered;
  const open = partition.open.map((i) => signals[i]!);
  const free = partition.open.filter((i) => signals[i]!.assignment === undefined);
  // What solvents could explain, before the product is looked for: the scale is tried without it.
  const likely = nameResiduals(entered.solvent, signals, free);
  const named = new Set(
    likely.flatMap((one) => one.signals.map(({ signal }) => partition.open.indexOf(signal))),
  );
  const known = reading?.ok === true && reading.list.length > 0 && open.length > 0;
  const identification = known ? identify(reading, open, named, relativeU) : undefined;
  const left =
    identification === undefined
      ? free
      : identification.unused.map((k) => partition.open[k]!).filter((i) => free.includes(i));
  const residuals = nameResiduals(entered.solvent, signals, left);
  const taken = new Set(residuals.flatMap((one) => one.signals.map(({ signal }) => signal)));
  return {
    entered,
    partition,
    ...(reading?.ok === true ? { environments: reading } : {}),
    ...(identification === undefined ? {} : { identification }),
    residuals,
    unexplained: identification === undefined ? [] : left.filter((i) => !taken.has(i)),
    diagnostics,
  };
}

/** However small a signal, its baseline is uncertain by this share of the largest (common practice). */
const BASELINE_U = 0.002;

/** Relative standard uncertainty of the integrals: as entered, or what is usual. */
export function relativeUOf(entered: NmrEntered): number {
  return (entered.integralU_percent ?? 100 * INTEGRAL_U) / 100;
}

/** A signal as an amount, where it has an integral and a number of hydrogens. */
export function counted(
  entered: NmrEntered,
  signal: number,
  hydrogens: number | undefined,
): CountedIntegral[] {
  const area = areaOf(entered.signals[signal]!);
  if (area === undefined || hydrogens === undefined) return [];
  const largest = Math.max(...entered.signals.map((one) => areaOf(one) ?? 0));
  const u = Math.hypot(relativeUOf(entered) * area, BASELINE_U * largest);
  return [{ id: `integral of signal ${signal + 1}`, integral: area, hydrogens, u }];
}

/** The product's integrals that carry amounts: matched, counted right, and nothing that exchanges. */
export function productIntegrals(spectrum: ReadSpectrum): CountedIntegral[] {
  const { entered, partition, identification, environments } = spectrum;
  const said = partition.open.flatMap((i) =>
    counted(entered, i, entered.signals[i]!.assignment?.hydrogens),
  );
  if (said.length > 0) return said;
  if (identification === undefined || environments === undefined) return [];
  return identification.matches.flatMap((match) => {
    const exchanging = match.parts.some(
      (part) => environments.list[part.environment]!.exchangeable,
    );
    if (exchanging || !match.counted) return [];
    return counted(entered, partition.open[match.signal]!, match.hydrogens);
  });
}

/** Signals of each isomer by its name, those alone that have an integral and a number of hydrogens. */
export function isomerAmounts({ entered, partition }: ReadSpectrum): {
  readonly name: string;
  readonly amount: Uncertain;
}[] {
  const groups = new Map<string, CountedIntegral[]>();
  for (const i of partition.isomers) {
    const assignment = entered.signals[i]!.assignment;
    const name = assignment?.of ?? 'isomer';
    const list = counted(entered, i, assignment?.hydrogens);
    groups.set(name, [...(groups.get(name) ?? []), ...list]);
  }
  return [...groups].flatMap(([name, list]) => {
    const amount = areaPerHydrogen(list);
    return amount === undefined ? [] : [{ name, amount }];
  });
}

/** Relative amount of the product: from its own signals, else from those of its isomers together. */
export function productAmount(spectrum: ReadSpectrum): Uncertain | undefined {
  const own = areaPerHydrogen(productIntegrals(spectrum));
  if (own !== undefined) return own;
  const isomers = isomerAmounts(spectrum);
  return isomers.length === 0 ? undefined : sum(isomers.map(({ amount }) => amount));
}

/**
 * Whether it is known which signals are the product's: by the person's word, or because every
 * environment was found. Amounts from a search that failed are no purity.
 */
export function isSure({
  entered,
  partition,
  identification,
  environments,
}: ReadSpectrum): boolean {
  const signals = [...partition.open, ...partition.isomers].map((i) => entered.signals[i]!);
  if (signals.some(({ assignment }) => assignment?.hydrogens !== undefined)) return true;
  if (identification === undefined || environments === undefined || identification.cutOff)
    return false;
  const exchanges = (i: number) => environments.list[i]!.exchangeable;
  return (
    identification.missing.every(exchanges) &&
    identification.matches.every(
      ({ counted: right, parts }) =>
        right || parts.some(({ environment }) => exchanges(environment)),
    )
  );
}
