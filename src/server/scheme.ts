import type { ReactionDeclaration, ReactionTerm } from '../core/experiment/step.ts';
import { formatQuantity } from '../core/quantity/print.ts';
import { theoryReport } from '../core/report/theory/theory.ts';
import type { TheoryReport } from '../core/report/theory/theory.ts';
import type { SchemePart, StructureKit } from '../structures/port.ts';
import { planOf } from './plan.ts';

const DIGITS = 3;
const GAP_px = 24;
const MAX_WIDTH_px = 640;
/** More than any procedure has; each is a drawing of its own. */
const MOST_REACTIONS = 12;

/** A drawing says more than a formula from two carbons on; methanol and NaBH4 are written. */
const isDrawn = ({ substance: { smiles, composition } }: ReactionTerm): boolean =>
  smiles !== undefined && (composition?.counts.get('C') ?? 0) >= 2;

function partOf(term: ReactionTerm, amount: string | undefined): SchemePart {
  const { coefficient, name, substance } = term;
  const caption = [isDrawn(term) ? name : undefined, amount].filter(Boolean).join(', ');
  return {
    ...(isDrawn(term) ? { smiles: substance.smiles! } : { text: name }),
    ...(caption !== '' && { caption }),
    ...(coefficient !== 1 && { coefficient }),
  };
}

/** Under each reactant what there is of it, under each product what it comes to in theory. */
function partsOf(reaction: ReactionDeclaration, theory: TheoryReport) {
  const ofReaction = theory.reactions.find((each) => each.reaction === reaction.id);
  const taken = ({ substance }: ReactionTerm): string | undefined => {
    const amount = ofReaction?.reactants.find((each) => each.substance === substance.id);
    if (amount === undefined) return undefined;
    if (amount.amount_mmol === null) return 'excess';
    return amount.amount_mmol > 0
      ? formatQuantity(amount.amount_mmol, 'amount', DIGITS)
      : undefined;
  };
  const formed = ({ substance }: ReactionTerm): string | undefined => {
    const product = theory.products.find((each) => each.substance === substance.id);
    if (product?.role !== 'product' || product.mass_g === null || product.mass_g <= 0)
      return undefined;
    return `${formatQuantity(product.mass_g, 'mass', DIGITS)} in theory`;
  };
  return {
    reactants: reaction.reactants.map((term) => partOf(term, taken(term))),
    products: reaction.products.map((term) => partOf(term, formed(term))),
  };
}

interface Sized {
  readonly svg: string;
  readonly width: number;
  readonly height: number;
}

function sized(svg: string): Sized {
  const [, width = '0', height = '0'] = /width="([\d.]+)" height="([\d.]+)"/.exec(svg) ?? [];
  return { svg, width: Number(width), height: Number(height) };
}

/** One picture below the other, each keeping its own words for a screen reader. */
function below(pictures: readonly Sized[]): string {
  const width = Math.max(...pictures.map((each) => each.width));
  const height = pictures.reduce((sum, each) => sum + each.height + GAP_px, -GAP_px);
  let y = 0;
  const placed = pictures.map((picture) => {
    const at = y;
    y += picture.height + GAP_px;
    return picture.svg.replace('<svg ', `<svg x="0" y="${at}" `);
  });
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">${placed.join('')}</svg>`;
}

/**
 * The declared reactions of a document, drawn, with the amounts of its plan. null where it declares
 * none, or none that can be drawn.
 */
export function schemeOf(text: string, dark: boolean, kit: StructureKit): string | null {
  const { experiment, plan } = planOf(text);
  const theory = theoryReport(experiment, plan);
  const pictures = experiment.reactions.slice(0, MOST_REACTIONS).flatMap((reaction) => {
    const { reactants, products } = partsOf(reaction, theory);
    const drawn = kit.schemeDrawing(
      reactants,
      products,
      { above: [], below: [] },
      { dark, maxWidth: MAX_WIDTH_px, label: reaction.text },
    );
    return drawn.ok ? [sized(drawn.svg)] : [];
  });
  if (pictures.length === 0) return null;
  return pictures.length === 1 ? pictures[0]!.svg : below(pictures);
}
