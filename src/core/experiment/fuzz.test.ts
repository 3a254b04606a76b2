import fc from 'fast-check';
import { expect, test } from 'vitest';
import { documents } from '../../../test/documents.ts';
import { printExperiment } from './print.ts';
import { LIMITS, readExperiment } from './read.ts';
import type { Experiment } from './step.ts';
import { meaningOf } from './testing/meaning.ts';
import { VERBS } from './verbs/index.ts';

const runs = Number(process.env['FUZZ_RUNS'] ?? 3000);
const options = { numRuns: runs, seed: 20251 } as const;

const word = fc.constantFrom(
  ...'the a of to in with and then it flask beaker funnel mixture solid layer upper ethanol water brine sodium chloride 10 mL 2 × g 1 M % °C pH 7 min ice bath dropwise slowly ( ) , ; : over for until at under from keep (10 stirring'.split(
    ' ',
  ),
);
const amount = fc.constantFrom(
  '10 mL',
  '1.5 g',
  '2 × 5 mL',
  '0.5 mmol',
  'excess',
  '1 M',
  '10 ML',
  'a few drops',
  '1,5 g',
  '10–20 mL',
);
const material = fc
  .tuple(
    fc.constantFrom('ethanol', 'water', '2 M hydrochloric acid', 'zinc dust', 'flubber'),
    amount,
  )
  .map(([name, much]) => `${name} ${much}`);
const place = fc.constantFrom(
  'the flask',
  'the funnel',
  'a 50 mL beaker',
  'the mixture',
  'the solid',
  'the upper layer',
  'it',
  'half of the filtrate',
);
const clause = fc.oneof(
  fc
    .tuple(fc.constantFrom('with', 'in', 'from', 'over', 'and', ', then'), material)
    .map((parts) => parts.join(' ')),
  fc.tuple(fc.constantFrom('to', 'into', 'in', 'from'), place).map((parts) => parts.join(' ')),
  fc.constantFrom(
    'for 10 min',
    'at 60 °C',
    'in ice',
    'dropwise',
    'until it dissolves',
    'under vacuum',
    'overnight',
    '; keep the solid',
    ', keeping the temperature below 10 °C',
  ),
);
const head = fc.constantFrom(...VERBS.flatMap(({ heads }) => heads));
const likely = fc
  .tuple(head, fc.oneof(place, material), fc.array(clause, { maxLength: 3 }))
  .map(
    ([verb, object, clauses]) =>
      `${verb[0]!.toUpperCase()}${verb.slice(1)} ${object} ${clauses.join(' ')}.`,
  );
const salad = fc.array(word, { maxLength: 25 }).map((words) => `${words.join(' ')}.`);
const sentence = fc.oneof(
  { weight: 4, arbitrary: likely },
  { weight: 1, arbitrary: salad },
  {
    weight: 1,
    arbitrary: fc
      .string({ unit: 'grapheme', maxLength: 60 })
      .map((text) => text.replace(/\s+/g, ' ')),
  },
);
const marker = fc.constantFrom('1. ', '- ', '', '> ', '### ', '* ', '12) ');
const procedure = fc
  .array(fc.tuple(marker, sentence), { maxLength: 8 })
  .map((lines) => lines.map(([mark, text]) => `${mark}${text}`).join('\n'));
const other = fc.constantFrom(
  '## Reaction\nethanol -> ethene + H2O\n',
  '## Vessels\n- flask: 50 mL flask\n- funnel: 125 mL separatory funnel\n',
  '## Substances\n- flubber: SMILES CC(; liquid\n',
  '## Product\nethene\n',
  '# ',
  '## Safety\nWear gloves.\n',
);
const written = fc
  .tuple(fc.array(other, { maxLength: 3 }), procedure)
  .map(([sections, text]) => `# Trial\n\n${sections.join('\n')}\n## Procedure\n\n${text}\n`);

const originals = documents().map(([, text]) => text);
/** A document of ours with pieces cut out, doubled, moved and strewn with odd characters. */
const mutated = fc
  .tuple(
    fc.constantFrom(...originals),
    fc.array(
      fc.tuple(
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.nat(40),
        fc.oneof(
          word,
          fc.string({ unit: 'binary', maxLength: 3 }),
          fc.constantFrom('\n', '\r\n', '\u0000', '(', '((((', '**', '\ud800', '\n## ', ';'),
        ),
      ),
      { maxLength: 4 },
    ),
  )
  .map(([text, edits]) =>
    edits.reduce((now, [where, cut, put]) => {
      const at = Math.floor(where * now.length);
      return `${now.slice(0, at)}${put}${now.slice(at + cut)}`;
    }, text),
  );

