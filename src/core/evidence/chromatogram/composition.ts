import type { Diagnostic } from '../../diagnostic.ts';
import { formatWithUncertainty } from '../../quantity/print.ts';
import { standardUncertainty } from '../../quantity/uncertain.ts';
import type { Agreement, PurityFigure, Statement, Weight } from '../statement.ts';
import { isNamed, keyOfName } from './named.ts';
import { detectorLimits, percent, unseen } from './run.ts';
import type { Run } from './run.ts';
import type { InternalStandard } from './schema.ts';
import { AREA_U, areaOf, areaShare, calibrated, massShare, subjectNamed } from './shares.ts';
import type { Calibrated } from './shares.ts';

/** From this share on a teaching preparation counts as pure. Common practice. */
export const PURE_FROM = 0.98;

const AREA_WEIGHT: Readonly<Record<Run['entered']['detector'], Weight>> = {
  fid: 'moderate',
  tcd: 'moderate',
  refractiveIndex: 'weak',
  uv: 'weak',
  ms: 'weak',
  other: 'weak',
};

export function areaStatement(run: Run): Statement[] {
  const { entered, naming, product, productPeaks } = run;
  if (productPeaks.length === 0) return [];
  const share = areaShare(entered, productPeaks, naming.counted);
  const u = standardUncertainty(share);
  const pure = share.value + 2 * u >= PURE_FROM;
  const purity: PurityFigure = {
    basis: 'area',
    kind: 'measured',
    share: share.value,
    u,
    of: product,
  };
  return [
    {
      id: 'area-share',
      technique: 'chromatogram',
      about: 'purity',
      substance: product,
      what: 'Share of the area',
      measured: `${percent(share)} of the area`,
      expected: `${100 * PURE_FROM} % or more`,
      agreement: pure ? 'agrees' : 'disagrees',
      weight: AREA_WEIGHT[entered.detector],
      says: pure
        ? `${percent(share)} of the counted area is ${product}: little else is seen.`
        : `${percent(share)} of the counted area is ${product}; the rest is other substances.`,
      limits: `Area per cent is not mass per cent. ${detectorLimits(run)} ${unseen(run)}`,
      purity,
      derivation: [
        {
          label: 'Peaks counted',
          value: `${naming.counted.length} of ${entered.peaks.length}`,
        },
        {
          label: 'Share',
          formula: 'A/ΣA; ± is 2 u',
          value: percent(share),
          source: `areas good to ${100 * (entered.areaU ?? AREA_U)} % (standard uncertainty)`,
        },
      ],
    },
  ];
}

export function massStatement(run: Run): Statement[] {
  const { entered, subjects, naming, product, productPeaks } = run;
  if (productPeaks.length === 0 || naming.counted.length < 2) return [];
  const found = massShare(entered, subjects, productPeaks, naming.counted);
  if (found === undefined) return [];
  const { share, from } = found;
  const pure = share.value + 2 * standardUncertainty(share) >= PURE_FROM;
  const how =
    from === 'given' ? 'response factors' : 'response factors estimated from the structures';
  return [
    {
      id: 'mass-share',
      technique: 'chromatogram',
      about: 'purity',
      substance: product,
      what: 'Mass share among the peaks',
      measured: `${percent(share)} by mass of what is seen`,
      expected: `${100 * PURE_FROM} % or more`,
      agreement: pure ? 'agrees' : 'disagrees',
      weight: from === 'given' ? 'moderate' : 'weak',
      says: `With ${how}, ${product} is ${percent(share)} by mass of what the peaks show.`,
      limits: `It is a share of what elutes and is seen, not of the sample. ${unseen(run)}`,
      derivation: [
        {
          label: 'Mass share',
          formula: 'm = A/f; share = m/Σm; ± is 2 u',
          value: percent(share),
          source:
            from === 'given'
              ? 'factors as entered'
              : 'f = effective carbons/M: Scanlon and Willis, J. Chromatogr. Sci. 1985, 23, 333',
        },
      ],
    },
  ];
}

export interface StandardSays {
  readonly statements: readonly Statement[];
  readonly diagnostics: readonly Diagnostic[];
}

