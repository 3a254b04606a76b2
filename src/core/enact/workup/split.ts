import type { Move, SplitRule } from '../../experiment/move.ts';
import type { Run } from '../run.ts';
import { vesselOf } from '../run.ts';
import { settle } from '../settle.ts';
import type { Vessel } from '../vessel.ts';
import { azeotrope } from './azeotrope.ts';
import { crystallise } from './crystallise.ts';
import { distil } from './distil.ts';
import { dry } from './dry.ts';
import { evaporate } from './evaporate.ts';
import { filter } from './filter.ts';
import { layers } from './layers.ts';
import { sublime } from './sublime.ts';

/**
 * How contents are parted, a file for each rule: contents in, phases out, every shift posted as
 * assumed. Partition, solubility and vapour pressure belong here and nowhere else.
 */
const SPLIT: {
  readonly [K in SplitRule['rule']]: (
    run: Run,
    v: Vessel,
    rule: Extract<SplitRule, { rule: K }>,
  ) => void;
} = { layers, filter, evaporate, distil, dry, crystallise, sublime, azeotrope };

export function split(run: Run, move: Extract<Move, { kind: 'split' }>): void {
  const v = vesselOf(run, move.vessel);
  settle(run, v);
  v.touchedInLine = run.lineNumber;
  SPLIT[move.by.rule](run, v, move.by as never);
  v.sorted = true;
}
