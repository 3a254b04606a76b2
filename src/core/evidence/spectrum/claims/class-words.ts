/** Patterns of aromatic rings. */
export const RING_PATTERNS =
  /^(?:benzene|aryl|naphthalene|pyridine|quinoline|furan|thiophene|pyrrole|indole|imidazole|pyrazole|pyrimidine|thiazole)/;

/** A class of compounds as it is written, and the patterns of data/structure_patterns.csv for it. */
export interface ClassWords {
  readonly name: string;
  readonly words: RegExp;
  readonly patterns: RegExp;
}

const kind = (name: string, words: RegExp, patterns: RegExp): ClassWords => ({
  name,
  words,
  patterns,
});

/** In the order in which they are looked for, as above: "acid chloride" is no acid. */
export const CLASS_WORDS: readonly ClassWords[] = [
  kind(
    'acyl halide',
    /(?:acid|acyl|acetyl|benzoyl) (?:chloride|bromide|halide)s?/g,
    /^(?:acyl-(?:ch|br)|chloroform)/,
  ),
  kind('anhydride', /(?:acid )?anhydrides?/g, /^anhydride/),
  kind('carboxylate', /carboxylates?|\bco2-|\bcoo-(?!\w)/g, /^(?:carboxylate|amino-acid)/),
  kind(
    'carboxylic acid',
    /carboxylic(?: acids?)?|\bcoo-?h\b|\bco2h\b|\bacids?\b/g,
    /^(?:acid\b|amino-acid)/,
  ),
  kind('ketone', /\bketones?\b|\bketo\b|\benones?\b/g, /^(?:ketone|quinone)/),
  kind('aldehyde', /\baldehyd(?:e|ic)s?\b|\benals?\b|\bcho\b/g, /^aldehyde/),
  kind('lactone', /\blactones?\b/g, /^lactone/),
  kind(
    'ester',
    /\besters?\b|\bacetates?\b|\bbenzoates?\b|\bcoor\b|\bco2r\b/g,
    /^(?:ester|acetate|formate|lactone|carbonate)/,
  ),
  kind(
    'amide',
    /\bamides?\b|\banilides?\b|\blactams?\b|\bimides?\b/g,
    /^(?:amide|anilide|lactam|imide|urea|carbamate)/,
  ),
  kind('amine', /\bamines?\b|\bamino\b|\banilines?\b/g, /^(?:amine|aniline|ammonium|enamine)/),
  kind('phenol', /\bphenol(?:ic)?s?\b/g, /^phenol/),
  kind('alcohol', /\balcohols?\b|\balcoholic\b|\bdiols?\b/g, /^(?:alcohol|phenol)/),
  kind(
    'ether',
    /\bethers?\b|\bepoxides?\b|\bacetals?\b|\bketals?\b/g,
    /^(?:ether|epoxide|acetal|methylenedioxy|silyl-ether)/,
  ),
  kind('nitro compound', /\bnitro\b/g, /^nitro/),
  kind('nitrile', /\bnitriles?\b|\bcyano\b/g, /^(?:nitrile|cyanamide)/),
  kind('alkyne', /\balkyn(?:e|yl)s?\b|acetylen(?:e|ic)/g, /^alkyne/),
  kind(
    '1,1-disubstituted alkene',
    /1,1-?(?:di)?-?subst\w*\.? alkenes?|\bvinylidenes?\b/g,
    /^alkene-vinylidene/,
  ),
  kind('trans alkene', /\btrans[- ]?(?:alkenes?|c=c)?|\(e\)-?alkene/g, /^alkene-(?:trans|1,2)/),
  kind('cis alkene', /\bcis[- ]?(?:alkenes?|c=c)?|\(z\)-?alkene/g, /^alkene-(?:cis|1,2|ring)/),
  kind(
    'alkene',
    /\balkenes?\b|\balkenyl\b|\bolefin(?:s|ic)?\b|\bvinyl(?:ic)?\b/g,
    /^(?:alkene|enol-ether|enamine|nitroalkene|ketone-enone)/,
  ),
  kind('monosubstituted ring', /\bmono-? ?(?:di)?-?subst\w*\.?/g, /^benzene-mono/),
  kind('1,2-disubstituted ring', /\bortho-?\b|\b1,2-(?:di)?-?subst\w*\.?/g, /^benzene-1,2$/),
  kind('1,3-disubstituted ring', /\bmeta-?\b|\b1,3-(?:di)?-?subst\w*\.?/g, /^benzene-1,3(?:$|-)/),
  kind('1,4-disubstituted ring', /\bpara-?\b|\b1,4-(?:di)?-?subst\w*\.?/g, /^benzene-1,4/),
  kind(
    'aromatic ring',
    /\baromatics?\b|\barenes?\b|\baryl\b|\bbenzen(?:e|oid)\b|\bphenyl\b|\bring\b|\bar\b/g,
    RING_PATTERNS,
  ),
];