export function internalStandardSays(run: Run): StandardSays {
  const { internalStandard } = run.entered;
  if (internalStandard === undefined) return { statements: [], diagnostics: [] };
  const { analyte, name } = internalStandard;
  const own = run.naming.peaks.filter(
    (peak) =>
      peak.role === 'internalStandard' ||
      (peak.name !== undefined && keyOfName(peak.name) === keyOfName(name)),
  );
  const subject = subjectNamed(run.subjects, analyte);
  const found = run.naming.counted.filter((peak) =>
    subject === undefined
      ? peak.name !== undefined && keyOfName(peak.name) === keyOfName(analyte)
      : isNamed(subject, peak.name),
  );
  if (own.length === 0 || found.length === 0) {
    const missing = own.length === 0 ? `the internal standard (${name})` : analyte;
    const diagnostic: Diagnostic = {
      code: 'internal-standard-missing',
      severity: 'warning',
      message: `No peak is named as ${missing}, so that no amount is worked out.`,
      hint: 'Name its peak in the table, or give its retention time among the standards.',
    };
    return { statements: [], diagnostics: [diagnostic] };
  }
  const result = calibrated(
    internalStandard,
    { analyte: areaOf(run.entered, found), standard: areaOf(run.entered, own) },
    run.entered.areaU ?? AREA_U,
  );
  const known = subject?.substance.name ?? analyte;
  const isProduct = run.subjects.product !== undefined && isNamed(run.subjects.product, analyte);
  return {
    statements: [
      standardStatement(run, { ...internalStandard, analyte: known }, result, isProduct),
    ],
    diagnostics: tooMuch(known, result),
  };
}

function tooMuch(analyte: string, { share }: Calibrated): Diagnostic[] {
  if (share.value - 2 * standardUncertainty(share) <= 1) return [];
  return [
    {
      code: 'internal-standard-above-100',
      severity: 'warning',
      message: `The internal standard gives more ${analyte} than there was sample.`,
      hint: 'Check the weighings, the areas of the calibration and which peak is which.',
    },
  ];
}

function agreementOf({ share }: Calibrated, isProduct: boolean): Agreement {
  const u = standardUncertainty(share);
  if (share.value - 2 * u > 1) return 'cannotTell';
  if (!isProduct) return share.value <= 2 * u ? 'agrees' : 'disagrees';
  return share.value + 2 * u >= PURE_FROM ? 'agrees' : 'disagrees';
}

function standardStatement(
  run: Run,
  { analyte, name, calibration }: InternalStandard,
  result: Calibrated,
  isProduct: boolean,
): Statement {
  const { share, factor, mass_mg } = result;
  const role = subjectNamed(run.subjects, analyte)?.role;
  const sound = share.value > 0 && share.value - 2 * standardUncertainty(share) <= 1;
  const purity: PurityFigure | undefined = sound
    ? {
        basis: 'mass',
        kind: 'measured',
        share: Math.min(1, share.value),
        u: standardUncertainty(share),
        of: analyte,
      }
    : undefined;
  const shown = (value: typeof factor) =>
    formatWithUncertainty(value.value, 2 * standardUncertainty(value));
  return {
    id: 'internal-standard',
    technique: 'chromatogram',
    about: isProduct ? 'purity' : role === 'startingMaterial' ? 'startingMaterial' : 'contaminant',
    substance: analyte,
    what: 'Amount by internal standard',
    measured: `${percent(share)} by mass of the sample`,
    expected: isProduct ? `${100 * PURE_FROM} % or more` : '0 %',
    agreement: agreementOf(result, isProduct),
    weight: 'strong',
    says: `${percent(share)} by mass of the sample is ${analyte}, measured against ${name}.`,
    limits:
      'It rests on the purity of what the calibration was made from, and on peaks ' +
      'that nothing else lies under.',
    ...(purity === undefined ? {} : { purity }),
    derivation: [
      {
        label: 'Response factor',
        formula: 'F = (A/A_s)/(m/m_s)',
        value: shown(factor),
        source: `${calibration.length} calibration${calibration.length === 1 ? '' : 's'}`,
      },
      { label: 'Mass found', formula: 'm = (A/A_s)·m_s/F', value: `${shown(mass_mg)} mg` },
      { label: 'Share', formula: 'm/m(sample); ± is 2 u', value: percent(share) },
    ],
  };
}
