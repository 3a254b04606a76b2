import fc from 'fast-check';
import { expect, it, vi } from 'vitest';
import { documents } from '../../../test/documents.ts';
import { readExperiment } from './read.ts';

/** Reads with nothing remembered: in an instance of its own. */
async function readAfresh(text: string): Promise<unknown> {
  vi.resetModules();
  const instance = await import('./read.ts');
  return instance.readExperiment(text);
}

interface Edit {
  /** Of the text, 0 to 1. */
  readonly at: number;
  readonly removed: number;
  readonly typed: string;
}

const typed: fc.Arbitrary<Edit> = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  removed: fc.integer({ min: 0, max: 3 }),
  typed: fc.constantFrom(
    ...'aeinorst 0123456789.,;:()-'.split(''),
    '',
    '\n',
    ' g',
    ' mL',
    ' the flask',
  ),
});

/** Names that sentences ask for, given and taken away. */
const named: fc.Arbitrary<(text: string) => string> = fc.constantFrom(
  (text: string) => text.replace('\n## Vessels\n', '\n## Vessels\n\n- mixture: 50 mL beaker\n'),
  (text: string) => text.replace(/\n## Vessels\n\s*- [^\n]*\n/, '\n## Vessels\n\n'),
  (text: string) => text.replace(/(\n- )(\w+)(: [^\n]*(?:flask|funnel|beaker))/, '$1$2 two$3'),
  (text: string) => `${text}\n## Substances\n\n- residue: formula C2H6O; liquid\n`,
  (text: string) => `${text}\n## Substances\n\n- water: SMILES CCO; liquid; density 0.9 g/mL\n`,
  (text: string) => `${text}\n## Product\nthe upper layer\n`,
  (text: string) => text.replace(/\n## Product\n[^#]*/, '\n'),
);

const edit = fc.oneof(
  { weight: 4, arbitrary: typed.map((one) => (text: string) => applied(text, one)) },
  { weight: 1, arbitrary: named },
);

function applied(text: string, { at, removed, typed: letters }: Edit): string {
  const place = Math.floor(at * text.length);
  return text.slice(0, place) + letters + text.slice(place + removed);
}

it('what was read before changes nothing: while a document is edited it is read as if it were new', async () => {
  const document = fc.constantFrom(...documents());
  const session = fc.tuple(document, fc.array(edit, { minLength: 1, maxLength: 12 }));
  await fc.assert(
    fc.asyncProperty(session, async ([[, begun], edits]) => {
      let text = begun;
      readExperiment(text);
      for (const each of edits) {
        text = each(text);
        readExperiment(text);
      }
      expect(readExperiment(text)).toEqual(await readAfresh(text));
    }),
    { numRuns: 24, seed: 20_251 },
  );
}, 120_000);
