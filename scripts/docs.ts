/**
 * The documents kept true: relative links lead somewhere, blocks marked `weighboat` read without
 * errors, docs/commands.md is what the commands say of themselves, and the README's picture is what is
 * drawn today. `--write` writes the last two.
 */
import { existsSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { COMMANDS } from '../src/cli/commands/index.ts';
import { paintHelp, paintOverallHelp } from '../src/cli/help.ts';
import { PLAIN_INK } from '../src/cli/paint/ink.ts';
import { tableWith } from '../src/core/chemistry/substance.ts';
import { enact } from '../src/core/enact/enact.ts';
import { programOf } from '../src/core/enact/program.ts';
import { readExperiment } from '../src/core/experiment/read.ts';
import { planAnswer } from '../src/core/report/answer/answer.ts';
import { flowSheet } from '../src/core/report/flow/flow.ts';
import { flowSheetPicture } from '../src/picture/flow-sheet/flow-sheet.ts';
import { flowWords } from '../src/picture/flow-sheet/words.ts';

const root = fileURLToPath(new URL('..', import.meta.url));
const commandsPage = join(root, 'docs', 'commands.md');
const picturePath = join(root, 'docs', 'pictures', 'flow-sheet.svg');

export interface Snippet {
  readonly line: number;
  readonly language: string;
  readonly text: string;
}

/** The fenced blocks of a Markdown text. */
export function snippetsOf(markdown: string): Snippet[] {
  const snippets: Snippet[] = [];
  let open: { fence: string; language: string; line: number; lines: string[] } | undefined;
  markdown.split('\n').forEach((line, i) => {
    const fence = /^\s*(`{3,}|~{3,})\s*(\S*)/.exec(line);
    if (open === undefined && fence !== null)
      open = { fence: fence[1]!, language: fence[2]!, line: i + 1, lines: [] };
    else if (open !== undefined && line.trim().startsWith(open.fence)) {
      snippets.push({ line: open.line, language: open.language, text: open.lines.join('\n') });
      open = undefined;
    } else open?.lines.push(line);
  });
  return snippets;
}

/** Links of a Markdown text that are neither addresses nor places on the same page. */
export function relativeLinksOf(
  markdown: string,
): { readonly line: number; readonly target: string }[] {
  const prose = markdown.replace(/^(`{3,}|~{3,})[\s\S]*?^\1/gm, (block) =>
    block.replace(/[^\n]/g, ' '),
  );
  const links: { line: number; target: string }[] = [];
  prose.split('\n').forEach((line, i) => {
    for (const [, target] of line
      .replace(/`[^`]*`/g, '')
      .matchAll(/\]\(([^)\s]+)(?:\s+"[^"]*")?\)/g))
      if (target !== undefined && !/^([a-z][a-z+.-]*:|#)/i.test(target))
        links.push({ line: i + 1, target });
  });
  return links;
}

/** docs/commands.md, from the same words that `--help` prints. */
export function commandsText(): string {
  const paper = { width: 90, ink: PLAIN_INK };
  const block = (text: string) => `\`\`\`text\n${text}\n\`\`\``;
  const pages = COMMANDS.map(
    (command) => `## ${command.name}\n\n${block(paintHelp(command, paper))}`,
  );
  return [
    '# Commands',
    '',
    'What `weighboat --help` and `weighboat COMMAND --help` print; this page is made from them by `npm run docs -- --write`.',
    '',
    block(paintOverallHelp(COMMANDS, paper)),
    '',
    pages.join('\n\n'),
    '',
  ].join('\n');
}

/** The README's picture: the demonstration as it is planned. */
export function pictureText(): string {
  const text = readFileSync(join(root, 'examples', 'cyclohexanol', 'experiment.md'), 'utf8');
  const experiment = readExperiment(text);
  const plan = enact(programOf(experiment), tableWith(experiment.substances));
  return flowSheetPicture(flowSheet(experiment, plan), {
    words: flowWords(plan, experiment),
    answer: planAnswer(experiment, plan).matter.join(' '),
  });
}

function pagesUnder(folder: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return pagesUnder(path);
    return entry.name.endsWith('.md') ? [path] : [];
  });
}

function problemsOf(path: string): string[] {
  const text = readFileSync(path, 'utf8');
  const name = relative(root, path);
  const problems: string[] = [];
  for (const { line, target } of relativeLinksOf(text)) {
    const file = resolve(dirname(path), decodeURIComponent(target.replace(/#.*$/, '')));
    if (!existsSync(file)) problems.push(`${name}:${line}: the link ${target} leads nowhere`);
  }
  for (const snippet of snippetsOf(text)) {
    if (snippet.language !== 'weighboat') continue;
    for (const one of readExperiment(`${snippet.text}\n`).diagnostics)
      if (one.severity === 'error')
        problems.push(`${name}:${snippet.line + (one.at?.line ?? 1)}: ${one.code}: ${one.message}`);
  }
  return problems;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const made: readonly (readonly [path: string, text: string])[] = [
    [commandsPage, commandsText()],
    [picturePath, pictureText()],
  ];
  if (process.argv.includes('--write')) for (const [path, text] of made) writeFileSync(path, text);
  const pages = [
    join(root, 'README.md'),
    join(root, 'CHANGELOG.md'),
    ...pagesUnder(join(root, 'docs')),
  ];
  const problems = pages.filter(existsSync).flatMap(problemsOf);
  for (const [path, text] of made)
    if (!existsSync(path) || readFileSync(path, 'utf8') !== text)
      problems.push(`${relative(root, path)} is not of today: npm run docs -- --write`);
  for (const problem of problems) console.error(problem);
  if (problems.length > 0) process.exit(1);
  console.log(`${pages.length} pages: links and snippets hold`);
}
