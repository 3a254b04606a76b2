/**
 * `npm run fuzz`: every parser against 100,000 made-up and damaged inputs for each property (another
 * number as the argument). What is looked for: a throw, a hang, a lost word, a wrong way back.
 */
import { programOf, installIfMissing, run, say } from './prepare.mjs';

const PARSERS = [
  'src/core/quantity/amount.property.test.ts',
  'src/core/chemistry/formula.test.ts',
  'src/core/chemistry/smiles.test.ts',
  'src/core/chemistry/equation.test.ts',
  'src/core/record/csv.test.ts',
  'src/core/record/fold.test.ts',
  'src/core/experiment/fuzz.test.ts',
  'src/core/evidence/spectrum/read/fuzz.test.ts',
  'src/core/evidence/spectrum/write/write.test.ts',
];

installIfMissing();
const runs = process.argv[2] ?? '100000';
say(`Fuzz: ${runs} inputs for each property of every parser`);
process.env.FUZZ_RUNS = runs;
process.exitCode = run(process.execPath, [
  programOf('vitest'),
  'run',
  '--testTimeout=1500000',
  ...PARSERS,
]);
