import type { Io } from './io.ts';
import type { Paper } from './paint/ink.ts';

/** The end of a command, for the shell. */
export const EXIT = { fine: 0, findings: 1, usage: 2 } as const;

export type Answer =
  | {
      readonly kind: 'answer';
      readonly exit: (typeof EXIT)['fine'] | (typeof EXIT)['findings'];
      /** What `--json` prints. */
      readonly data: unknown;
      /** What a person reads. */
      readonly paint: (paper: Paper) => string;
      /** Said on the side, so that it does not mix with the answer. */
      readonly remarks?: readonly string[];
    }
  | { readonly kind: 'refusal'; readonly message: string; readonly hint?: string };

export interface OptionSpec {
  readonly type: 'string' | 'boolean';
  /** For the help: what stands after it. */
  readonly value?: string;
  readonly about: string;
}

export interface Call {
  readonly args: readonly string[];
  readonly options: Readonly<Record<string, string | boolean | undefined>>;
  readonly io: Io;
}

/** One command. Its page of help is made from what stands here. */
export interface Command {
  readonly name: string;
  /** A few words for the list of commands. */
  readonly summary: string;
  readonly takes: string;
  readonly about: string;
  readonly options: Readonly<Record<string, OptionSpec>>;
  readonly examples: readonly string[];
  /** Least and most arguments that are no options. */
  readonly arity: readonly [least: number, most: number];
  readonly run: (call: Call) => Promise<Answer> | Answer;
}

export const refusal = (message: string, hint?: string): Answer => ({
  kind: 'refusal',
  message,
  ...(hint === undefined ? {} : { hint }),
});

/** The text of an option, or undefined where it was not given. */
export function optionText({ options }: Call, name: string): string | undefined {
  const value = options[name];
  return typeof value === 'string' ? value : undefined;
}
