import { readAmountAt } from '../../quantity/amount.ts';
import type { Portion } from '../step.ts';
import type { Vocabulary } from './vocabulary.ts';

/** What a phrase for the contents of a vessel can mean; the running context says which vessel it is. */
export type Role =
  | 'mixture'
  | 'solid'
  | 'product'
  | 'filtrate'
  | 'motherLiquor'
  | 'organic'
  | 'aqueous'
  | 'upper'
  | 'lower'
  | 'extracts'
  | 'washings'
  | 'dryingAgent'
  | 'solvent'
  /** it, them: what the last sentence left in hand. */
  | 'it'
  /** What stayed behind where a part was taken: "add the rest". */
  | 'rest'
  | 'distillate'
  | 'residue';

/** A reference before it is resolved. */
export interface RawRef {
  readonly role?: Role;
  readonly vesselPhrase?: string;
  /** A material by its name: "the zinc", wherever it was put last. */
  readonly named?: string;
  /** A word that tells it from other mixtures: "the dichromate solution". */
  readonly noun?: string;
  readonly portion: Portion;
  /** "the combined organic layers": several things. */
  readonly plural: boolean;
  readonly text: string;
}

const ROLES: readonly (readonly [RegExp, Role])[] = [
  [
    /^((combined|dried|crude|wet|filtered|washed|pooled|lower|upper|top|bottom|cold|cooled|clear|remaining) )*(organic|ether|ethereal|etheric|ethyl acetate|benzene|xylene|ester|dichloromethane|dcm|chloroform|toluene|hexane|pentane|heptane|mtbe|petrol|petroleum ether|cyclohexane|product|diethyl ether)( \w+)? ?(layers?|phases?|solutions?)$/,
    'organic',
  ],
  [
    /^((combined|acidic|acidified|basic|alkaline|remaining|pooled|cold|spent|lower|upper|top|bottom|cooled|clear|neutralised|neutralized|extracted|second|first) )*(aqueous|water|acid|acidic|alkaline|basic|base|bicarbonate|brine|hydroxide|salt)( \w+)? ?(layers?|phases?|solutions?|extracts?|portions?)$/,
    'aqueous',
  ],
  [
    /^((combined|dried|pooled|washed|crude|filtered) )*(organic|ether|ethereal|dichloromethane|ethyl acetate|chloroform|toluene|hexane|mtbe|diethyl ether)? ?extracts?$/,
    'extracts',
  ],
  [/^(dried|filtered|decanted) (solution|liquid|ester|extract|layer|ether)$/, 'organic'],
  [/^(combined )?organics$/, 'organic'],
  [/^(rest|remainder)$/, 'rest'],
  [/^(upper|top)( \w+)? ?(layers?|phases?)?$/, 'upper'],
  [/^(lower|bottom)( \w+)? ?(layers?|phases?)?$/, 'lower'],
  [
    /^(clear |hot |cold |dried |combined |yellow |colou?rless |ethereal |organic |aqueous )*filtrates?$/,
    'filtrate',
  ],
  [/^mother ?liquors?$/, 'motherLiquor'],
  [
    /^((bulk|most|last|excess|remaining|residual|organic|volatile|rest) (of the )?)*(solvents?|volatiles?)$/,
    'solvent',
  ],
  [
    /^((spent|used|wet|hydrated|anhydrous|solid) )*(drying agent|desiccant|(magnesium|sodium|calcium) (sulfate|sulphate|chloride)( cake| residue)?)$/,
    'dryingAgent',
  ],
  [/^(combined |aqueous )*(washings?|rinsings?)$/, 'washings'],
  [/^(combined |crude |wet )*(distillates?|fractions?|forerun)$/, 'distillate'],
  [/^(oily |solid |crude |dark |remaining |viscous )*residues?$/, 'residue'],
  [
    /^((dry|dried|crude|pure|purified|wet|moist|damp|air-dried|first|second|recrystalli[sz]ed|isolated|solid|crystalline|final|clean|weighed) )*(products?|sublimate|adduct)$/,
    'product',
  ],
  [/^(purified|recrystalli[sz]ed|dry|dried|pure) (crystals|solid|material)$/, 'product'],
  [
    /^((dry|dried|crude|wet|moist|damp|white|yellow|orange|colou?rless|pale|purple|blue|green|red|brown|fine|remaining|collected|resulting|precipitated|air-dried|whole|hot|cold|cooled|spent|unreacted|excess|undissolved|insoluble|fluffy) )*(solids?|crystals|crystalline (product|solid|mass)|precipitates?|filter cake|cake|powder|metal|needles|plates|crude|salts?|lumps?|material|catalyst|flakes|pieces|sludge|pad|paste|tar|mass of crystals|lump|cakes|product cake|matter|impurities|impurity)$/,
    'solid',
  ],
  [
    /^((whole|entire|cooled|cold|hot|warm|cool|resulting|reaction|clear|two-phase|biphasic|green|yellow|orange|red|brown|pale|dark|blue|purple|grey|gray|white|stirred|diluted|dilute|quenched|acidified|acidic|neutralised|neutralized|basified|alkaline|homogeneous|heterogeneous|milky|turbid|cloudy|boiling|refluxing|ethanolic|methanolic|alcoholic|strongly|thick|oily|grignard|crude) )*(reaction mixture|mixture|solution|suspension|slurry|contents|reaction|emulsion|melt|paste|reagents?|liquid|oil|syrup|liquids?|layers|two layers|two solutions|two liquids|phases|mass|batch|brew|mush|apparatus|reactants?|ylide|broth|charge|tea|infusion|liquor|dye ?bath)( in it)?$/,
    'mixture',
  ],
];

