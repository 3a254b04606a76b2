/**
 * The documents kept true: relative links lead somewhere, blocks marked `weighboat` read without
 * errors, and docs/commands.md is what the commands say of themselves. `--write` writes the last.
 */
import { existsSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { COMMANDS } from '../src/cli/commands/index.ts';
import { paintHelp, paintOverallHelp } from '../src/cli/help.ts';
import { PLAIN_INK } from '../src/cli/paint/ink.ts';
import { readExperiment } from '../src/core/experiment/read.ts';

const root = fileURLToPath(new URL('..', import.meta.url));
const commandsPage = join(root, 'docs', 'commands.md');

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
  if (process.argv.includes('--write')) writeFileSync(commandsPage, commandsText());
  const pages = [
    join(root, 'README.md'),
    join(root, 'CHANGELOG.md'),
    ...pagesUnder(join(root, 'docs')),
  ];
  const problems = pages.filter(existsSync).flatMap(problemsOf);
  const current = existsSync(commandsPage) ? readFileSync(commandsPage, 'utf8') : '';
  if (current !== commandsText())
    problems.push('docs/commands.md is not what the commands say: npm run docs -- --write');
  for (const problem of problems) console.error(problem);
  if (problems.length > 0) process.exit(1);
  console.log(`${pages.length} pages: links and snippets hold`);
}
