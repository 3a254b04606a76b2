import type { Command } from '../command.ts';
import { balanceCommand } from './balance.ts';
import { checkCommand } from './check.ts';
import { findCommand } from './find.ts';
import { flowCommand } from './flow.ts';
import { ledgerCommand } from './ledger.ts';
import { massCommand } from './mass.ts';
import { overviewCommand } from './overview.ts';
import { reagentsCommand } from './reagents.ts';
import { verbsCommand } from './verbs.ts';
import { yieldCommand } from './yield.ts';

/** In the order of the help: first what is asked of an experiment, then of chemistry at large. */
export const COMMANDS: readonly Command[] = [
  checkCommand,
  reagentsCommand,
  flowCommand,
  yieldCommand,
  ledgerCommand,
  overviewCommand,
  balanceCommand,
  massCommand,
  findCommand,
  verbsCommand,
];
