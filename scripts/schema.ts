/**
 * Writes docs/spec/experiment.schema.json, the JSON Schema of the derived tree, from the schema that
 * the program itself uses. `--check` says whether what is committed is current.
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import * as z from 'zod';
import { experimentSchema } from '../src/core/experiment/schema.ts';

const page = new URL('../docs/spec/experiment.schema.json', import.meta.url);

export function schemaText(): string {
  const schema = z.toJSONSchema(experimentSchema, { reused: 'ref' });
  const { $schema, ...rest } = schema;
  const named = {
    $schema,
    title: 'Experiment',
    description:
      'What is read out of a document: derived from its text, never the authority. Spans are offsets into the text.',
    ...rest,
  };
  return `${JSON.stringify(named, null, 2)}\n`;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const current = existsSync(page) ? readFileSync(page, 'utf8') : '';
  if (process.argv.includes('--check')) {
    if (current !== schemaText()) {
      console.error('docs/spec/experiment.schema.json is not current: npm run schema');
      process.exit(1);
    }
  } else writeFileSync(page, schemaText());
}
