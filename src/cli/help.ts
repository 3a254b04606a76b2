import type { Command, OptionSpec } from './command.ts';
import type { Paper } from './paint/ink.ts';
import { padEnd, paragraph, widthOf } from './paint/text.ts';

/** What every command understands. */
export const COMMON_OPTIONS: Readonly<Record<string, OptionSpec>> = {
  json: { type: 'boolean', about: 'Print data for a program instead of words for a person.' },
  width: {
    type: 'string',
    value: 'COLUMNS',
    about: 'Width of the page; that of the terminal, else 100.',
  },
  help: { type: 'boolean', about: 'Print this page.' },
};

const EXITS =
  '0 nothing amiss · 1 errors were found · 2 wrong usage, or a file that cannot be read';

export function paintOverallHelp(commands: readonly Command[], paper: Paper): string {
  const { ink } = paper;
  const wide = Math.max(...commands.map((one) => widthOf(one.name)));
  const list = commands.map((one) =>
    paragraph(one.summary, paper.width, `  ${padEnd(one.name, wide)}  `),
  );
  return [
    paragraph(
      'Weighboat: an experiment in preparative organic chemistry, written as a handout, enacted into a ledger of matter.',
      paper.width,
    ),
    '',
    `${ink.bold('Usage')}  weighboat COMMAND ...`,
    '',
    ...list,
    '',
    'FILE is an experiment (a .md file), or - for the standard input.',
    'Each command has a page of its own: weighboat COMMAND --help',
    '',
    `${ink.bold('Exit')}  ${EXITS}`,
  ].join('\n');
}

export function paintHelp(command: Command, paper: Paper): string {
  const { ink } = paper;
  const options = Object.entries({ ...command.options, ...COMMON_OPTIONS }).map(
    ([name, spec]) =>
      [`--${name}${spec.value === undefined ? '' : ` ${spec.value}`}`, spec.about] as const,
  );
  const wide = Math.max(...options.map(([form]) => widthOf(form)));
  return [
    `${ink.bold('Usage')}  weighboat ${command.name} ${command.takes}`.trimEnd(),
    '',
    paragraph(command.about, paper.width),
    '',
    ink.bold('Options'),
    ...options.map(([form, about]) => paragraph(about, paper.width, `  ${padEnd(form, wide)}  `)),
    '',
    ink.bold('For example'),
    ...command.examples.map((example) => `  weighboat ${example}`),
    '',
    `${ink.bold('Exit')}  ${EXITS}`,
  ].join('\n');
}
