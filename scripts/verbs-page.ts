/**
 * Writes docs/verbs.md from the verb files, which say of themselves how their sentences look.
 * `--check` says whether what is committed is current.
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { VERBS } from '../src/core/experiment/verbs/index.ts';
import type { Verb } from '../src/core/experiment/verbs/verb.ts';

const page = new URL('../docs/verbs.md', import.meta.url);

const INTRODUCTION = `# Verbs

Every unit operation that a procedure can name. A sentence begins with one of the words given, or has
it in the passive ("was added", "is filtered"); clauses may stand in any order, and in front. What
stands in braces is filled in: {vessel} by a name from the Vessels section, {contents} by a vessel or by
what it holds (the mixture, the solid, the organic layer), {material} and {amount} as described in
[the document](spec/document.md). This page is made from the verb files by \`npm run verbs-page\`.`;

/** "washSolid" -> "Wash solid". */
function titleOf(kind: string): string {
  const words = kind.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
  return words.charAt(0).toUpperCase() + words.slice(1);
}

function waysOf(verb: Verb): string {
  const heads = verb.heads.length === 0 ? '' : `\n\nWords: ${verb.heads.join(', ')}.`;
  const forms = verb.forms.map((form) => `- ${form}`).join('\n');
  const examples = verb.examples.map((example) => `- “${example}.”`).join('\n');
  return `${verb.about}${heads}\n\n${forms}\n\nFor example:\n\n${examples}`;
}

export function verbsText(): string {
  const kinds = [...new Set(VERBS.map(({ kind }) => kind))];
  const sections = kinds.map((kind) => {
    const ways = VERBS.filter((verb) => verb.kind === kind).map(waysOf);
    return `## ${titleOf(kind)}\n\n${ways.join('\n\n')}`;
  });
  return `${[INTRODUCTION, ...sections].join('\n\n')}\n`;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const current = existsSync(page) ? readFileSync(page, 'utf8') : '';
  if (process.argv.includes('--check')) {
    if (current !== verbsText()) {
      console.error('docs/verbs.md is not current: npm run verbs-page');
      process.exit(1);
    }
  } else writeFileSync(page, verbsText());
}
