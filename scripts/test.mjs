/** `npm test`: installs what is missing, sees that the compiled facts are current, runs every test. */
import { programOf, installIfMissing, run, say, stop } from './prepare.mjs';

installIfMissing();
say('Facts: are the compiled tables current?');
const facts = run(process.execPath, [programOf('tsx'), 'scripts/facts.ts', '--check']);
if (facts !== 0) stop('Compile them with: npm run facts', facts);
const args = process.argv.slice(2);
say(args.length > 0 ? `Tests: ${args.join(' ')}` : 'Tests: every one');
process.exitCode = run(process.execPath, [programOf('vitest'), 'run', ...args]);
