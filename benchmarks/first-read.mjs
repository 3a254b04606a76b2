/** node first-read.mjs BUNDLE DOCUMENT: how long each part of a first reading takes, as JSON. */
import { readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';

const [bundle, path] = process.argv.slice(2);
const document = readFileSync(path, 'utf8');
const marks = [performance.now()];
const mark = () => marks.push(performance.now());
const { enact, programOf, readExperiment, tableWith } = await import(pathToFileURL(bundle).href);
mark();
const experiment = readExperiment(document);
mark();
enact(programOf(experiment), tableWith(experiment.substances));
mark();
readExperiment(document);
mark();
const [load_ms, first_ms, enact_ms, second_ms] = marks.slice(1).map((time, i) => time - marks[i]);
process.stdout.write(JSON.stringify({ load_ms, first_ms, enact_ms, second_ms }));
