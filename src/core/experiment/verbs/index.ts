import type { Verb } from './verb.ts';
import type { VerbKind } from './kind.ts';
import { weighOut } from './weigh-out.ts';
import { charge } from './charge.ts';
import { add, dissolve, treat, warmed } from './add.ts';
import { rinse } from './rinse.ts';
import { stir } from './stir.ts';
import { heat } from './heat.ts';
import { reflux } from './reflux.ts';
import { cool } from './cool.ts';
import { hold } from './hold.ts';
import { activate } from './activate.ts';
import { blanket, rig } from './blanket.ts';
import { bubble } from './bubble.ts';
import { quench } from './quench.ts';
import { filter } from './filter.ts';
import { washSolid } from './wash-solid.ts';
import { transfer } from './transfer.ts';
import { backExtract, extract } from './extract.ts';
import { separate } from './separate.ts';
import { washLayer } from './wash-layer.ts';
import { combine } from './combine.ts';
import { dry } from './dry.ts';
import { decant } from './decant.ts';
import { evaporate } from './evaporate.ts';
import { recrystallise } from './recrystallise.ts';
import { distil } from './distil.ts';
import { sublime } from './sublime.ts';
import { tare } from './tare.ts';
import { weigh } from './weigh.ts';
import { airDry } from './air-dry.ts';
import { meltingRange, spectrum, tlc } from './observe.ts';
import { discard } from './discard.ts';
import { takePlace } from './take-place.ts';

/** Every way of reading a sentence; where two read it equally well, the earlier wins. */
export const VERBS: readonly Verb[] = [
  weighOut,
  charge,
  add,
  treat,
  dissolve,
  warmed,
  rinse,
  stir,
  heat,
  reflux,
  cool,
  hold,
  activate,
  blanket,
  rig,
  bubble,
  quench,
  filter,
  washSolid,
  transfer,
  extract,
  separate,
  washLayer,
  combine,
  backExtract,
  dry,
  decant,
  evaporate,
  recrystallise,
  distil,
  sublime,
  tare,
  weigh,
  airDry,
  meltingRange,
  spectrum,
  tlc,
  discard,
  takePlace,
];

/** The verb that carries out a step. */
export const VERB_OF: Readonly<Record<VerbKind, Verb>> = {
  weighOut,
  charge,
  add,
  rinse,
  stir,
  heat,
  reflux,
  cool,
  hold,
  activate,
  blanket,
  bubble,
  quench,
  filter,
  washSolid,
  transfer,
  extract,
  separate,
  washLayer,
  combine,
  backExtract,
  dry,
  decant,
  evaporate,
  recrystallise,
  distil,
  sublime,
  tare,
  weigh,
  airDry,
  meltingRange,
  spectrum,
  tlc,
  discard,
  takePlace,
};
