import type { Diagnostic } from '../../diagnostic.ts';
import { formatWithUncertainty } from '../../quantity/print.ts';
import { divide, measured, scale, standardUncertainty, sum } from '../../quantity/uncertain.ts';
import type { Uncertain } from '../../quantity/uncertain.ts';
import type { Statement } from '../statement.ts';
import { plateNumber, resolution, symmetryFactor } from './figures.ts';
import { keyOfName } from './named.ts';
import type { NamedPeak } from './named.ts';
import { minutes, peaksNamed, percent } from './run.ts';
import type { Run } from './run.ts';
import type { PeakPair } from './schema.ts';
import { areaOf, excess, responseFor, subjectNamed } from './shares.ts';

/** Two peaks are parted to the baseline from here on (Ph. Eur. 2.2.46; from memory). */
export const PARTED = 1.5;
/** A symmetry factor within these is usual (Ph. Eur. 2.2.46; from memory). */
const SYMMETRY = [0.8, 1.8] as const;

function ofName(run: Run, name: string): NamedPeak[] {
  const subject = subjectNamed(run.subjects, name);
  if (subject !== undefined) return peaksNamed(subject, run.naming.counted);
  return run.naming.counted.filter(
    (peak) => peak.name !== undefined && keyOfName(peak.name) === keyOfName(name),
  );
}

export interface PairsSay {
  readonly statements: readonly Statement[];
  readonly diagnostics: readonly Diagnostic[];
}

/** The ratios that were asked for: isomers against each other, and the excess of an enantiomer. */
export function pairsSay(run: Run): PairsSay {
  const statements: Statement[] = [];
  const diagnostics: Diagnostic[] = [];
  (run.entered.pairs ?? []).forEach((pair, i) => {
    const [first, second] = [ofName(run, pair.first), ofName(run, pair.second)];
    if (first.length > 0 && second.length > 0)
      statements.push(pairStatement(run, pair, first, second, `pair-${i + 1}`));
    else
      diagnostics.push({
        code: 'pair-peak-missing',
        severity: 'warning',
        message:
          `No peak is named ${first.length === 0 ? pair.first : pair.second}, so that ` +
          'there is no ratio.',
        hint: 'Name both peaks. One that is not seen leaves only a bound, not a ratio.',
      });
  });
  return { statements, diagnostics };
}

const PAIR_LIMITS: Readonly<Record<PeakPair['kind'], string>> = {
  enantiomers:
    'Only a column that parts the racemate can tell, so the racemate is injected ' +
    'too. Which peak is which enantiomer needs a sample of known configuration.',
  diastereomers:
    'Areas stand for amounts only as far as both answer alike. Work-up and ' +
    'crystallisation change the ratio.',
  isomers:
    'Areas stand for amounts only as far as both answer alike. Work-up and ' +
    'distillation change the ratio.',
};

/** "91.84 : 8.16 (± 0.21)", both shares to the same place. */
function ratioText(share: Uncertain): string {
  const [first, spread] = formatWithUncertainty(
    100 * share.value,
    200 * standardUncertainty(share),
  ).split(' ± ');
  const decimals = first!.split('.')[1]?.length ?? 0;
  const second = (100 - Number(first)).toFixed(decimals);
  return `${first} : ${second}${spread === undefined ? '' : ` (± ${spread})`}`;
}

function pairStatement(
  run: Run,
  pair: PeakPair,
  first: readonly NamedPeak[],
  second: readonly NamedPeak[],
  id: string,
): Statement {
  const [a, b] = [areaOf(run.entered, first), areaOf(run.entered, second)];
  const share = divide(a, sum([a, b]));
  const ee = excess(a, b);
  const major = ee.value < 0 ? pair.second : pair.first;
  const ratio = ratioText(share);
  const isEe = pair.kind === 'enantiomers';
  const parted =
    first.length === 1 && second.length === 1
      ? resolution(first[0]!.entered, second[0]!.entered)
      : undefined;
  const overlaps = parted !== undefined && parted < PARTED;
  const shown = isEe ? `ee ${percent(scale(ee, Math.sign(ee.value) || 1))} of ${major}` : ratio;
  return {
    id,
    technique: 'chromatogram',
    about: 'purity',
    substance: run.product,
    what: isEe ? 'Enantiomeric excess' : `Ratio of ${pair.first} to ${pair.second}`,
    measured: shown,
    expected: '',
    agreement: 'cannotTell',
    weight: overlaps ? 'weak' : 'moderate',
    says: isEe
      ? 'The areas give an enantiomeric excess of ' +
        `${percent(scale(ee, Math.sign(ee.value) || 1))} in favour of ${major}.`
      : `${pair.first} and ${pair.second} are ${ratio} by area.`,
    limits: overlaps
      ? `The two peaks are not parted to the baseline. ${PAIR_LIMITS[pair.kind]}`
      : PAIR_LIMITS[pair.kind],
    derivation: [
      isEe
        ? { label: 'Excess', formula: 'ee = (A₁ − A₂)/(A₁ + A₂); ± is 2 u', value: percent(ee) }
        : { label: 'Share of the first', formula: 'A₁/(A₁ + A₂); ± is 2 u', value: percent(share) },
      ...(parted === undefined
        ? []
        : [{ label: 'Resolution', value: parted.toFixed(2), source: 'Ph. Eur. 2.2.46' }]),
    ],
  };
}

