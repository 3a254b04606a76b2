import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { documents } from '../../../../test/documents.ts';
import { readAmount } from '../../quantity/amount.ts';
import type { Amount } from '../../quantity/amount.ts';
import { formatAmount } from '../../quantity/print.ts';
import { readExperiment } from '../read.ts';
import type { Experiment, MaterialUse } from '../step.ts';
import { amountMeaning, meaningOf } from '../testing/meaning.ts';
import { addSubstance } from './add-substance.ts';
import { applied } from './change.ts';
import type { Edit } from './change.ts';
import { changeAmount } from './change-amount.ts';

const RUNS = Number(process.env['FUZZ_RUNS'] ?? 300);

const TEXT = `# Trial

## Vessels
- flask: 100 mL round-bottom flask

## Procedure
1. Charge the flask with benzoic acid (1.22 g, 10.0 mmol, 1.0 equiv), ethanol 10 mL
   and a few drops of water.
2. Add 2 × 5 mL of diethyl ether (2 × 5 mL in all) to the flask.
3. Add thionyl chloride (1.09 mL, 1.5 equiv) and excess methanol to the flask.
4. Charge the flask with **sodium chloride**.
`;

function done(edit: Edit): { readonly text: string; readonly insert: string } {
  if (!edit.ok) throw new Error(edit.why);
  return { text: edit.text, insert: edit.change.insert };
}

const change = (use: string, written: string, text = TEXT) =>
  changeAmount(text, readExperiment(text), use, written);

describe('another amount in its place', () => {
  it('takes the other amounts of the same material along', () => {
    const { text } = done(change('1.1', '1.83 g'));
    expect(text).toContain('benzoic acid (1.83 g, 15.0 mmol, 1.0 equiv), ethanol 10 mL');
  });

  it('replaces the amount of its own kind', () => {
    const { text } = done(change('1.1', '12.0 mmol'));
    expect(text).toContain('benzoic acid (1.46 g, 12.0 mmol, 1.0 equiv)');
  });

  it('reads a decimal comma, and changes no more than differs', () => {
    const { text, insert } = done(change('1.2', '12,5 mL'));
    expect(text).toContain('ethanol 12.5 mL\n   and a few drops of water');
    expect(insert).toBe('2.5');
  });

  it('goes from volume to mass through the density', () => {
    const { text } = done(change('3.1', '3.57 g'));
    // 3.57 g / (1.631 g/mL · 1.09 mL) · 1.5
    expect(text).toMatch(/thionyl chloride \(3\.57 g, 3\.0 equiv\)/);
  });

  it('gives a figure where there was a word or nothing', () => {
    expect(done(change('3.2', '5 mL')).text).toContain('and 5 mL methanol');
    expect(done(change('4.1', '0.5 g')).text).toContain('**sodium chloride** 0.5 g.');
  });

  it('counts from behind a byte-order mark, and keeps it', () => {
    const text = `\uFEFF${TEXT}`;
    expect(done(change('1.2', '12 mL', text)).text).toBe(
      text.replace('ethanol 10 mL', 'ethanol 12 mL'),
    );
  });

  it.each([
    ['1.1', 'plenty', /no amount/],
    ['1.1', '1.2 ML', /capital M/],
    ['1.1', '20 °C', /does not say how much/],
    ['1.1', '-1 g', /negative/],
    ['9.9', '1 g', /no longer/],
    ['1.1', 'excess', /cannot be worked out/],
  ])('refuses %s: %s', (use, written, why) => {
    const edit = change(use, written);
    expect(edit.ok).toBe(false);
    if (!edit.ok) expect(edit.why).toMatch(why);
  });
});

describe('whatever is typed into an amount', () => {
  it('is taken whole or refused with a reason, and never throws', () => {
    const experiment = readExperiment(TEXT);
    const typed = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 20 }),
      fc
        .tuple(
          fc.constantFrom('', 'ca. ', '2 × ', 'up to ', '-'),
          fc.float({ noNaN: true, min: 0, max: 5000 }),
          fc.constantFrom(
            ' g',
            ' mL',
            ' mmol',
            ' equiv',
            ' mol %',
            ' drops',
            ' °C',
            '',
            ' g and 2 mL',
          ),
        )
        .map((parts) => parts.join('')),
    );
    fc.assert(
      fc.property(typed, fc.constantFrom('1.1', '1.2', '1.3', '2.1', '3.2', '4.1'), (text, use) => {
        const edit = changeAmount(TEXT, experiment, use, text);
        if (!edit.ok) expect(edit.why).not.toBe('');
        else expect(usesOf(readExperiment(edit.text)).map((each) => each.id)).toContain(use);
      }),
      { numRuns: RUNS },
    );
  });
});

const idOf = ({ substances }: Experiment, name: string) =>
  substances.find((each) => each.name === name)!.id;
const usesOf = ({ steps }: Experiment) => steps.flatMap((step) => step.slots.materials ?? []);

