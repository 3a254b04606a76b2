/** What first-read.mjs needs of the core, bundled as the program itself is. */
export { tableWith } from '../src/core/chemistry/substance.ts';
export { enact } from '../src/core/enact/enact.ts';
export { programOf } from '../src/core/enact/program.ts';
export { readExperiment } from '../src/core/experiment/read.ts';
