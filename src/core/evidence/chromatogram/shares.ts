import type { Subject, Subjects } from '../subject.ts';
import { findInstrument, standardUncertaintyOfDifference } from '../../quantity/instrument.ts';
import type { Uncertain } from '../../quantity/uncertain.ts';
import { divide, measured, multiply, subtract, sum } from '../../quantity/uncertain.ts';
import { isNamed, keyOfName } from './named.ts';
import type { NamedPeak } from './named.ts';
import { meanOf } from '../titration/mean.ts';
import { responseOf } from './response.ts';
import type { Response } from './response.ts';
import type { ChromatogramEntered, InternalStandard } from './schema.ts';

/** Relative standard uncertainty of an area, where nobody says. Common practice. */
export const AREA_U = 0.01;

/**
 * However small a peak, where its baseline is drawn is uncertain by this share of the largest one of
 * the sample. Common practice.
 */
export const BASELINE_U = 0.001;

/** The area of one or more peaks; the same peak is always the same measurement. */
export function areaOf(entered: ChromatogramEntered, peaks: readonly NamedPeak[]): Uncertain {
  const u = entered.areaU ?? AREA_U;
  const own = entered.peaks.filter(({ role = 'sample' }) => role === 'sample');
  const least =
    entered.areaU === undefined ? BASELINE_U * Math.max(0, ...own.map((p) => p.area)) : 0;
  return sum(
    peaks.map(({ index, entered: { area } }) =>
      measured(`area.${index}`, area, Math.hypot(u * area, least)),
    ),
  );
}

/** Area of some peaks over that of all counted: a share between 0 and 1. */
export function areaShare(
  entered: ChromatogramEntered,
  some: readonly NamedPeak[],
  counted: readonly NamedPeak[],
): Uncertain {
  return divide(areaOf(entered, some), areaOf(entered, counted));
}

export function subjectNamed(subjects: Subjects, name: string | undefined): Subject | undefined {
  const all = [...(subjects.product === undefined ? [] : [subjects.product]), ...subjects.others];
  return all.find((subject) => isNamed(subject, name));
}

/** The response for a mass: as given; with a flame detector else from effective carbons. */
export function responseFor(
  entered: ChromatogramEntered,
  subjects: Subjects,
  name: string | undefined,
): Response | undefined {
  if (name === undefined) return undefined;
  const subject = subjectNamed(subjects, name);
  const given = entered.responses?.find(
    (one) =>
      keyOfName(one.name) === keyOfName(name) ||
      (subject !== undefined && isNamed(subject, one.name)),
  );
  if (given !== undefined) return { factor: given.factor, u: given.u ?? 0, from: 'given' };
  const mixed = (entered.responses?.length ?? 0) > 0;
  if (entered.detector !== 'fid' || mixed || subject === undefined) return undefined;
  return responseOf(subject.substance);
}

/**
 * Mass shares mᵢ/Σm with m = A/f over the counted peaks; undefined where one of them has no name
 * or no response factor.
 */
export function massShare(
  entered: ChromatogramEntered,
  subjects: Subjects,
  some: readonly NamedPeak[],
  counted: readonly NamedPeak[],
): { readonly share: Uncertain; readonly from: Response['from'] } | undefined {
  const masses = new Map<NamedPeak, Uncertain>();
  let from: Response['from'] = 'given';
  for (const peak of counted) {
    const response = responseFor(entered, subjects, peak.name);
    if (response === undefined) return undefined;
    if (response.from === 'effectiveCarbons') from = response.from;
    const factor = measured(`response.${keyOfName(peak.name!)}`, response.factor, response.u);
    masses.set(peak, divide(areaOf(entered, [peak]), factor));
  }
  const all = sum([...masses.values()]);
  return { share: divide(sum(some.map((peak) => masses.get(peak)!)), all), from };
}

export interface Calibrated {
  /** (A/A_s)/(m/m_s) of the calibration. */
  readonly factor: Uncertain;
  readonly mass_mg: Uncertain;
  /** Of the sample, from 0 to 1. */
  readonly share: Uncertain;
}

/** On an analytical balance, gross less tare: what a weighing of milligrams is good to. */
function usualMassU_mg(mass_mg: number): number {
  const balance = findInstrument('balance-0.1mg');
  if (balance === undefined) return 0.2;
  return 1000 * standardUncertaintyOfDifference(balance, mass_mg / 1000, 0).u;
}

/**
 * Internal standard (Harris, Quantitative Chemical Analysis):
 * F = (A/A_s)/(m/m_s) from mixtures made up by weighing, then m = (A/A_s)·m_s/F. Several
 * calibrations are averaged; where they scatter more than their areas and weighings explain, the
 * scatter counts too.
 */
export function calibrated(
  standard: InternalStandard,
  areas: { readonly analyte: Uncertain; readonly standard: Uncertain },
  areaU: number,
): Calibrated {
  const mass = (id: string, mass_mg: number): Uncertain =>
    measured(id, mass_mg, standard.massU_mg ?? usualMassU_mg(mass_mg));
  const factors = standard.calibration.map((one, i) => {
    const area = (id: string, value: number): Uncertain =>
      measured(`calibration.${i}.${id}`, value, areaU * value);
    const ratio = divide(area('area', one.analyteArea), area('areaOfStandard', one.standardArea));
    const masses = divide(
      mass(`calibration.${i}.mass`, one.analyte_mg),
      mass(`calibration.${i}.massOfStandard`, one.standard_mg),
    );
    return divide(ratio, masses);
  });
  const factor = meanOf(factors, 'calibration.scatter');
  const mass_mg = divide(
    multiply(divide(areas.analyte, areas.standard), mass('standard.mass', standard.standard_mg)),
    factor,
  );
  return { factor, mass_mg, share: divide(mass_mg, mass('sample.mass', standard.sample_mg)) };
}

/** ee = (A₁ − A₂)/(A₁ + A₂) of two peaks whose response is one; from −1 to 1. */
export function excess(first: Uncertain, second: Uncertain): Uncertain {
  return divide(subtract(first, second), sum([first, second]));
}
