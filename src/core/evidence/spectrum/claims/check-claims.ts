import type { StructureFacts } from '../../structure.ts';
import type { InfraredSpectrum } from '../infrared.ts';
import type { BandEvidence } from '../judge/group-judgement.ts';
import type { InfraredJudgement } from '../judge/judge.ts';
import type { BandClaim } from '../schema.ts';
import type { Quality } from '../treat/quality.ts';
import { qualityOf } from '../treat/quality.ts';
import type { ClaimFinding } from './finding.ts';
import { bestFirst } from './finding.ts';
import type { GroupReading } from './read-group.ts';
import {
  acidHydroxylAsCh,
  faintHydroxyl,
  nhOhSwapped,
  overtoneAsHydroxyl,
  waterAsAlcohol,
} from './rules/hydroxyl.ts';
import { above3000AsAlkane, aldehydeWithoutCh } from './rules/carbon-hydrogen.ts';
import { coAsCc, coNotAssigned } from './rules/carbon-oxygen.ts';
import { combinationAsCarbonyl, weak1600AsCarbonyl } from './rules/carbonyl.ts';
import { placeFindings } from './rules/place.ts';
import type { ClaimRule, TableRule } from './rules/rule.ts';
import { isRead } from './rules/rule.ts';
import { sameNoise } from './rules/same-noise.ts';
import { solventBand } from './rules/solvent.ts';
import { notInProduct, otherWindow, saidAbsent, saturatedBand } from './rules/structure.ts';
import { airAsTripleBond, elementMissing } from './rules/triple-bond.ts';
import {
  changeNotMentioned,
  crowdedFingerprint,
  fitsStartingMaterial,
  leftOverNotMentioned,
  strongNotAssigned,
  tooThick,
  tooWeak,
} from './rules/whole-table.ts';
import type { ClaimCase, TableCase } from './table-case.ts';
import { seenAs, tableCaseOf } from './table-case.ts';

export interface ClaimQuestion {
  readonly spectrum: InfraredSpectrum;
  readonly claims: readonly BandClaim[];
  readonly product?: StructureFacts;
  readonly startingMaterials: readonly StructureFacts[];
  /** Of the same spectrum. */
  readonly judgement: InfraredJudgement;
  /** What the person concludes, as written. */
  readonly conclusion?: string;
  /** Other records, of the same class for instance, that should not be this one. */
  readonly others?: readonly InfraredSpectrum[];
  /** Of `qualityOf`; worked out where it is not given. */
  readonly quality?: Quality;
}

/**
 * `stands`: the trace has such a band and nothing better explains it; it is no proof. `doubtful`:
 * something else can explain it. `contradicted`: the trace speaks against it.
 */
export type ClaimVerdict = 'stands' | 'doubtful' | 'contradicted' | 'cannotTell';

export interface JudgedClaim {
  readonly claim: BandClaim;
  readonly verdict: ClaimVerdict;
  readonly reading: GroupReading;
  /** The maximum of the trace nearest to the claim; of a range the tallest inside it. */
  readonly nearest?: BandEvidence;
  /** From the claim to it; 0 inside a range. Infinity where the trace has no band at all. */
  readonly distance_percm: number;
  /** Best first. */
  readonly findings: readonly ClaimFinding[];
  /** The outcome in a sentence. */
  readonly says: string;
}

export interface ClaimReport {
  readonly claims: readonly JudgedClaim[];
  /** Of the table as a whole, best first. */
  readonly table: readonly ClaimFinding[];
}

const CLAIM_RULES: readonly ClaimRule[] = [
  faintHydroxyl,
  waterAsAlcohol,
  acidHydroxylAsCh,
  nhOhSwapped,
  overtoneAsHydroxyl,
  above3000AsAlkane,
  aldehydeWithoutCh,
  airAsTripleBond,
  elementMissing,
  weak1600AsCarbonyl,
  combinationAsCarbonyl,
  coAsCc,
  solventBand,
  otherWindow,
  notInProduct,
  saidAbsent,
  saturatedBand,
];

const TABLE_RULES: readonly TableRule[] = [
  leftOverNotMentioned,
  changeNotMentioned,
  coNotAssigned,
  strongNotAssigned,
  crowdedFingerprint,
  tooThick,
  tooWeak,
  fitsStartingMaterial,
];

/**
 * Tests every line of a table of assignments against the trace and the structures, and the table as a
 * whole. All candidates come back, the best first; several often coincide.
 */
export function checkClaims(question: ClaimQuestion): ClaimReport {
  const { spectrum, others = [], claims } = question;
  const table = tableCaseOf(question, question.quality ?? qualityOf(spectrum));
  const twin = sameNoise(spectrum, others);
  const ofTable = [
    ...(claims.length === 0 ? [] : TABLE_RULES).flatMap((rule) => rule(table) ?? []),
    ...(twin === undefined ? [] : [twin]),
  ];
  return {
    claims: table.claims.map((one) => judgedClaim(one, table)),
    table: bestFirst(ofTable),
  };
}

/** All candidates of a report together, best first. */
export const candidatesOf = ({ claims, table }: ClaimReport): readonly ClaimFinding[] =>
  bestFirst([...claims.flatMap(({ findings }) => findings), ...table]);

function judgedClaim(one: ClaimCase, table: TableCase): JudgedClaim {
  const ofRules = isRead(one) ? CLAIM_RULES.flatMap((rule) => rule(one, table) ?? []) : [];
  const findings = bestFirst([...placeFindings(one, table), ...ofRules]);
  const verdict = verdictOf(one, findings);
  const { nearest, distance_percm } = one.sight;
  return {
    claim: one.claim,
    verdict,
    reading: one.reading,
    ...(nearest === undefined ? {} : { nearest: seenAs(table, 'nearest band', nearest) }),
    distance_percm,
    findings,
    says: sentenceOf(one, verdict, findings),
  };
}

/** Below these a candidate is worth a line, and no verdict. */
const CONTRADICTS = 0.5;
const DOUBTS = 0.35;

function verdictOf(one: ClaimCase, findings: readonly ClaimFinding[]): ClaimVerdict {
  const has = (weight: ClaimFinding['weight'], least: number): boolean =>
    findings.some((each) => each.weight === weight && each.likelihood >= least);
  if (has('contradicts', CONTRADICTS)) return 'contradicted';
  if (one.reading.kind === 'unread' || one.sight.hidden !== undefined) return 'cannotTell';
  return has('doubts', DOUBTS) ? 'doubtful' : 'stands';
}

function sentenceOf(
  one: ClaimCase,
  verdict: ClaimVerdict,
  findings: readonly ClaimFinding[],
): string {
  const [best] = findings;
  const { reading, sight } = one;
  const sentences: Readonly<Record<ClaimVerdict, () => string>> = {
    stands: () =>
      isRead(one) && one.reading.said === 'absent'
        ? 'The trace has no band there, as the table says.'
        : 'The trace has such a band there, and it fits. Other groups may absorb there too.',
    doubtful: () => best?.says ?? '',
    contradicted: () => best?.says ?? '',
    cannotTell: () =>
      sight.hidden ?? (reading.kind === 'unread' ? `${reading.what} ${reading.whatToDo}` : ''),
  };
  return sentences[verdict]();
}
