/** A whole document, as short as one can be. */
export const EXAMPLE = `# Benzoic acid from sodium benzoate

## Reaction
sodium benzoate + HCl -> benzoic acid + NaCl

## Vessels
- beaker: 100 mL beaker

## Procedure
1. Charge the beaker with sodium benzoate 1.44 g and water 20 mL.
2. Add 2 M hydrochloric acid 6 mL to the beaker dropwise.
3. Cool the beaker in ice for 10 min.
4. Filter the beaker under vacuum; keep the solid.
5. Weigh the solid.

## Product
benzoic acid
`;

export interface Part {
  readonly heading: string;
  readonly about: string;
  readonly example?: string;
}

/** The parts of a document, in their usual order. */
export const PARTS: readonly Part[] = [
  {
    heading: '# Title',
    about: 'The first line. Below it lines such as the course, then whatever you want to say.',
    example: 'Course: Practical Organic Chemistry 1',
  },
  {
    heading: '## Reaction',
    about:
      'One equation a line, by names or formulas. The numbers in front may be left out: they are found.',
    example: 'sodium benzoate + HCl -> benzoic acid + NaCl',
  },
  {
    heading: '## Substances',
    about: 'Only what the table does not know, or what your bottle has otherwise.',
    example: '- 4-methylcyclohexyl acetate: SMILES CC(=O)OC1CCC(C)CC1; liquid; density 0.94 g/mL',
  },
  {
    heading: '## Vessels',
    about: 'One a line. The name in front is what the sentences call it.',
    example: '- receiver: 100 mL round-bottom flask, tared',
  },
  {
    heading: '## Procedure',
    about:
      'Numbered sentences, each begun with a verb, the amounts where they are used. ### names a part of it; a line behind > is a remark, a caution for example, and is not enacted.',
    example: '> Acid chlorides hurt eyes and lungs: work in the fume cupboard.',
  },
  {
    heading: '## Product',
    about: 'What is weighed in the end. Its theory is what the yield is counted on.',
    example: 'benzoic acid',
  },
];

/** What holds for every sentence. */
export const RULES: readonly Part[] = [
  {
    heading: 'A material and its amount',
    about: 'Before it, after it or in brackets. The strength belongs to the name.',
    example:
      'ethanol 10 mL · 10 mL of ethanol · vanillin (1.52 g, 10.0 mmol) · 1 M hydrochloric acid',
  },
  {
    heading: 'What a vessel holds',
    about: 'Call it by what it is: the last thing so made is meant.',
    example: 'the mixture · the solid · the filtrate · the organic layer · the residue',
  },
  {
    heading: 'A part of it',
    about: 'Say how much.',
    example: 'half of the filtrate · 5 mL of the extracts · the rest of the acid',
  },
  {
    heading: 'How, how long, how warm',
    about: 'In any order, also in front.',
    example: 'dropwise · over 10 min · for 20 min · at 20 °C · in an ice bath · under nitrogen',
  },
  {
    heading: 'Several at once',
    about: 'Joined by commas, “and” or a semicolon, each verb makes a step of its own.',
    example: 'Transfer the flask to the funnel; rinse with diethyl ether 2 mL.',
  },
  {
    heading: 'What is not understood',
    about:
      'It is kept as you wrote it and marked, with the nearest form that is read. A sentence that begins with “if” is a remark.',
  },
];
