import { parseArgs } from 'node:util';
import { EXIT, refusal } from './command.ts';
import type { Answer, Command } from './command.ts';
import { COMMANDS } from './commands/index.ts';
import { COMMON_OPTIONS, paintHelp, paintOverallHelp } from './help.ts';
import type { Io } from './io.ts';
import { toJson } from './json.ts';
import { nearestWord } from './nearest.ts';
import { inkFor } from './paint/ink.ts';
import type { Paper } from './paint/ink.ts';
import { harmless, paragraph } from './paint/text.ts';

export { processIo } from './process-io.ts';

const NARROWEST = 40;
const WIDEST = 400;

/** Runs one command line and gives the exit code. Whatever is typed, it answers and does not throw. */
export async function main(argv: readonly string[], io: Io): Promise<number> {
  const paper: Paper = { width: clampWidth(io.width), ink: inkFor(io.colour) };
  const [name, ...rest] = argv;
  if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
    const about = COMMANDS.find((one) => one.name === rest[0]);
    io.out(
      `${about === undefined ? paintOverallHelp(COMMANDS, paper) : paintHelp(about, paper)}\n`,
    );
    return EXIT.fine;
  }
  const command = COMMANDS.find((one) => one.name === name);
  if (command === undefined) return refuse(unknownCommand(name), io, paper);
  return runCommand(command, rest, io, paper);
}

const clampWidth = (width: number) => Math.min(WIDEST, Math.max(NARROWEST, Math.floor(width)));

function unknownCommand(name: string): Answer {
  const near = nearestWord(
    name,
    COMMANDS.map((one) => one.name),
  );
  const hint = near === undefined ? 'The commands: weighboat --help' : `Is it: weighboat ${near}`;
  return refusal(`There is no command ${harmless(name)}.`, hint);
}

async function runCommand(command: Command, rest: string[], io: Io, paper: Paper) {
  const parsed = readArguments(command, rest);
  if (!parsed.ok) return refuse(parsed.answer, io, paper);
  const { args, options } = parsed;
  if (options['help'] === true) {
    io.out(`${paintHelp(command, paper)}\n`);
    return EXIT.fine;
  }
  const width = options['width'];
  if (width !== undefined && !/^\d{2,3}$/.test(String(width)))
    return refuse(refusal('--width takes a whole number, such as 100.'), io, paper);
  const page = width === undefined ? paper : { ...paper, width: clampWidth(Number(width)) };
  const [least, most] = command.arity;
  if (args.length < least || args.length > most)
    return refuse(wrongCount(command, args.length < least), io, paper);
  const answer = await command.run({ args, options, io });
  if (answer.kind === 'refusal') return refuse(answer, io, paper);
  for (const remark of answer.remarks ?? []) io.err(`${paragraph(remark, page.width)}\n`);
  const text = options['json'] === true ? toJson(answer.data) : answer.paint(page).trimEnd();
  io.out(`${text}\n`);
  return answer.exit;
}

function wrongCount(command: Command, tooFew: boolean): Answer {
  const what = tooFew ? 'Something is missing.' : 'There is more here than the command takes.';
  return refusal(what, `Usage: weighboat ${command.name} ${command.takes}`);
}

type Parsed =
  | {
      readonly ok: true;
      readonly args: string[];
      readonly options: Record<string, string | boolean | undefined>;
    }
  | { readonly ok: false; readonly answer: Answer };

function readArguments(command: Command, rest: string[]): Parsed {
  const specs = { ...command.options, ...COMMON_OPTIONS };
  const options = Object.fromEntries(
    Object.entries(specs).map(([name, { type }]) => [
      name,
      name === 'help' ? { type, short: 'h' } : { type },
    ]),
  );
  try {
    const { values, positionals } = parseArgs({
      args: rest,
      options,
      allowPositionals: true,
      strict: true,
    });
    return { ok: true, args: positionals, options: { ...values } };
  } catch (error) {
    return { ok: false, answer: badOption(command, Object.keys(specs), error) };
  }
}

function badOption(command: Command, known: readonly string[], error: unknown): Answer {
  const message = error instanceof Error ? error.message : String(error);
  const given = /'(-[^'\s]*)/.exec(message)?.[1] ?? '';
  const word = given.replace(/^-+/, '').replace(/=.*$/s, '');
  const spec = { ...command.options, ...COMMON_OPTIONS }[word];
  if (spec?.type === 'string')
    return refusal(`--${word} needs a value.`, `Write: --${word} ${spec.value ?? 'VALUE'}`);
  if (spec !== undefined) return refusal(`--${word} takes no value.`);
  const near = nearestWord(word, known);
  const hint =
    near === undefined
      ? `The options: weighboat ${command.name} --help. An argument that begins with a hyphen stands after --`
      : `Is it --${near}?`;
  return refusal(`${command.name} has no option ${harmless(given)}.`, hint);
}

function refuse(answer: Answer, io: Io, paper: Paper): number {
  if (answer.kind !== 'refusal') return EXIT.usage;
  io.err(`${paragraph(answer.message, paper.width)}\n`);
  if (answer.hint !== undefined) io.err(`${paragraph(answer.hint, paper.width, '  → ', '    ')}\n`);
  return EXIT.usage;
}
