import { describe, expect, it } from 'vitest';
import { importsOf, layerProblems } from '../../scripts/layers.ts';

const problems = (path: string, source: string) =>
  layerProblems([{ path, source }]).map((problem) => problem.message);

describe('the rule of the layers', () => {
  const cases: readonly [what: string, path: string, source: string, fails: boolean][] = [
    ['an earlier folder', 'src/core/report/x.ts', `import { a } from '../enact/a.ts';`, false],
    ['the same folder', 'src/core/enact/x.ts', `import { a } from './a.ts';`, false],
    ['a later folder', 'src/core/quantity/x.ts', `import { a } from '../report/a.ts';`, true],
    [
      'a type from a later folder',
      'src/core/facts/x.ts',
      `import type { A } from '../enact/a.ts';`,
      true,
    ],
    [
      'an export from a later folder',
      'src/core/ledger/x.ts',
      `export * from '../report/a.ts';`,
      true,
    ],
    [
      'a lazy import of a later folder',
      'src/core/enact/x.ts',
      `await import('../../cli/main.ts');`,
      true,
    ],
    [
      'an import over many lines',
      'src/core/enact/x.ts',
      `import {\n  a,\n  b,\n} from '../report/a.ts';`,
      true,
    ],
    [
      'a Node module in the core',
      'src/core/enact/x.ts',
      `import { readFileSync } from 'node:fs';`,
      true,
    ],
    ['an old-style Node module', 'src/core/enact/x.ts', `import fs from 'fs';`, true],
    ['a package in the core', 'src/core/enact/x.ts', `import { z } from 'zod';`, true],
    [
      'zod in the schema of a record',
      'src/core/record/schema.ts',
      `import { z } from 'zod';`,
      false,
    ],
    ['a package in a test', 'src/core/enact/x.test.ts', `import { it } from 'vitest';`, false],
    ['Node in the command line', 'src/cli/x.ts', `import { readFileSync } from 'node:fs';`, false],
    [
      'the core from the command line',
      'src/cli/x.ts',
      `import { a } from '../core/enact/a.ts';`,
      false,
    ],
    ['the command line from structures', 'src/structures/x.ts', `import '../cli/main.ts';`, true],
    ['a page from the server', 'src/server/x.ts', `import '../web/main.tsx';`, false],
    ['the server from a page', 'src/web/x.tsx', `import { a } from '../server/a.ts';`, true],
    ['the store from a page', 'src/web/x.tsx', `import type { A } from '../store/a.ts';`, true],
    ['the core from a page', 'src/web/x.tsx', `import { a } from '../core/enact/a.ts';`, false],
    ['a picture from a page', 'src/web/x.tsx', `import { a } from '../picture/a.ts';`, false],
    ['the toolkit from a page', 'src/web/x.tsx', `import '../structures/rdkit.ts';`, true],
    [
      'types of the wire in a page',
      'src/web/x.ts',
      `import type { A } from '../wire/a.ts';`,
      false,
    ],
    ['a schema of the wire in a page', 'src/web/x.ts', `import { a } from '../wire/a.ts';`, true],
    ['a package in a page', 'src/web/x.tsx', `import { useId } from 'react';`, false],
    ['zod in a page', 'src/web/x.tsx', `import * as z from 'zod';`, true],
    ['Node in a page', 'src/web/x.tsx', `import { join } from 'node:path';`, true],
    [
      'Node in the test of a page',
      'src/web/x.test.tsx',
      `import { join } from 'node:path';`,
      false,
    ],
    ['the server from the store', 'src/store/x.ts', `import '../server/a.ts';`, true],
    ['a folder that no layer names', 'src/elsewhere/x.ts', '', true],
    ['a comment', 'src/core/facts/x.ts', `// import { a } from '../report/a.ts';`, false],
  ];
  it.each(cases)('%s', (_what, path, source, fails) => {
    expect(problems(path, source).length > 0).toBe(fails);
  });

  it('says the line', () => {
    expect(
      importsOf(
        `/* two\nlines */\nimport type { A } from './a.ts';\n\nexport { b } from './b.ts';`,
      ),
    ).toEqual([
      { line: 3, target: './a.ts', isType: true },
      { line: 5, target: './b.ts', isType: false },
    ]);
  });
});