/** The whole meaning of a document, the amounts of one use apart. */
function meaningBut(experiment: Experiment, useId: string): unknown {
  return {
    ...experiment,
    diagnostics: [],
    notes: experiment.notes.map((note) => note.text),
    vessels: experiment.vessels.map(({ span: _, ...rest }) => rest),
    reactions: experiment.reactions.map((each) => each.text),
    products: experiment.products.map((each) => each.name),
    substances: experiment.substances.map((each) => each.id),
    steps: experiment.steps.map((step) =>
      meaningOf({
        ...step,
        slots: {
          ...step.slots,
          materials: (step.slots.materials ?? []).map((use) =>
            use.id === useId ? { ...use, amounts: [], repeat: 1 } : use,
          ),
        },
      }),
    ),
  };
}

const all = documents().map(([path, text]) => ({ path, text, experiment: readExperiment(text) }));
const counted = (use: MaterialUse) =>
  use.amounts.find((each): each is Amount => each.kind === 'mass' || each.kind === 'volume');
const choices = all.flatMap(({ path, text, experiment }) =>
  usesOf(experiment)
    .filter((use) => counted(use) !== undefined)
    .map((use) => ({ path, text, experiment, use })),
);

describe('in every document', () => {
  it('an amount that is changed is the only thing that changes', () => {
    let made = 0;
    fc.assert(
      fc.property(
        fc.constantFrom(...choices),
        fc.double({ min: 0.8, max: 1.25, noNaN: true }),
        ({ text, experiment, use }, factor) => {
          const { high: _, ...before } = counted(use)!;
          const wanted = {
            ...before,
            value: Number((before.value * factor).toPrecision(3)),
            digits: 3,
          };
          const written = formatAmount(wanted);
          const edit = changeAmount(text, experiment, use.id, written);
          if (!edit.ok) return;
          made++;
          expect(applied(text, edit.change)).toBe(edit.text);
          expect(edit.change.from).toBeGreaterThanOrEqual(use.span.start);
          expect(edit.change.to).toBeLessThanOrEqual(use.span.end);
          const after = readExperiment(edit.text);
          const there = usesOf(after).find((each) => each.id === use.id)!;
          expect(there.amounts.map(amountMeaning)).toContainEqual(
            amountMeaning(readAmount(written) as Amount),
          );
          expect(there.amounts).toHaveLength(use.amounts.length);
          expect(meaningBut(after, use.id)).toEqual(meaningBut(experiment, use.id));
        },
      ),
      { numRuns: RUNS },
    );
    expect(made).toBeGreaterThan(RUNS * 0.9);
  });
});

describe('a substance is added', () => {
  const substance = {
    name: '4-methylcyclohexyl acetate',
    smiles: 'CC(=O)OC1CCC(C)CC1',
    state: 'liquid',
    density_g_mL: 0.94,
    boilingPoint_C: 186,
    alsoCalled: ['the ester'],
  } as const;
  const line =
    '- 4-methylcyclohexyl acetate: SMILES CC(=O)OC1CCC(C)CC1; liquid; density 0.94 g/mL; bp 186 °C; also called the ester';

  it('in a section that is made before the vessels', () => {
    const { text } = done(addSubstance(TEXT, substance));
    expect(text).toBe(TEXT.replace('## Vessels', `## Substances\n\n${line}\n\n## Vessels`));
    const [made] = readExperiment(text).substances;
    expect(made).toMatchObject({ density_g_mL: 0.94, boilingPoint_C: 186, state: 'liquid' });
  });

  it('behind the last line of the section that is there', () => {
    const first = done(addSubstance(TEXT, { name: 'saltine', formula: 'NaCl' })).text;
    const { text } = done(addSubstance(first, substance));
    expect(text).toBe(first.replace('formula NaCl\n', `formula NaCl\n${line}\n`));
    expect(readExperiment(text).substances.map((each) => each.name)).toEqual([
      'saltine',
      substance.name,
    ]);
  });

  it('at the end of a document without a procedure, and with the line ends that are there', () => {
    const { text } = done(addSubstance('# Trial\r\n', { name: 'saltine', formula: 'NaCl' }));
    expect(text).toBe('# Trial\r\n\r\n## Substances\r\n\r\n- saltine: formula NaCl\r\n');
    expect(readExperiment(text).substances).toHaveLength(1);
  });

  it.each([
    [{ name: '' }, /no name/],
    [{ name: 'a; b', formula: 'NaCl' }, /semicolon/],
    [{ name: 'oddity', smiles: 'C1CC(' }, /./],
    [{ name: 'oddity', formula: 'Xq2' }, /./],
  ])('refuses %o', (wrong, why) => {
    const edit = addSubstance(TEXT, wrong);
    expect(edit.ok).toBe(false);
    if (!edit.ok) expect(edit.why).toMatch(why);
  });

  it('refuses a name that is declared', () => {
    const { text } = done(addSubstance(TEXT, substance));
    expect(addSubstance(text, substance)).toMatchObject({ ok: false });
  });

  it('leaves every other word of every document', () => {
    for (const { text, experiment } of all) {
      const edit = done(addSubstance(text, { name: 'saltine', smiles: 'OCC(O)C(O)C1CCC1' }));
      const after = readExperiment(edit.text);
      expect(after.substances.map((each) => each.id).sort()).toEqual(
        [...experiment.substances.map((each) => each.id), idOf(after, 'saltine')].sort(),
      );
      expect(after.steps.map(meaningOf)).toEqual(experiment.steps.map(meaningOf));
      expect(after.notes.map((note) => note.text)).toEqual(experiment.notes.map((n) => n.text));
    }
  });
});
