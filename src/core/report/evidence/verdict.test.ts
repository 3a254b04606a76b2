import { describe, expect, test } from 'vitest';
import type { Statement } from '../../evidence/statement.ts';
import { DEFAULT_YIELD_POLICY } from '../yield/policy.ts';
import { choosePurity, correctedYield } from './corrected-yield.ts';
import { verdictOf, verdictSentence } from './verdict.ts';
import type { SourcedStatement } from './verdict.ts';

function said(more: Partial<Statement>): SourcedStatement {
  const statement: Statement = {
    id: 'x',
    technique: 'infrared',
    about: 'identity',
    what: 'Bands',
    measured: '',
    expected: '',
    agreement: 'agrees',
    weight: 'moderate',
    says: 'It fits.',
    limits: 'An isomer is not told apart.',
    ...more,
  };
  return { entry: `${statement.technique} ${statement.id}`, statement };
}

const melting = (more: Partial<Statement> = {}) => said({ technique: 'meltingRange', ...more });
const rowOf = (question: Statement['about'], statements: readonly SourcedStatement[]) =>
  verdictOf(statements).find((row) => row.question === question)!;

describe('what a substance is', () => {
  test.each<[string, SourcedStatement[], string]>([
    ['nothing measured', [], 'notMeasured'],
    ['one technique alone leaves it open', [said({})], 'open'],
    ['even a strong one', [said({ weight: 'strong' })], 'open'],
    ['two statements of one technique are one technique', [said({}), said({ id: 'y' })], 'open'],
    ['two techniques', [said({}), melting()], 'yes'],
    [
      'a spectrum and a test tube that show the same group',
      [said({}), said({ technique: 'chemicalTest' })],
      'open',
    ],
    [
      'the same, and a melting range',
      [said({}), said({ technique: 'chemicalTest' }), melting()],
      'yes',
    ],
    ['weak ones do not count', [said({ weight: 'weak' }), melting({ weight: 'weak' })], 'open'],
    ['one moderate against, none for', [melting({ agreement: 'disagrees' })], 'open'],
    [
      'two of moderate weight against',
      [melting({ agreement: 'disagrees' }), said({ agreement: 'disagrees' })],
      'no',
    ],
    [
      'a strong one for and a strong one against',
      [
        melting({ weight: 'strong' }),
        said({ technique: 'nmr', agreement: 'disagrees', weight: 'strong' }),
      ],
      'mixed',
    ],
    ['one against, one for', [said({}), melting({ agreement: 'disagrees' })], 'mixed'],
    [
      'a strong one against two',
      [said({}), melting(), said({ technique: 'nmr', agreement: 'disagrees', weight: 'strong' })],
      'no',
    ],
    ['none decides', [said({ agreement: 'cannotTell' })], 'open'],
  ])('%s', (_, statements, outcome) => {
    expect(rowOf('identity', statements).outcome).toBe(outcome);
  });

  test('that the sample is another substance speaks against the product', () => {
    const mixed = melting({ substance: 'camphor', weight: 'strong' });
    const row = (one: SourcedStatement) =>
      verdictOf([said({}), one], 'borneol').find(({ question }) => question === 'identity')!;
    expect(row(mixed).outcome).toBe('no');
    expect(row(melting({ substance: 'camphor', agreement: 'disagrees' })).outcome).toBe('open');
    expect(row(melting({ substance: 'borneol' })).outcome).toBe('yes');
    expect(row(melting({ substance: 'Borneol' })).outcome).toBe('yes');
  });

  test('every answer names its rule and keeps every statement', () => {
    const statements = [said({}), melting(), said({ about: 'startingMaterial' })];
    const rows = verdictOf(statements);
    expect(rows.flatMap((row) => row.statements)).toHaveLength(statements.length);
    for (const row of rows) expect(row.rule).toMatch(/\.$/);
  });
});

describe('what should not be there', () => {
  test('one measurement that sees it outweighs those that do not', () => {
    const seen = said({
      about: 'startingMaterial',
      agreement: 'disagrees',
      says: 'About 4 % of the ketone is left.',
    });
    const rows = verdictOf([melting({ about: 'startingMaterial' }), seen, said({}), melting()]);
    expect(rows.find(({ question }) => question === 'startingMaterial')).toMatchObject({
      outcome: 'no',
      says: 'About 4 % of the ketone is left.',
    });
    expect(verdictSentence(rows, 'borneol')).toBe(
      'What was made fits borneol. Some starting material is still in it.',
    );
  });
});

describe('how much a weak measurement carries', () => {
  test('what speaks against, alone, is named', () => {
    const rows = verdictOf([melting({ agreement: 'disagrees' })], 'borneol');
    expect(verdictSentence(rows, 'borneol')).toBe(
      'The melting range speaks against borneol; one more kind of measurement is needed.',
    );
  });

  test.each([
    ['a weak sign of starting material', {}, / Some starting material may still be in it\.$/],
    ['a clear one', { weight: 'moderate' }, / Some starting material is still in it\.$/],
  ] as const)('%s', (_, more, sentence) => {
    const left = { about: 'startingMaterial', weight: 'weak', agreement: 'disagrees' } as const;
    expect(verdictSentence(verdictOf([said({ ...left, ...more })]), 'borneol')).toMatch(sentence);
  });

  test('a spectrum against the product decides beside a change that nothing sees', () => {
    const against = said({ agreement: 'disagrees' });
    const missed = said({ about: 'change', agreement: 'disagrees' });
    expect(rowOf('identity', [against, missed]).outcome).toBe('no');
    const seen = said({ about: 'change', id: 'new' });
    expect(rowOf('identity', [against, missed, seen]).outcome).toBe('open');
  });
});

describe('the purity that corrects a yield', () => {
  const share = (value: number, u: number, more = {}) =>
    said({
      about: 'purity',
      technique: 'nmr',
      purity: { basis: 'mass', kind: 'measured', share: value, u, of: 'borneol', ...more },
    });

  test('the best measured mass share, before any bound', () => {
    const list = [
      share(0.9, 0.02),
      share(0.93, 0.01),
      share(0.8, 0, { kind: 'atMost' }),
      share(0.5, 0.001, { basis: 'area' }),
      share(0.4, 0.001, { of: 'camphor' }),
    ];
    expect(choosePurity(list, 'borneol')?.figure.share).toBe(0.93);
    expect(choosePurity(list.slice(2), 'borneol')?.figure.kind).toBe('atMost');
    expect(choosePurity(list.slice(3), 'borneol')).toBeUndefined();
  });

  test('a share above 1 within its uncertainty is 1; one beyond it is no share', () => {
    const isolated = { percent: 80, u_percent: 0.8, U_percent: 1.6 };
    const within = choosePurity([share(1.03, 0.02)], 'Borneol')!;
    expect(correctedYield(isolated, within, DEFAULT_YIELD_POLICY).corrected.percent).toBe(80);
    expect(choosePurity([share(1.04, 0.01)], 'borneol')).toBeUndefined();
  });

  test('relative uncertainties add in quadrature', () => {
    const isolated = { percent: 80, u_percent: 0.8, U_percent: 1.6 };
    const purity = choosePurity([share(0.9, 0.018)], 'borneol')!;
    const { corrected } = correctedYield(isolated, purity, DEFAULT_YIELD_POLICY);
    expect(corrected.percent).toBeCloseTo(72, 10);
    // √(1² + 2²) % of 72
    expect(corrected.u_percent).toBeCloseTo(0.72 * Math.sqrt(5), 10);
  });
});
