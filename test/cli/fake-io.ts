import { refusal } from '../../src/cli/command.ts';
import type { Call } from '../../src/cli/command.ts';
import { LARGEST_FILE_bytes } from '../../src/cli/io.ts';
import type { FileTrouble, Io } from '../../src/cli/io.ts';
import { main } from '../../src/cli/main.ts';

export interface Result {
  readonly exit: number;
  readonly out: string;
  readonly err: string;
  /** Files that the command wrote. */
  readonly written: Readonly<Record<string, string>>;
}

export interface Machine {
  readonly files?: Readonly<Record<string, string | Uint8Array | FileTrouble>>;
  readonly stdin?: string | FileTrouble;
  readonly width?: number;
  readonly colour?: boolean;
}

const bytesOf = (content: string | Uint8Array | FileTrouble) =>
  typeof content === 'string' ? new TextEncoder().encode(content) : content;

/** Says which command was reached and with what; nothing is kept on a machine that is none. */
const reached = (name: string) => (call: Call) =>
  Promise.resolve(
    refusal(`${name} was reached with ${JSON.stringify([call.args, call.options])}.`),
  );

/** Runs a command line on a machine that exists only for a test. */
export async function runOn(machine: Machine, ...argv: string[]): Promise<Result> {
  let out = '';
  let err = '';
  const written: Record<string, string> = {};
  const io: Io = {
    out: (text) => void (out += text),
    err: (text) => void (err += text),
    width: machine.width ?? 100,
    colour: machine.colour ?? false,
    read: (path) => {
      const bytes = bytesOf(machine.files?.[path] ?? { trouble: 'missing' });
      const large = bytes instanceof Uint8Array && bytes.length > LARGEST_FILE_bytes;
      return Promise.resolve(large ? { trouble: 'too-large' } : bytes);
    },
    stdin: () => Promise.resolve(bytesOf(machine.stdin ?? { trouble: 'terminal' })),
    write: (path, text) => {
      if (path.startsWith('locked/')) return Promise.resolve({ trouble: 'denied' });
      written[path] = text;
      return Promise.resolve(undefined);
    },
    keeping: {
      serve: reached('serve'),
      backup: reached('backup'),
      restore: reached('restore'),
      exportTo: reached('export'),
      importFrom: reached('import'),
    },
  };
  const exit = await main(argv, io);
  return { exit, out, err, written };
}

export const BENZOIC = `# Benzoic acid from sodium benzoate

## Reaction
sodium benzoate + HCl -> benzoic acid + NaCl

## Vessels
- beaker: 100 mL beaker

## Procedure
1. Charge the beaker with sodium benzoate 1.44 g and water 20 mL.
2. Add 2 M hydrochloric acid 6 mL to the beaker dropwise.
3. Cool the beaker in ice for 10 min.
4. Filter the beaker under vacuum; keep the solid.
5. Weigh the solid.

## Product
benzoic acid
`;

export const BENZOIC_BENCH = `kind,step,item,vessel,value,unit
charge,1,sodium benzoate,,1.4412,g
net,5,,,1.0873,g
`;
