/** What is no band of the substance. */
export type Foreign =
  'water' | 'carbonDioxide' | 'overtone' | 'solvent' | 'oil' | 'startingMaterial';

export const FOREIGN_WORDS: readonly (readonly [Foreign, RegExp])[] = [
  ['carbonDioxide', /\bco2\b(?!-)|carbon dioxide|atmospheric co/],
  ['water', /\bwater\b|\bh2o\b|\bmoisture\b|\bwet\b/],
  ['oil', /\bnujol\b|\bmineral oil\b|\bparaffin oil\b|\bgrease\b|\bmull\b/],
  [
    'solvent',
    /\bsolvents?\b|\b(?:residual|leftover|left-over|trace of|traces of) (?:acetone|ethanol|methanol|(?:diethyl )?ether|dichloromethane|chloroform|ethyl acetate|toluene|hexanes?)\b|\bacetone\b/,
  ],
  ['startingMaterial', /starting material|unreacted|\bs\.?m\.?\b|\breactant\b|residual/],
  ['overtone', /overtones?|combinations?(?: bands?)?|harmonics?/],
];

/** "No C=O at 1715": the claim that a band is not there. */
export const ABSENCE =
  /\bno\b(?!2)|\bnot\b|\babsen(?:t|ce)\b|\bgone\b|\bmissing\b|\blost\b|\bloss\b|disappear|\bwithout\b|\black(?:s|ing)?\b|consumed|\bvanish/;
export const STRETCHING = /stretch|\bstr\b|\bnu\b|\bn\(|\bv\(/;
export const BENDING =
  /\bbend|scissor|deform|\bwag|\brock|twist|\boop\b|out[- ]of[- ]plane|in[- ]plane|\bdelta\b|\bd ?\(|umbrella/;
