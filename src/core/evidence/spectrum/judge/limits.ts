import type { SampleState } from '../infrared.ts';
import type { JudgedGroup } from './group-judgement.ts';

const LIMITS: Readonly<Record<JudgedGroup, string>> = {
  oh: 'Infrared does not tell one alcohol from another, nor an alcohol from water in the sample by this band alone. An O–H bonded inside the molecule can be too faint to see.',
  acid: 'Infrared does not tell which acid it is. In a mull the oil, in a salt the missing O–H can hide an acid.',
  nh: 'Infrared does not tell how many N–H there are where bands overlap. A tertiary amine shows none.',
  carbonyl:
    'The place of a C=O narrows the class and does not settle it. Less than about 5 % of another C=O hides under it.',
  nitrile:
    'Some nitriles absorb so weakly that nothing is seen. A C≡C inside a chain absorbs at the same place.',
  nitro:
    'Where an aromatic ring, an amide or a sulfone absorbs at the same places, the pair proves little.',
  'alkyne-h': 'An N–H can lie at the same place. An alkyne inside a chain has no such band.',
  'aldehyde-ch': 'Overtones fall near 2720 cm⁻¹ in many compounds without a CHO.',
  aryl: 'Infrared does not tell one aromatic ring from another with certainty. The pattern of substitution is a hint.',
  alkene: 'A C=C with like groups on both sides shows next to nothing.',
  'c-o':
    'Almost every organic spectrum has strong bands from 1000 to 1300 cm⁻¹. A band there alone names no group.',
  'c-cl':
    'Below 850 cm⁻¹ bands of many kinds lie close together. A band there alone names no group.',
};

const STATE_LIMITS: Partial<Record<SampleState, Partial<Record<JudgedGroup, string>>>> = {
  disc: { oh: 'The disc itself takes up water, which absorbs near 3440 and 1635 cm⁻¹.' },
  mull: { acid: 'The oil covers 2850 to 2960 cm⁻¹.' },
  gas: { oh: 'In the vapour the O–H band is weak, and lines of water vapour lie beside it.' },
};

/** What infrared cannot tell of a group, in the state that the sample was in. */
export function groupLimits(group: JudgedGroup, state: SampleState): string {
  const more = STATE_LIMITS[state]?.[group];
  return more === undefined ? LIMITS[group] : `${LIMITS[group]} ${more}`;
}

/** What always holds. */
export const GENERAL_LIMITS =
  'Infrared does not tell an isomer or a homologue with the same groups, nor an impurity of a few per cent with the same groups.';