const DETERMINER =
  /^((?:the|these|those|your|all) (?:two|three|four)|the|all of the|all the|all|this|that|these|those|your|its|a|an|any|each|both|whole of the|entire)\s+/;

const FRACTIONS: Record<string, number> = {
  half: 1 / 2,
  'one half': 1 / 2,
  'a third': 1 / 3,
  'one third': 1 / 3,
  'two thirds': 2 / 3,
  'a quarter': 1 / 4,
  'one quarter': 1 / 4,
  'three quarters': 3 / 4,
  'a tenth': 1 / 10,
  'one tenth': 1 / 10,
  'a fifth': 1 / 5,
  'the rest': 1,
  'the remainder': 1,
  most: 0.9,
};

/** Reads "half of the filtrate", "the upper layer", "5 mL of the solution", "the flask". */
export function readReference(text: string, vocabulary: Vocabulary): RawRef | undefined {
  let rest = text.trim().replace(/[,:]$/, '');
  if (rest === '' || rest.length > 120 || /\b(?:is|are|was|were)\b/i.test(rest)) return undefined;
  let portion: Portion = { kind: 'all' };
  const fraction =
    /^((?:one |two |three |a |the )?(?:half|third|thirds|quarter|quarters|tenth|fifth|rest|remainder|most))\s+(?:of\s+)?(?=the\b|this\b|your\b|it\b)/i.exec(
      rest,
    );
  if (fraction) {
    const part = FRACTIONS[fraction[1]!.toLowerCase()];
    if (part === undefined) return undefined;
    if (part < 1) portion = { kind: 'fraction', fraction: part };
    rest = rest.slice(fraction[0].length);
  } else {
    const amount = readAmountAt(rest, 0);
    if (
      amount.kind === 'amount' &&
      (amount.amount.kind === 'volume' || amount.amount.kind === 'mass')
    ) {
      const after = /^\s+(?:portions?\s+)?of\s+(?=the\b|this\b|your\b|distillate\b)/i.exec(
        rest.slice(amount.end),
      );
      if (!after) return undefined;
      portion = { kind: 'amount', amount: amount.amount };
      rest = rest.slice(amount.end + after[0].length);
    }
  }
  return readWhole(rest, portion, vocabulary, text.trim());
}

type Base = Pick<RawRef, 'portion' | 'text'>;

/** "the lower layer of methyl benzoate", "the crystals that separated": what is meant of them. */
function plainWords(text: string, vocabulary: Vocabulary): string {
  return text
    .replace(
      /^((?:[\p{L}-]+ )?(?:layer|phase)) (?:of|containing) (?!the\b)(?:[^\s,]+ ?){1,4}$/u,
      (all, layer: string) => (roleOf(layer, vocabulary) === undefined ? all : layer),
    )
    .replace(
      / (?:that|which) (?:separated|formed|precipitated|crystalli[sz]ed|had (?:separated|formed|precipitated|crystalli[sz]ed))(?: out)?$/,
      '',
    );
}