/** Words of the procedure that no step and no note covers; those that join sentences do not count. */
function lostWords(text: string, { steps, notes }: Experiment): string[] {
  const from = text.indexOf('## Procedure') + '## Procedure'.length;
  const covered = new Uint8Array(text.length);
  for (const { span } of [...steps, ...notes]) covered.fill(1, span.start, span.end);
  const lost: string[] = [];
  let line = from;
  for (const raw of text.slice(from).split('\n')) {
    const lead = /^\s*(?:(?:\d+[.)]|[-*+])(?:\s+|$)|\d+$)/.exec(raw)?.[0].length ?? 0;
    if (!/^#{1,6}(?:\s|$)/.test(raw))
      for (const match of raw.slice(lead).matchAll(/[\p{L}\p{N}]+/gu)) {
        const at = line + lead + match.index;
        const whole = covered.subarray(at, at + match[0].length).every((byte) => byte === 1);
        if (!whole && !/^(?:and|then)$/i.test(match[0])) lost.push(match[0]);
      }
    line += raw.length + 1;
  }
  return lost;
}

test('what is written of verbs, materials and places: never throws, loses no word, is the same again', () => {
  fc.assert(
    fc.property(written, (text) => {
      const first = readExperiment(text);
      expect(lostWords(text, first)).toEqual([]);
      const again = readExperiment(text);
      expect(again).toEqual(first);
      for (const { span } of first.steps) expect(span.end).toBeLessThanOrEqual(text.length);
    }),
    options,
  );
});

test('documents that were damaged: never throws, and a step’s text is where its span says', () => {
  fc.assert(
    fc.property(mutated, (text) => {
      const { steps, diagnostics } = readExperiment(text);
      for (const { span } of steps) {
        expect(span.start).toBeLessThanOrEqual(span.end);
        expect(span.end).toBeLessThanOrEqual(text.length);
      }
      for (const { message } of diagnostics) expect(message).not.toBe('');
    }),
    { ...options, numRuns: Math.ceil(runs / 10) },
  );
});

test('any text at all: never throws', () => {
  const any = fc.string({ unit: 'binary', maxLength: 400 });
  fc.assert(
    fc.property(any, fc.boolean(), (text, inside) => {
      readExperiment(inside ? `## Procedure\n${text}` : text);
    }),
    options,
  );
});

test('a generated step that is read wholly means the same when it is printed', () => {
  const lead =
    '# Trial\n\n## Vessels\n- flask: 50 mL flask\n- funnel: 125 mL separatory funnel\n\n';
  let read = 0;
  const changed: string[] = [];
  for (const text of fc.sample(likely, { numRuns: runs, seed: 20251 })) {
    const before = readExperiment(
      `${lead}## Procedure\n\n1. Add water 5 mL to the flask.\n2. ${text}\n`,
    );
    if (
      before.diagnostics.some(({ code }) => !/^(?:reaction-missing|vessel-undeclared)$/.test(code))
    )
      continue;
    read++;
    const after = readExperiment(printExperiment(before));
    const [said, again] = [before, after].map(({ steps }) => JSON.stringify(steps.map(meaningOf)));
    if (said !== again) changed.push(text);
  }
  expect(read).toBeGreaterThan(runs / 10);
  // What is left is nonsense of the generator: "Set up the solid", "Boil down it until the solid"
  expect(changed.length / read, changed.join('\n')).toBeLessThan(0.02);
});

test.each([
  [
    'one long sentence',
    `1. ${'Add ethanol 10 mL and water 5 mL to the flask with stirring, then '.repeat(1600)}.`,
  ],
  ['one long word', `1. Add ${'x'.repeat(100_000)} to the flask.`],
  ['many sentences', `1. ${'Add ethanol 10 mL to the flask. '.repeat(3100)}`],
  ['open brackets', `1. Add ethanol ${'('.repeat(100_000)}`],
  [
    'nested brackets',
    `1. Add ethanol ${'('.repeat(20_000)}10 mL${')'.repeat(20_000)} to the flask.`,
  ],
  ['many commas', `1. Add ${'ethanol, '.repeat(11_000)}`],
  ['many semicolons', `1. Stir${'; keep the solid'.repeat(6000)}`],
  ['many clause words', `1. Stir ${'in to with from over at for '.repeat(3500)}`],
  ['digits', `1. Add ethanol ${'1'.repeat(100_000)} mL.`],
  ['half lines', `${'- \n'.repeat(4000)}`],
  ['many ors', `1. Heat the flask ${'until it or until it '.repeat(4500)}`],
])('%s of 100 kB does not hang the reader', (_name, body) => {
  const text = `# Trial\n\n## Procedure\n\n${body}\n`;
  // No measure of speed: far above what it takes, and far below for ever
  const begun = performance.now();
  readExperiment(text);
  expect(performance.now() - begun).toBeLessThan(30_000);
});

test('what is too large is refused whole, with a reason', () => {
  const refused = (text: string) => readExperiment(text).diagnostics.map(({ code }) => code);
  expect(refused('x'.repeat(5_000_000))).toEqual(['document-too-large']);
  expect(refused(`## Procedure\n${'1. Stir.\n'.repeat(10_000)}`)).toEqual(['document-too-large']);
  expect(refused('\n'.repeat(LIMITS.lines + 1))).toEqual(['document-too-large']);
});
