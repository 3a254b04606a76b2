/** Deuterated solvents whose residual signals the table knows, and any other. */
export const NMR_SOLVENTS = [
  'CDCl3',
  'acetone-d6',
  'DMSO-d6',
  'C6D6',
  'CD3CN',
  'CD3OD',
  'D2O',
  'other',
] as const;

export type NmrSolvent = (typeof NMR_SOLVENTS)[number];

const SPELLINGS: Readonly<Record<NmrSolvent, RegExp>> = {
  CDCl3: /^(?:cdcl3|chloroform-?d1?|deuterochloroform)$/,
  'acetone-d6': /^(?:acetone-?d6|\(?cd3\)?2co|d6-?acetone|acetone)$/,
  'DMSO-d6': /^(?:dmso(?:-?d6)?|d6-?dmso|\(cd3\)2so)$/,
  C6D6: /^(?:c6d6|benzene-?d6|d6-?benzene)$/,
  CD3CN: /^(?:cd3cn|acetonitrile-?d3|mecn-?d3)$/,
  CD3OD: /^(?:cd3od|methanol-?d4|meod(?:-?d4)?)$/,
  D2O: /^(?:d2o|deuteriumoxide|water-?d2)$/,
  other: /^$/,
};

/** The solvent that an instrument's file or a person means: "Chloroform-d" is CDCl3. */
export function solventNamed(text: string): NmrSolvent {
  const word = text.toLowerCase().replace(/\s+/g, '');
  return NMR_SOLVENTS.find((solvent) => SPELLINGS[solvent].test(word)) ?? 'other';
}
