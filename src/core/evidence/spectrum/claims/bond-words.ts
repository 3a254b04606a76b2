/** The bonds that a table of assignments speaks of. */
export const BONDS = [
  'overtone',
  'no2',
  's=o',
  'p=o',
  'si-o',
  'c#n',
  'c#c-h',
  'c#c',
  'cumulated',
  'c=o',
  'c=n',
  'c=s',
  'c=c',
  'ring',
  'oop',
  'c-o',
  'co',
  'n-h',
  'c-cl',
  'c-br',
  'c-i',
  'c-f',
  'c-x',
  'c-s',
  'c-n',
  'cn',
  'o-h',
  's-h',
  'p-h',
  'si-h',
  'b-h',
  'alkyl-ch',
  'unsaturated-ch',
  'aldehyde-ch',
  'c-h',
  'c-c',
] as const;

export type Bond = (typeof BONDS)[number];

/** A bond as it is written, and the vibrations of data/ir-bands.csv that may be meant by it. */
export interface BondWords {
  readonly bond: Bond;
  readonly words: RegExp;
  readonly stretch: readonly string[];
  readonly bend: readonly string[];
  /** Only rows of these patterns, where the words narrow it. */
  readonly patterns?: RegExp;
}

const ALKYL =
  /^(?:alkyl-ch|methyl|methylene|methoxy|n-methyl|amine-tertiary-alkyl|cyclopropane-ch|epoxide-ch|halo-ch|trihalo-ch|gem-dimethyl|tert-butyl|long-chain|sulfur-methyl|silyl-methyl)/;
const UNSATURATED =
  /^(?:alkene|aryl-ch|aldehyde-ch|formyl-ch|benzene|naphthalene|pyridine|furan|thiophene|indole)/;

const CH_STRETCH = ['C–H stretch', 'C–H stretch beside N'];
const CH_BEND = [
  'C–H in-plane bend',
  'C–H bend',
  'CH₃ symmetric bend',
  'CH₃ asymmetric bend',
  'CH₂ scissor',
  'CH₂ wag and twist',
  'CH₃ bend',
  'Si–CH₃ bend',
  'Si–CH₃ rock',
  'CH₂ rock',
];
const OUT_OF_PLANE = [
  '=C–H out-of-plane',
  'Ring C–H out-of-plane',
  'Lone ring C–H out-of-plane',
  'Ring pucker',
];
const RING = [
  'Ring stretch near 1600',
  'Ring stretch near 1580',
  'Ring stretch near 1500',
  'Ring stretch near 1450',
  'Ring stretch',
  'Ring breathing',
  'Ring C–H in-plane bends',
];
const CARBON_OXYGEN = [
  'C–O stretch',
  'C–C–O stretch',
  'C–O–C stretch',
  'C–C(=O)–O stretch',
  'O–C–C stretch',
  'C–O–C–O–C stretch',
  'C–O–C–O stretch',
];
const TRIPLE_CN = ['C≡N stretch', 'N≡C stretch'];
const SINGLE_CN = ['C–N stretch', 'C=S and C–N stretch', 'Amide III'];

/** One pattern that finds any of these. */
const anyOf = (...parts: readonly RegExp[]): RegExp =>
  new RegExp(parts.map(({ source }) => source).join('|'), 'g');

const only = (bond: Bond, words: RegExp, ...stretch: string[]): BondWords => ({
  bond,
  words,
  stretch,
  bend: [],
});

/**
 * In the order in which they are looked for; what one has taken the next does not see, so "C–O–H"
 * is no O–H. Text is in lower case, dashes are hyphens, "≡" is "#".
 */