/** Product against product and starting material left, in moles where responses are known. */
export function conversionStatements(run: Run): Statement[] {
  if (run.productPeaks.length === 0) return [];
  return run.subjects.others
    .filter(({ role }) => role === 'startingMaterial')
    .flatMap((subject, i) => {
      const left = peaksNamed(subject, run.naming.counted);
      if (left.length === 0) return [];
      const moles = (name: string, peaks: readonly NamedPeak[]): Uncertain | undefined => {
        const response = responseFor(run.entered, run.subjects, name);
        const mass = subjectNamed(run.subjects, name)?.substance.molarMass_g_mol;
        if (response === undefined || mass === undefined) return undefined;
        const molar = measured(`response.${keyOfName(name)}`, response.factor, response.u);
        return divide(areaOf(run.entered, peaks), scale(molar, mass));
      };
      const [formed, rest] = [
        moles(run.product, run.productPeaks),
        moles(subject.substance.name, left),
      ];
      const known = formed !== undefined && rest !== undefined;
      const p = known ? formed : areaOf(run.entered, run.productPeaks);
      const s = known ? rest : areaOf(run.entered, left);
      return [conversionOf(run, subject.substance.name, divide(p, sum([p, s])), known, i + 1)];
    });
}

function conversionOf(
  run: Run,
  name: string,
  conversion: Uncertain,
  inMoles: boolean,
  n: number,
): Statement {
  return {
    id: `conversion-${n}`,
    technique: 'chromatogram',
    about: 'change',
    substance: run.product,
    what: `Conversion of ${name}`,
    measured: percent(conversion),
    expected: '',
    agreement: 'cannotTell',
    weight: inMoles ? 'moderate' : 'weak',
    says:
      `Of ${name} and ${run.product} together, ${percent(conversion)} is ` +
      `${run.product}${inMoles ? ' in moles' : ' by area'}.`,
    limits:
      'It leaves out by-products, and one mole of product for one of starting ' +
      'material is taken for granted. It is no yield.',
    derivation: [
      {
        label: 'Conversion',
        formula: inMoles
          ? 'n(P)/(n(P) + n(S)), n = A/(f·M); ± is 2 u'
          : 'A(P)/(A(P) + A(S)); ± is 2 u',
        value: percent(conversion),
      },
    ],
  };
}

/** How well the product's peak is parted from its neighbours, and how good the column is. */
export function separationSays(run: Run): PairsSay {
  const peak = run.productPeaks[0];
  if (peak === undefined || run.productPeaks.length > 1) return { statements: [], diagnostics: [] };
  const rivals = run.naming.peaks
    .filter((other) => other !== peak)
    .flatMap((other) => {
      const rs = resolution(peak.entered, other.entered);
      return rs === undefined ? [] : [{ other, rs }];
    })
    .sort((a, b) => a.rs - b.rs);
  const nearest = rivals[0];
  const symmetry = symmetryFactor(peak.entered);
  const odd = symmetry !== undefined && (symmetry < SYMMETRY[0] || symmetry > SYMMETRY[1]);
  const diagnostics: Diagnostic[] = odd
    ? [
        {
          code: 'peak-asymmetric',
          severity: 'note',
          message:
            `The peak of ${run.product} is lopsided (symmetry factor ` + `${symmetry.toFixed(2)}).`,
          hint: 'Inject less; look at the column and the injector.',
        },
      ]
    : [];
  if (nearest === undefined) return { statements: [], diagnostics };
  const plates = plateNumber(peak.entered);
  const parted = nearest.rs >= PARTED;
  const statement: Statement = {
    id: 'separation',
    technique: 'chromatogram',
    about: 'instrument',
    substance: run.product,
    what: 'Resolution from the nearest peak',
    measured: `${nearest.rs.toFixed(2)} (peak at ${minutes(nearest.other)})`,
    expected: `${PARTED} or more`,
    agreement: parted ? 'agrees' : 'disagrees',
    weight: 'moderate',
    says: parted
      ? 'The peak of the product is parted from its neighbours to the baseline.'
      : 'The peak of the product is not parted from its neighbour to the baseline, so ' +
        'that both areas are uncertain.',
    limits: 'A substance that comes at the very same time is not seen as a neighbour.',
    derivation: [
      {
        label: 'Resolution',
        formula: '1.18·(t₂ − t₁)/(w½₁ + w½₂), or 2·(t₂ − t₁)/(w₁ + w₂) at the base',
        value: nearest.rs.toFixed(2),
        source: 'Ph. Eur. 2.2.46; IUPAC Gold Book',
      },
      ...(plates === undefined
        ? []
        : [{ label: 'Plates', formula: '5.54·(t/w½)² or 16·(t/w)²', value: plates.toFixed(0) }]),
      ...(symmetry === undefined
        ? []
        : [{ label: 'Symmetry factor', formula: 'w₀.₀₅/2d', value: symmetry.toFixed(2) }]),
    ],
  };
  return { statements: [statement], diagnostics };
}
