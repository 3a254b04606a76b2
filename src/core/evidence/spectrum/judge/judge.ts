import type { Statement } from '../../statement.ts';
import type { StructureFacts } from '../../structure.ts';
import type { InfraredSpectrum } from '../infrared.ts';
import type { Quality } from '../treat/quality.ts';
import { qualityOf } from '../treat/quality.ts';
import { bandsFor } from './bands.ts';
import type { ChangeJudgement } from './change.ts';
import { judgeChange } from './change.ts';
import type { ContaminantJudgement } from './contaminants.ts';
import { MOST_SHARE, judgeContaminants } from './contaminants.ts';
import type { TraceContext } from './context.ts';
import { contextOf } from './context.ts';
import type { BandJudgement } from './expected.ts';
import { judgeExpected } from './expected.ts';
import type { BandEvidence, GroupJudgement } from './group-judgement.ts';
import { groupsIn } from './groups-seen.ts';
import type { ResidualEstimate } from './residual.ts';
import { asItself, residualFromBand, residualFromReferences } from './residual.ts';
import { ownBands } from './identity.ts';
import { statementsOf } from './statements.ts';
import { storyOf } from './story.ts';
import { elementsOf } from './structure-groups.ts';
import type { BandOfOthers } from './unexplained.ts';
import { notOfProduct, unexplainedBands } from './unexplained.ts';
import { nothingButWater } from './only-water.ts';

/** A substance that the sample may hold: its name and, where known, what its structure holds. */
export interface NamedFacts {
  readonly name: string;
  readonly facts?: StructureFacts;
}

export interface InfraredQuestion {
  readonly spectrum: InfraredSpectrum;
  readonly product?: NamedFacts;
  readonly startingMaterials: readonly NamedFacts[];
  readonly reagents: readonly NamedFacts[];
  readonly solvents: readonly NamedFacts[];
  /** Of `qualityOf`; worked out where it is not given. */
  readonly quality?: Quality;
  readonly reference?: {
    readonly startingMaterial?: InfraredSpectrum;
    readonly product?: InfraredSpectrum;
  };
}

export interface InfraredJudgement {
  /** Of the product's structure; empty where it is not known. */
  readonly bands: readonly BandJudgement[];
  readonly groups: readonly GroupJudgement[];
  readonly change: readonly ChangeJudgement[];
  readonly residual?: ResidualEstimate;
  readonly contaminants: readonly ContaminantJudgement[];
  readonly unexplained: readonly BandEvidence[];
  /** Bands that the product does not explain and something that went in may. */
  readonly ofOthers: readonly BandOfOthers[];
  /** The bands of water, where the trace shows nothing else. */
  readonly onlyWater?: readonly BandEvidence[];
  /** What is wrong with the measurement, in sentences. */
  readonly quality: readonly string[];
  readonly statements: readonly Statement[];
  /** The whole in a few sentences. */
  readonly summary: readonly string[];
}

/** What a spectrum says of a product, its starting materials and what else may be in the sample. */
export function judgeInfrared(question: InfraredQuestion): InfraredJudgement {
  const { spectrum, product, startingMaterials, reagents, solvents } = question;
  const elements = elementsHere(question);
  const context = contextOf(spectrum, elements === undefined ? {} : { elements });
  const groups = groupsIn(context);
  const facts = product?.facts;
  const bands = facts === undefined ? [] : judgeExpected(context, facts, groups);
  const known = startingMaterials.flatMap((one) => one.facts ?? []);
  const contaminants = judgeContaminants(
    context,
    facts === undefined ? ALKYL_WINDOWS : bands.map(ownWindow),
    {
      used: [...solvents, ...reagents, ...startingMaterials].flatMap(wordsOf),
      wentIn: facts === undefined ? [] : windowsOf(known, context),
      sample: product === undefined ? [] : wordsOf(product),
    },
  );
  const change = facts === undefined ? [] : judgeChange(context, facts, known, groups);
  const onlyWater = nothingButWater(context, product, contaminants);
  const residual = onlyWater === undefined ? residualOf(question, context, bands) : undefined;
  const strange =
    facts === undefined ? [] : unexplainedBands(context, bands, contaminants, residual);
  const judged = {
    bands,
    groups,
    change,
    ...(residual && { residual }),
    contaminants,
    ...notOfProduct(context, strange, [...startingMaterials, ...reagents, ...solvents]),
    ...(onlyWater && { onlyWater }),
    quality: qualityWords(question.quality ?? qualityOf(spectrum), context),
  };
  const statements = statementsOf(judged, question);
  return { ...judged, statements, summary: storyOf(judged, statements, question) };
}

