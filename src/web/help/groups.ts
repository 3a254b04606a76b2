import type { VerbKind } from '../../core/experiment/verbs/kind.ts';

export const GROUPS = ['putIn', 'react', 'workUp', 'purify', 'weigh'] as const;
export type Group = (typeof GROUPS)[number];

/** In the order of the work. */
export const GROUP_TITLE: Readonly<Record<Group, string>> = {
  putIn: 'Putting in',
  react: 'Letting it react',
  workUp: 'Working up',
  purify: 'Purifying',
  weigh: 'Weighing and looking',
};

/** Where in the work an operation belongs. */
export const GROUP_OF: Readonly<Record<VerbKind, Group>> = {
  weighOut: 'putIn',
  charge: 'putIn',
  add: 'putIn',
  rinse: 'putIn',
  stir: 'react',
  heat: 'react',
  reflux: 'react',
  cool: 'react',
  hold: 'react',
  activate: 'react',
  blanket: 'react',
  bubble: 'react',
  quench: 'react',
  takePlace: 'react',
  filter: 'workUp',
  washSolid: 'workUp',
  transfer: 'workUp',
  extract: 'workUp',
  separate: 'workUp',
  washLayer: 'workUp',
  combine: 'workUp',
  backExtract: 'workUp',
  dry: 'workUp',
  decant: 'workUp',
  evaporate: 'workUp',
  discard: 'workUp',
  recrystallise: 'purify',
  distil: 'purify',
  sublime: 'purify',
  tare: 'weigh',
  weigh: 'weigh',
  airDry: 'weigh',
  meltingRange: 'weigh',
  spectrum: 'weigh',
  tlc: 'weigh',
};
