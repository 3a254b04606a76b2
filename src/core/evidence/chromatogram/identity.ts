import { standardUncertainty } from '../../quantity/uncertain.ts';
import type { Statement } from '../statement.ts';
import type { Subject } from '../subject.ts';
import { isNamed, windowAt } from './named.ts';
import type { NamedPeak } from './named.ts';
import { detectorLimits, minutes, peaksNamed, percent, unseen } from './run.ts';
import type { Run } from './run.ts';
import { areaShare } from './shares.ts';

const ALIKE =
  'Another substance can come at the same time; a match of times alone does not identify.';

function standardOf(run: Run, subject: Subject) {
  return run.entered.standards?.find(({ name }) => isNamed(subject, name));
}

/** Peaks that might be a substance but have several standards in their window. */
function disputed(run: Run, subject: Subject): NamedPeak[] {
  return run.naming.counted.filter(
    ({ namedBy, candidates }) =>
      namedBy === 'nobody' && candidates.some((name) => isNamed(subject, name)),
  );
}

/**
 * The product's retention time against that of an authentic sample run under the same conditions.
 */
export function retentionStatement(run: Run): Statement[] {
  const subject = run.subjects.product;
  const standard = subject === undefined ? undefined : standardOf(run, subject);
  if (subject === undefined || standard === undefined) return [];
  const window = windowAt(run.entered, standard.retention_min);
  const found = run.naming.counted.filter(
    ({ entered }) => Math.abs(entered.retention_min - standard.retention_min) <= window,
  );
  const open = disputed(run, subject).length > 0;
  const base = {
    id: 'retention-time',
    technique: 'chromatogram',
    about: 'identity',
    substance: run.product,
    what: 'Retention time',
    measured: found.length === 0 ? 'no peak there' : found.map(minutes).join('; '),
    expected: `${standard.retention_min.toFixed(2)} ± ${window.toFixed(2)} min (authentic sample)`,
    derivation: [
      {
        label: 'Window',
        formula: '0.05 min, or 1 % of the time where that is more, unless entered',
        value: `± ${window.toFixed(2)} min`,
        source: run.entered.window_min === undefined ? 'common practice' : 'as entered',
      },
    ],
  } as const;
  if (found.length === 0)
    return [
      {
        ...base,
        agreement: 'disagrees',
        weight: 'moderate',
        says: `No peak comes where ${run.product} comes.`,
        limits: `Times shift with flow, temperature and the age of the column. ${unseen(run)}`,
      },
    ];
  return [
    {
      ...base,
      agreement: open ? 'cannotTell' : 'agrees',
      weight: 'weak',
      says: open
        ? `A peak comes where ${run.product} comes, but another standard comes there too.`
        : `A peak comes where authentic ${run.product} comes.`,
      limits: ALIKE,
    },
  ];
}

/** For each starting material whose place in the chromatogram is known: is it still there? */
export function startingMaterialStatements(run: Run): Statement[] {
  return run.subjects.others
    .filter(({ role }) => role === 'startingMaterial')
    .flatMap((subject, i) => startingMaterialStatement(run, subject, i + 1));
}

function startingMaterialStatement(run: Run, subject: Subject, n: number): Statement[] {
  const { name } = subject.substance;
  const peaks = peaksNamed(subject, run.naming.counted);
  const standard = standardOf(run, subject);
  const base = {
    id: `starting-material-${n}`,
    technique: 'chromatogram',
    about: 'startingMaterial',
    substance: name,
    what: `Peak of ${name}`,
    expected: 'no peak',
  } as const;
  if (peaks.length > 0) {
    const share = areaShare(run.entered, peaks, run.naming.counted);
    return [
      {
        ...base,
        measured: `${peaks.map(minutes).join('; ')}, ${percent(share)} of the area`,
        agreement: 'disagrees',
        weight: peaks.some(({ namedBy }) => namedBy === 'retention') ? 'moderate' : 'weak',
        says: `${percent(share)} of the counted area is ${name}: some of it is left.`,
        limits: `${ALIKE} ${detectorLimits(run)}`,
      },
    ];
  }
  if (standard === undefined) return [];
  if (disputed(run, subject).length > 0)
    return [
      {
        ...base,
        measured: disputed(run, subject).map(minutes).join('; '),
        agreement: 'cannotTell',
        weight: 'weak',
        says: `A peak may be ${name} or another standard that comes as late.`,
        limits: ALIKE,
      },
    ];
  const covered = coverOf(run, standard.retention_min);
  if (covered !== undefined)
    return [
      {
        ...base,
        measured: covered.measured,
        agreement: 'cannotTell',
        weight: 'weak',
        says: `${covered.says}, so that ${name} would not be seen.`,
        limits: 'Another temperature programme or eluent, or another solvent, would part them.',
      },
    ];
  return [
    {
      ...base,
      measured: `no peak near ${standard.retention_min.toFixed(2)} min`,
      agreement: 'agrees',
      weight: 'moderate',
      says: `No peak comes where ${name} comes: none is seen.`,
      limits: `Less than the smallest peak that was integrated stays unseen. ${unseen(run)}`,
    },
  ];
}

/** What hides a peak at this time: the start of the count, the solvent, or another substance. */
function coverOf(
  { entered, naming }: Run,
  time_min: number,
): { readonly measured: string; readonly says: string } | undefined {
  const at = `${time_min.toFixed(2)} min`;
  if (time_min < (entered.from_min ?? 0))
    return { measured: `not counted at ${at}`, says: 'What comes so early is not counted' };
  const window = windowAt(entered, time_min);
  const peak = naming.peaks.find((one) => Math.abs(one.entered.retention_min - time_min) <= window);
  if (peak === undefined) return undefined;
  const whose = peak.role === 'sample' ? (peak.name ?? 'another substance') : WORDS[peak.role];
  return { measured: minutes(peak), says: `The peak of ${whose} stands at ${at}` };
}

const WORDS = {
  solvent: 'the solvent',
  internalStandard: 'the internal standard',
  blank: 'the blank',
} as const;

/** Peaks that nobody has named and no standard explains. */
export function unnamedStatement(run: Run): Statement[] {
  const unnamed = run.naming.counted.filter(({ name }) => name === undefined);
  if (unnamed.length === 0 || run.naming.counted.length === unnamed.length) return [];
  const share = areaShare(run.entered, unnamed, run.naming.counted);
  const largest = [...unnamed].sort((a, b) => b.entered.area - a.entered.area).slice(0, 3);
  const few = share.value + 2 * standardUncertainty(share) < 0.005;
  return [
    {
      id: 'unnamed-peaks',
      technique: 'chromatogram',
      about: 'contaminant',
      what: 'Peaks without a name',
      measured:
        `${unnamed.length}, together ${percent(share)} of the area; the largest at ` +
        `${largest.map(minutes).join(', ')}`,
      expected: 'less than 0.5 % of the area',
      agreement: few ? 'agrees' : 'disagrees',
      weight: 'moderate',
      says: `${percent(share)} of the counted area belongs to peaks that nobody has named.`,
      limits:
        'They may come from the solvent or the column: a blank injection tells. ' +
        `${detectorLimits(run)}`,
    },
  ];
}