/** Without a structure nearly every sample is taken to have C–H of its own. */
const ALKYL_WINDOWS = (
  [
    [2800, 3000],
    [1430, 1480],
    [1360, 1395],
  ] as const
).map(([low_percm, high_percm]) => ({ low_percm, high_percm, mostShare: 1 }));

const ownWindow = ({ window_percm: [low_percm, high_percm], intensity }: BandJudgement) => ({
  low_percm,
  high_percm,
  mostShare: MOST_SHARE[intensity],
});

const windowsOf = (structures: readonly StructureFacts[], { state }: TraceContext) =>
  structures.flatMap((facts) =>
    bandsFor(facts, state).map(({ band: { low_percm, high_percm, intensity } }) => ({
      low_percm,
      high_percm,
      mostShare: MOST_SHARE[intensity],
    })),
  );

const wordsOf = ({ name, facts }: NamedFacts): string[] => [name, facts?.smiles ?? ''];

/**
 * Elements that the sample can hold: of the product and of all that went in; H and O besides, for
 * water and what air does. Undefined where a structure is missing: then nothing is ruled out.
 */
function elementsHere(question: InfraredQuestion): readonly string[] | undefined {
  const { product, startingMaterials, reagents, solvents } = question;
  const all = [product, ...startingMaterials, ...reagents, ...solvents].filter(
    (one) => one !== undefined,
  );
  if (product === undefined || all.some(({ facts }) => facts === undefined)) return undefined;
  const symbols = elementsOf(all.flatMap(({ facts }) => facts ?? []));
  return symbols === undefined ? undefined : [...new Set([...symbols, 'H', 'O'])];
}

function residualOf(
  question: InfraredQuestion,
  context: TraceContext,
  bands: readonly BandJudgement[],
): ResidualEstimate | undefined {
  const { reference, startingMaterials, product, spectrum } = question;
  const first = startingMaterials[0];
  if (first === undefined) return undefined;
  if (reference?.startingMaterial !== undefined && reference.product !== undefined)
    return residualFromReferences(
      spectrum,
      reference.startingMaterial,
      reference.product,
      first.name,
    );
  const facts = product?.facts;
  if (facts === undefined) return undefined;
  const estimate = startingMaterials
    .flatMap((one) =>
      one.facts === undefined ? [] : (residualFromBand(context, one.facts, facts, one.name) ?? []),
    )
    .sort((a, b) => Number(b.kind === 'measured') - Number(a.kind === 'measured'))[0];
  const own = ownBands(bands, startingMaterials, context.state);
  const noneSeen = own.length > 0 && own.every(({ verdict }) => verdict === 'absent');
  return estimate?.kind === 'measured' && noneSeen ? asItself(estimate, product!.name) : estimate;
}

function qualityWords(quality: Quality, { stateIsKnown }: TraceContext): readonly string[] {
  const { saturated, tooWeak, fringes, carbonDioxide, waterVapour } = quality;
  const places = saturated.map(([from, to]) => `${Math.round(from)}–${Math.round(to)}`).join(', ');
  return [
    ...(tooWeak ? ['The bands are very weak: too little sample, or a poor contact.'] : []),
    ...(saturated.length > 0
      ? [`Too strong to be measured: ${places} cm⁻¹. A thinner sample shows more.`]
      : []),
    ...(fringes === undefined
      ? []
      : ['Waves run along the baseline: interference in a film or a cell.']),
    ...(carbonDioxide === undefined
      ? []
      : ['CO₂ of the air shows near 2350 cm⁻¹. It is not of the sample.']),
    ...(waterVapour === undefined ? [] : ['Lines of water vapour run over 1350–1900 cm⁻¹.']),
    ...(stateIsKnown
      ? []
      : ['How the sample was measured is not said: liquid film, disc, mull, ATR or gas.']),
  ];
}
