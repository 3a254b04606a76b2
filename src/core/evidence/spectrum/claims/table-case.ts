import type { StructureFacts } from '../../structure.ts';
import type { InfraredSpectrum, SampleState } from '../infrared.ts';
import type { ExpectedBand, IrBand } from '../judge/bands.ts';
import { bandsFor, irBands } from '../judge/bands.ts';
import type { TraceContext } from '../judge/context.ts';
import { contextOf } from '../judge/context.ts';
import type { BandEvidence, GroupJudgement, JudgedGroup } from '../judge/group-judgement.ts';
import type { InfraredJudgement } from '../judge/judge.ts';
import { heightAt } from '../judge/maxima.ts';
import { elementsOf } from '../judge/structure-groups.ts';
import type { BandClaim } from '../schema.ts';
import type { Peak } from '../treat/peaks.ts';
import type { Quality } from '../treat/quality.ts';
import { spectrumPeaks } from '../treat/spectrum-peaks.ts';
import type { GroupReading } from './read-group.ts';
import { plainText, readGroup } from './read-group.ts';
import type { Sight } from './sight.ts';
import { sightOf } from './sight.ts';

/** A line of the table with what its words mean and what the trace has there. */
export interface ClaimCase {
  readonly index: number;
  readonly claim: BandClaim;
  readonly low_percm: number;
  readonly high_percm: number;
  readonly reading: GroupReading;
  readonly sight: Sight;
  /** Shape in the person's words, as plain text. */
  readonly shape: string;
}

/** The whole table beside the trace and the structures: what every rule is asked with. */
export interface TableCase {
  readonly spectrum: InfraredSpectrum;
  readonly quality: Quality;
  readonly context: TraceContext;
  readonly peaks: readonly Peak[];
  readonly judgement: InfraredJudgement;
  readonly product: StructureFacts | undefined;
  readonly startingMaterials: readonly StructureFacts[];
  /** Every row of the band table that holds in this state. */
  readonly rows: readonly IrBand[];
  /** Those that the product should or may show; undefined where its structure is not known. */
  readonly productRows: readonly IrBand[] | undefined;
  /** Symbols that the substances of the experiment hold, H and O added; undefined: not known. */
  readonly elements: ReadonlySet<string> | undefined;
  readonly conclusion: string;
  readonly claims: readonly ClaimCase[];
}

export interface TableQuestion {
  readonly spectrum: InfraredSpectrum;
  readonly claims: readonly BandClaim[];
  readonly product?: StructureFacts;
  readonly startingMaterials: readonly StructureFacts[];
  readonly judgement: InfraredJudgement;
  readonly conclusion?: string;
}

/** A share of the highest band; weaker ones are in every table, ring overtones for one. */
const LEAST_SHARE = 0.004;
const LEAST_NOISE = 7;

export function tableCaseOf(question: TableQuestion, quality: Quality): TableCase {
  const { spectrum, product, startingMaterials, judgement, conclusion } = question;
  const least = Math.max(LEAST_SHARE * quality.highest, LEAST_NOISE * quality.noise);
  const elements = elementsHere(product, startingMaterials);
  const context = contextOf(spectrum, elements === undefined ? {} : { elements: [...elements] });
  const rows = everyRow(context.state);
  const bare = {
    spectrum,
    quality,
    context,
    peaks: spectrumPeaks(spectrum, quality, least),
    judgement,
    product,
    startingMaterials,
    rows,
    productRows: product === undefined ? undefined : rowsFor(product, context.state),
    elements,
    conclusion: conclusion ?? '',
  };
  return { ...bare, claims: question.claims.map((claim, i) => caseOf(bare, claim, i)) };
}

function caseOf(table: Omit<TableCase, 'claims'>, claim: BandClaim, index: number): ClaimCase {
  const [a, b] = [claim.position_percm, claim.high_percm ?? claim.position_percm];
  const [low_percm, high_percm] = [Math.min(a, b), Math.max(a, b)];
  const reading = readGroup(claim.group);
  const shape = plainText(claim.shape ?? '');
  const named = (rows: readonly IrBand[]): readonly IrBand[] =>
    reading.kind === 'read' ? rows.filter(({ id }) => reading.bandIds.has(id)) : [];
  const ofProduct = named(table.productRows ?? []);
  const rows = ofProduct.length > 0 ? ofProduct : named(table.rows);
  const sight = sightOf(table, { low_percm, high_percm, rows, shape });
  return { index, claim, low_percm, high_percm, reading, sight, shape };
}

const rowsFor = (facts: StructureFacts, state: SampleState): readonly IrBand[] =>
  bandsFor(facts, state).map(({ band }) => band);

/** A structure that has every group, each on atoms of its own, so that no row gives way to another. */
function everyRow(state: SampleState): readonly IrBand[] {
  const patterns = [...new Set(irBands().map(({ pattern }) => pattern))];
  const matches = Object.fromEntries(patterns.map((pattern, i) => [pattern, [[i]]]));
  return bandsFor({ smiles: '', matches }, state).map(({ band }: ExpectedBand) => band);
}

function elementsHere(
  product: StructureFacts | undefined,
  startingMaterials: readonly StructureFacts[],
): ReadonlySet<string> | undefined {
  if (product === undefined) return undefined;
  const symbols = elementsOf([product, ...startingMaterials]);
  return symbols === undefined ? undefined : new Set([...symbols, 'H', 'O']);
}

export const startingRows = (table: TableCase): readonly (readonly IrBand[])[] =>
  table.startingMaterials.map((facts) => rowsFor(facts, table.context.state));

/** How far a written position may lie outside a window and still count as in it. */
export const slackOf = ({ spectrum }: { readonly spectrum: InfraredSpectrum }): number =>
  3 + 2 * spectrum.positionU_percm;

/** Does a row's window reach the place or the stretch of a claim? */
export function reaches(
  band: IrBand,
  { low_percm, high_percm }: { readonly low_percm: number; readonly high_percm: number },
  slack_percm: number,
): boolean {
  return band.low_percm - slack_percm <= high_percm && band.high_percm + slack_percm >= low_percm;
}

export const groupOf = (table: TableCase, group: JudgedGroup): GroupJudgement =>
  table.judgement.groups.find((one) => one.group === group)!;

type Measured = Pick<Peak, 'position_percm' | 'width_percm'>;

export function seenAs(
  { context }: Pick<TableCase, 'context'>,
  what: string,
  { position_percm, width_percm }: Measured,
): BandEvidence {
  const height = heightAt(context.view, position_percm);
  return {
    what,
    position_percm: Math.round(position_percm * 10) / 10,
    height: Number.isNaN(height) ? 0 : height,
    share: shareAt({ context }, position_percm),
    width_percm: Math.round(width_percm),
  };
}

/** Height beside the tallest band of the trace, 0 outside the record. */
export function shareAt({ context }: Pick<TableCase, 'context'>, position_percm: number): number {
  const height = heightAt(context.view, position_percm);
  return Number.isNaN(height) ? 0 : height / context.view.tallest;
}