function readWhole(
  text: string,
  portion: Portion,
  vocabulary: Vocabulary,
  whole: string,
): RawRef | undefined {
  const lower = text.toLowerCase();
  const determined = DETERMINER.test(lower);
  const rest = plainWords(lower.replace(DETERMINER, '').replace(DETERMINER, '').trim(), vocabulary);
  const base = { portion, text: whole };
  if (/^(it|everything|them|this)$/.test(rest)) return { ...base, role: 'it', plural: false };
  const inside = insideVessel(rest, base, vocabulary);
  if (inside) return inside;
  const contents = /^(.+?)(?:'s)? contents$/.exec(rest);
  if (contents && vocabulary.canBeVessel(contents[1]!))
    return { ...base, vesselPhrase: contents[1]!, plural: false };
  const role = roleOf(rest, vocabulary);
  const isName = vocabulary.isVesselName(rest);
  if (vocabulary.canBeVessel(rest) && (role === undefined || isName))
    return { ...base, vesselPhrase: text.trim(), plural: false };
  const plain = /^(contents|layers|combined|(?:reaction )?mixture$)/.test(rest);
  if (role !== undefined && (determined || role !== 'mixture' || plain))
    return { ...base, role, plural: isPlural(rest) };
  return (
    (determined ? namedMaterial(rest, base, vocabulary) : undefined) ??
    describedSolid(rest, base, determined)
  );
}

/** "the solid on the filter", "the aqueous layer in the trap". */
function insideVessel(rest: string, base: Base, vocabulary: Vocabulary): RawRef | undefined {
  const inside = /^(.*?)\s+(?:of|from|in|on|held in|remaining in|left in|inside)\s+(.+)$/.exec(
    rest,
  );
  // "the filtrate in a tared flask" says where it goes, not where it is
  if (!inside || /^an?\s/.test(inside[2]!) || !vocabulary.canBeVessel(inside[2]!)) return undefined;
  const what = inside[1]!;
  const there = { ...base, vesselPhrase: inside[2]! };
  const role = roleOf(what, vocabulary);
  if (role) return { ...there, role, plural: isPlural(what) };
  if (CLASS_NOUN.test(what))
    return { ...there, role: 'product', noun: what.split(' ').at(-1)!, plural: false };
  return vocabulary.knows(what) ? { ...there, named: what, plural: false } : undefined;
}

/** "the zinc", "the crude benzil", "the unreacted zinc": a material by its name. */
function namedMaterial(rest: string, base: Base, { knows }: Vocabulary): RawRef | undefined {
  const named = rest
    .replace(
      /^(?:(?:crude|dry|dried|pure|purified|wet|moist|damp|cold|cooled|molten|sublimed|distilled|recrystalli[sz]ed|precipitated|remaining|unreacted|excess) )+/,
      '',
    )
    .replace(
      /\s+(?:solution|suspension|residues?|powder|dust|turnings|crystals|flakes|pieces)$/,
      '',
    );
  if (knows(rest) || knows(named)) return { ...base, named: rest, plural: false };
  const bare = named.replace(
    /^(?:(?:unreacted|unchanged|undissolved|excess|residual|remaining|precipitated|crude|pure|dry|dried|wet|damp|moist|hot|cold|cooled|free|white|yellow|solid|molten|product) )+/,
    '',
  );
  return bare !== named && knows(bare) ? { ...base, named: bare, plural: false } : undefined;
}

/** "needles of the ester", "the dark crystals", "the ketone", "the dichromate solution". */
function describedSolid(rest: string, base: Base, determined: boolean): RawRef | undefined {
  if (
    /^(?:[\p{L}-]+ ){0,2}(?:crystals|precipitate|needles|plates|powder) of (?:[^\s,]+ ?){1,4}$/u.test(
      rest,
    )
  )
    return { ...base, role: 'solid', plural: false };
  if (!determined) return undefined;
  if (CLASS_NOUN.test(rest))
    return { ...base, role: 'product', noun: rest.split(' ').at(-1)!, plural: false };
  const mixture =
    /^(?:[\p{L}-]+ ){0,2}?(?:cooled |hot |cold |warm |resulting )*([\p{L}-]+) (?:solution|mixture|suspension|liquid|oil|slurry)$/u.exec(
      rest,
    );
  if (mixture) return { ...base, role: 'mixture', noun: mixture[1]!, plural: false };
  const solid =
    /^(?:[\p{L}-]+ ){1,3}(?:crystals|solid|precipitate|powder|needles|plates|cake)$/u.test(rest);
  return solid ? { ...base, role: 'solid', plural: false } : undefined;
}

/** A product called by its class: "the ketone". */
const CLASS_NOUN =
  /^(?:(?:crude|dry|dried|pure|wet|damp|moist|liquid|solid|cold|cooled|tertiary|oily|white|yellow|orange|red|colou?rless|precipitated|free|excess|remaining|residual) )*(?:ketone|alcohol|ester|acid|chloride|bromide|iodide|halide|amine|amide|anilide|aldehyde|alkene|hydrocarbon|nitrile|imine|oxime|phenol|lactone|anhydride|chalcone|enol ether|carbinol|diol|quinone|lactam|sulfonamide|azo dye|dye|hydrazone|base|free base|acetate|benzoate|salt|complex)$/;

function roleOf(text: string, { isProduct }: Vocabulary): Role | undefined {
  const words = text.trim();
  const found = ROLES.find(([pattern]) => pattern.test(words));
  if (found) return found[1];
  const bare = words
    .replace(
      /^(?:(?:crude|dry|dried|pure|purified|wet|recrystallised|recrystallized|solid|isolated|product) )+/,
      '',
    )
    .replace(/ (?:crystals|product|solid)$/, '');
  return isProduct(bare) ? 'product' : undefined;
}

function isPlural(words: string): boolean {
  return (
    /^combined\b/.test(words) ||
    /(layers|phases|extracts|washings|portions|solutions|filtrates|organics)$/.test(words)
  );
}