export const BOND_WORDS: readonly BondWords[] = [
  {
    bond: 'overtone',
    words: /overtones?|combinations?(?: bands?)?|harmonics?/g,
    stretch: ['Overtones of ring C–H', 'Amide II overtone'],
    bend: [],
  },
  only(
    'no2',
    /\bn-?o2\b|\bn[-=]o\b|\bnitro(?:so)?\b/g,
    'NO₂ stretch',
    'N=O stretch',
    'N–O stretch',
  ),
  only(
    's=o',
    /\bs ?[=-] ?o\b|\bso2\b|\bo=s=o\b|sul(?:f|ph)on(?:yl|e)|sul(?:f|ph)oxide/g,
    'S=O stretch',
    'SO₂ stretch',
    'SO₄²⁻ stretch',
  ),
  only('p=o', /\bp ?[=-] ?o(?:-c)?\b|phosphoryl/g, 'P=O stretch', 'P–O–C stretch'),
  only(
    'si-o',
    /\bsi-?o(?:-?(?:c|si))?\b|siloxane/g,
    'Si–O stretch',
    'Si–O–C stretch',
    'Si–O–Si stretch',
  ),
  {
    bond: 'c#c-h',
    words: /(?:c ?)?# ?c ?- ?h\b|\bsp\b c-?h|\bc-?h,? \(?sp\b(?! ?[23])|alkynyl c-?h|alkyne c-?h/g,
    stretch: ['C–H stretch'],
    bend: ['C–H bend'],
    patterns: /^alkyne-ch/,
  },
  only('c#n', /c ?# ?n\b|\bnitriles?\b|\bcyano\b|\bisonitriles?\b/g, ...TRIPLE_CN),
  only('c#c', /c ?# ?c\b|\balkyn(?:e|yl)s?\b|acetylen(?:e|ic)/g, 'C≡C stretch'),
  only(
    'cumulated',
    /\bn=c=[os]\b|\bc=c=[oc]\b|isothiocyanate|isocyanate|ketene|allene|\bn3\b|azide/g,
    'N=C=O stretch',
    'N=C=S stretch',
    'C=C=O stretch',
    'C=C=C stretch',
    'N=C=N stretch',
  ),
  only(
    'c=o',
    /c ?= ?o\b|\bcarbonyls?\b|\bamide i\b|\bco2-|\bcoo-(?!\w)/g,
    'C=O stretch',
    'C=O stretch of the enol',
    'CO₂⁻ stretch',
  ),
  only('c=n', /c ?= ?n\b|\bimines?\b|\boximes?\b/g, 'C=N stretch'),
  only('c=s', /c ?= ?s\b/g, 'C=S stretch', 'C=S and C–N stretch'),
  {
    bond: 'aldehyde-ch',
    words: anyOf(
      /\b(?:aldehyd(?:e|ic)|formyl) c-?h\b/,
      /\bc-?h,? \(?(?:sp ?2,? )?(?:stretch(?:ing)?,? )?\(?(?:of )?(?:an )?(?:aldehyd(?:e|ic)|cho|formyl)\b/,
      /\bc-?h\), aldehyde/,
      /\bo=c-h\b/,
      /\bcho\b/,
      /\bh-c=o\b/,
    ),
    stretch: ['C–H stretch'],
    bend: ['C–H in-plane bend'],
    patterns: /^(?:aldehyde|formyl)-ch/,
  },
  {
    bond: 'unsaturated-ch',
    words: anyOf(
      /= ?c ?- ?h\b/,
      /=ch2?\b/,
      /\bsp ?2\b(?:[ -]hybridi[sz]ed)? c-?h/,
      /\bc-?h,? ?\(?(?:\w+ )?sp ?2\b/,
      /\b(?:aromatic|aryl|arene|alkene|vinyl(?:ic)?|olefinic|ar(?:yl)?|ring) ?-?c?-h\b/,
      /\b(?:aromatic|aryl|arene|alkene|vinyl(?:ic)?|olefinic) ch\b/,
      /\bar-?h\b/,
      /\bc-?h,? \(?(?:stretch(?:ing)?,? )?\(?(?:aromatic|aryl|arene|alkene|vinyl(?:ic)?|olefinic)\b/,
      /\bc\(sp2\)-h\b/,
    ),
    stretch: ['C–H stretch'],
    bend: [...OUT_OF_PLANE, 'Ring C–H in-plane bends'],
    patterns: UNSATURATED,
  },
  only(
    'c=c',
    /c ?= ?c\b/g,
    'C=C stretch',
    'C=C stretch beside C=O',
    ...RING.filter((name) => name !== 'Ring C–H in-plane bends'),
  ),
  {
    bond: 'oop',
    words: /\boop\b|out[- ]of[- ]plane/g,
    stretch: OUT_OF_PLANE,
    bend: [...OUT_OF_PLANE, 'O–H out-of-plane', 'N–H out-of-plane'],
  },
  only('c-o', /\bc-?o-?(?:h|c|r)\b|\bc-o\b|\bc-c-o\b|\bo-c-o\b/g, ...CARBON_OXYGEN),
  only('co', /\bco\b/g, 'C=O stretch', ...CARBON_OXYGEN),
  {
    bond: 'n-h',
    words: /\bn-?h ?[234]?\b\+?|\bamide ii\b/g,
    stretch: ['N–H stretch', 'Amide II overtone'],
    bend: ['N–H scissor', 'N–H bend', 'N–H wag', 'N–H out-of-plane', 'Amide II'],
  },
  only('c-cl', /\bc-?cl\b/g, 'C–Cl stretch'),
  only('c-br', /\bc-?br\b/g, 'C–Br stretch'),
  only('c-i', /\bc-i\b/g, 'C–I stretch'),
  only('c-f', /\bc-?f3?\b/g, 'C–F stretch'),
  only('c-x', /\bc-x\b|\bcarbon-halogen\b/g, 'C–Cl stretch', 'C–Br stretch', 'C–I stretch'),
  only('c-s', /\bc-s\b/g, 'C–S stretch'),
  only('c-n', /\bc-n\b/g, ...SINGLE_CN),
  only('cn', /\bcn\b/g, ...TRIPLE_CN, ...SINGLE_CN),
  {
    bond: 'o-h',
    words: /\bo ?- ?h\b|\boh\b|\bhydroxyls?\b|\bhydroxy\b/g,
    stretch: ['O–H stretch'],
    bend: ['O–H in-plane bend', 'O–H out-of-plane', 'H–O–H bend'],
  },
  only('s-h', /\bs-?h\b|\bthiols?\b|mercaptan/g, 'S–H stretch'),
  only('p-h', /\bp-h\b/g, 'P–H stretch'),
  only('si-h', /\bsi-?h\b/g, 'Si–H stretch'),
  only('b-h', /\bb-h\b/g, 'B–H stretch'),
  {
    bond: 'alkyl-ch',
    words: anyOf(
      /\bsp ?3\b(?:[ -]hybridi[sz]ed)? c-?h\b/,
      /\bc-?h,? ?\(?(?:\w+,? )?\(?sp ?3\b/,
      /\b(?:alkane|alkyl|aliphatic|saturated|paraffinic) c?-?h\b/,
      /\bc-?h,? \(?(?:stretch(?:ing)?,? )?\(?(?:of )?(?:an )?(?:alkanes?|alkyl|aliphatic|saturated)\b/,
      /\bch[23]\b/,
      /\bmethyl(?:ene)?s?\b(?! (?:ketone|ester|ether|amine|alcohol|acetate))/,
      /\bc\(sp3\)-h\b/,
      /\balkanes?\b/,
    ),
    stretch: CH_STRETCH,
    bend: CH_BEND,
    patterns: ALKYL,
  },
  {
    bond: 'c-h',
    words: /\bc-?h\b/g,
    stretch: CH_STRETCH,
    bend: [...CH_BEND, ...OUT_OF_PLANE, 'Ring C–H in-plane bends'],
  },
  {
    bond: 'c-c',
    words: /\bc-c\b(?!=)|\bc-c-c\b|skeletal/g,
    stretch: ['C–C stretch', 'C–C(=O)–C stretch'],
    bend: [],
  },
];

/** A bare "aromatic C–C" or "ring" means the stretches of the ring. */
export const RING_VIBRATIONS = RING;
