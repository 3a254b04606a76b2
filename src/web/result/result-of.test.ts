import { describe, expect, it } from 'vitest';
import type { RunOpened } from '../../wire/run.ts';
import { answerParts, nextStep } from './answer-parts.ts';
import { derivedOf, derivedRow, derivedUncertainty } from './derived.ts';
import { enteredRows } from './entered.ts';
import { figuresIn } from './figures.ts';
import { plannedOf, resultOf } from './result-of.ts';
import { seenIn } from './seen.ts';
import { openedRun } from './testing.ts';
import { whatHelps } from './what-helps.ts';

const worked = (run: RunOpened) =>
  resultOf(
    plannedOf(run.text),
    run.kept.map(({ entry }) => entry),
    run.document,
  );
const plain = (text: string) => text.replaceAll('\u202f', ' ');
const figures = figuresIn('.');

function said(run: RunOpened, sign: '.' | ',' = '.') {
  const result = worked(run);
  const [product] = result.report.products;
  const parts = product === undefined ? [] : answerParts(product, figuresIn(sign));
  return {
    sentence: plain(parts.map(({ text }) => text).join('')),
    next: nextStep(result.report, result.run.entries.length),
  };
}

describe('the answer', () => {
  it('is the yield with what theory allows', () => {
    expect(said(openedRun('cyclohexanol', 1))).toEqual({
      sentence: '0.899 g of 4-methylcyclohexanol: 78.6 ± 0.5 % of the 1.144 g that theory allows.',
      next: undefined,
    });
  });

  it('is a recovery where nothing is made, with the sign of the laboratory', () => {
    expect(said(openedRun('separation', 2), ',').sentence).toBe(
      '0,824 g of benzoic acid: 82,6 ± 0,6 % of the 0,9970 g that was charged.',
    );
  });

  it('says what to do where a tare is missing', () => {
    const { sentence, next } = said(openedRun('ester', 2));
    expect(sentence).toBe('3-Methylbutyl acetate is not weighed yet; theory allows 13.05 g.');
    expect(next).toContain('tare is missing');
  });

  it('says that nothing is entered', () => {
    const { next } = said(openedRun('cyclohexanol', 1, () => ({ entries: [] })));
    expect(next).toContain('Nothing is entered yet');
  });

  it('says that there is no theory without a reaction', () => {
    const without = (text: string) => text.replace(/## Reaction\n[\s\S]*?\n## /, '## ');
    const { sentence, next } = said(
      openedRun('cyclohexanol', 1, (_entries, text) => ({ text: without(text) })),
    );
    expect(sentence).toBe(
      '0.899 g of 4-methylcyclohexanol; there is no theory to compare it with.',
    );
    expect(next).toContain('Write the reaction');
  });

  it('is of the crude while that is all that was weighed', () => {
    const run = openedRun('grignard', 1, (entries) => ({
      entries: entries.filter(({ step }) => step !== '32'),
    }));
    expect(said(run).sentence).toMatch(/^2\.298 g of crude triphenylmethanol: 88\.1 ± 0\.3 %/);
  });
});

describe('what was entered', () => {
  const rowsOf = (run: RunOpened) => {
    const { planned, run: folded } = worked(run);
    return enteredRows(planned.experiment, planned.plan, folded, '.');
  };

  it('stands beside the plan, with the difference', () => {
    const [first] = rowsOf(openedRun('cyclohexanol', 1));
    expect(first).toMatchObject({ step: '1', what: '4-methylcyclohexanone', sum: false });
    expect(plain(first!.planned!.text)).toBe('1.12 g');
    expect(plain(first!.measured.text)).toBe('1.124 g');
    expect(plain(first!.difference!)).toBe('+0.4 %');
  });

  it('keeps a struck line with its reason before the one in its place', () => {
    const [struck, standing] = rowsOf(openedRun('cyclohexanol', 3));
    expect(plain(struck!.measured.text)).toBe('1.211 g');
    expect(struck!.struck).toMatch(/Digits the wrong way round/);
    expect(plain(standing!.measured.text)).toBe('1.121 g');
  });

  it('keeps the noughts that were written', () => {
    const run = openedRun('cyclohexanol', 3);
    expect(rowsOf(run).map(({ measured }) => plain(measured.text))).toContain('57.980 g');
  });

  it.each(['cyclohexanol', 'grignard', 'separation', 'ester', 'hydrogenation', 'aminoketone'])(
    'has every weighing of %s once, in the order of the steps, and says where it is from',
    (example) => {
      const run = openedRun(example, 1);
      const result = worked(run);
      const rows = rowsOf(run);
      const ids = rows.flatMap(({ entry }) => (entry ? [entry.id] : []));
      const seen = seenIn(result.run, '.').map(({ entry }) => entry.id);
      expect([...ids, ...seen].sort()).toEqual(run.kept.map(({ entry }) => entry.id).sort());
      expect(new Set(rows.map(({ key }) => key)).size).toBe(rows.length);
      for (const row of rows.filter(({ entry }) => entry?.kind !== 'charge'))
        expect(derivedRow(row, result)).toBeDefined();
    },
  );
});

describe('where a number is from', () => {
  it('goes from the yield down to the readings and the ledger', () => {
    const result = worked(openedRun('cyclohexanol', 1));
    const product = result.report.products[0]!;
    const net = derivedOf('net', product, result)!;
    expect(net.lines.map(({ value }) => value)).toEqual([59.311, 58.412]);
    expect(net.result.value).toBeCloseTo(0.899, 9);
    expect(net.postings.map(({ to }) => to)).toContain('missing at step 18');
    expect(derivedOf('yield', product, result)!.result.value).toBeCloseTo(78.57, 2);
    expect(derivedOf('theory', product, result)!.result.value).toBeCloseTo(1.1442, 4);
    expect(derivedUncertainty(product, result)!.result.value).toBeCloseTo(
      product.yield!.U_percent,
      9,
    );
  });
});

describe('what would help', () => {
  const helpOf = (run: RunOpened) => {
    const result = worked(run);
    return plain(whatHelps(result.report.products[0]!, result, figures) ?? '');
  };

  it('is a finer balance for what makes most of the uncertainty', () => {
    expect(helpOf(openedRun('cyclohexanol', 1))).toBe(
      '61 % of the variance comes from weighing the product. If the product is weighed on a balance that reads to 0.1 mg, ± comes down to 0.3 %.',
    );
  });

  it('is to measure what was only taken as written', () => {
    expect(helpOf(openedRun('aminoketone', 2))).toMatch(
      /81 % .* the 1 M hydrochloric acid, step 2, which nobody measured/,
    );
  });

  it('says nothing where there is no yield', () => {
    expect(helpOf(openedRun('ester', 2))).toBe('');
  });
});
