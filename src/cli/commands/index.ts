import type { Command } from '../command.ts';
import { backupCommand } from './backup.ts';
import { balanceCommand } from './balance.ts';
import { checkCommand } from './check.ts';
import { convertCommand } from './convert.ts';
import { exportCommand } from './export.ts';
import { findCommand } from './find.ts';
import { flowCommand } from './flow.ts';
import { importCommand } from './import.ts';
import { ledgerCommand } from './ledger.ts';
import { massCommand } from './mass.ts';
import { overviewCommand } from './overview.ts';
import { reagentsCommand } from './reagents.ts';
import { restoreCommand } from './restore.ts';
import { serveCommand } from './serve.ts';
import { spectrumCommand } from './spectrum.ts';
import { verbsCommand } from './verbs.ts';
import { yieldCommand } from './yield.ts';

/**
 * In the order of the help: what opens everything, what is asked of an experiment, then of chemistry
 * at large, and last what is done with all that is kept.
 */
export const COMMANDS: readonly Command[] = [
  serveCommand,
  checkCommand,
  reagentsCommand,
  flowCommand,
  yieldCommand,
  ledgerCommand,
  overviewCommand,
  balanceCommand,
  spectrumCommand,
  convertCommand,
  massCommand,
  findCommand,
  verbsCommand,
  backupCommand,
  restoreCommand,
  exportCommand,
  importCommand,
];
