import { describe, expect, test } from 'vitest';
import type { Amount } from './amount.ts';
import { readAmount, readAmountAt, total } from './amount.ts';

const NB = '\u00a0';
const THIN = '\u2009';

/** What is written, and what of the reading is told apart from the usual. */
const READ: readonly (readonly [string, Partial<Amount>])[] = [
  ['1.25 g', { kind: 'mass', value: 1.25, digits: 3, unit: 'g' }],
  ['1,25 g', { kind: 'mass', value: 1.25, digits: 3 }],
  ['.5 g', { value: 0.5, digits: 1 }],
  ['12.50 mg', { kind: 'mass', value: 0.0125, digits: 4, unit: 'mg' }],
  ['5 ug', { kind: 'mass', value: 0.000005, unit: 'µg' }],
  ['5 μg', { kind: 'mass', value: 0.000005, unit: 'µg' }],
  ['2 × 5 mL', { kind: 'volume', value: 5, repeat: 2, digits: 1 }],
  ['3 x 2 mL', { value: 2, repeat: 3 }],
  ['2×5mL', { value: 5, repeat: 2 }],
  ['5 mL × 2', { value: 5, repeat: 2 }],
  ['2 × 5 mL portions', { value: 5, repeat: 2 }],
  ['two 5 mL portions', { value: 5, repeat: 2 }],
  ['three 10-mL portions', { value: 10, repeat: 3 }],
  ['3 100 mL portions', { value: 100, repeat: 3 }],
  ['two portions of 5 mL each', { value: 5, repeat: 2 }],
  ['another 5 mL portion', { value: 5, further: true }],
  ['2 × ca. 5 mL', { value: 5, repeat: 2, approximate: true }],
  ['10–15 min', { kind: 'time', value: 10, high: 15 }],
  ['10-15 min', { value: 10, high: 15 }],
  ['10 to 15 min', { value: 10, high: 15 }],
  ['ten to fifteen minutes', { value: 10, high: 15 }],
  ['10 mL–15 mL', { value: 10, high: 15 }],
  ['30 s to 1 min', { value: 0.5, high: 1, unit: 's' }],
  ['2 × 10–15 mL', { value: 10, high: 15, repeat: 2 }],
  ['1 h 30 min', { kind: 'time', value: 90, digits: 2, unit: 'min' }],
  ['1 h and 30 min', { value: 90 }],
  ['1h30', { value: 90 }],
  ['2 min 30 s', { value: 2.5, unit: 's' }],
  ['1.5 h', { value: 90, unit: 'h', digits: 2 }],
  ['1.1 h', { value: 66 }],
  ['half an hour', { value: 30, unit: 'h' }],
  ['three quarters of an hour', { value: 45 }],
  ['an hour', { value: 60 }],
  ['an hour and a half', { value: 90 }],
  ['one and a half hours', { value: 90 }],
  ['1½ h', { value: 90 }],
  ['1 1/2 h', { value: 90 }],
  ['forty-five minutes', { value: 45 }],
  ['another hour', { value: 60, further: true }],
  ['2 d', { value: 2880 }],
  ['overnight', { kind: 'time', value: 960, assumed: 'overnight taken as 16 h (common practice)' }],
  ['a few minutes', { value: 3, approximate: true, assumed: 'a few taken as 3 (common practice)' }],
  ['several hours', { value: 300, approximate: true }],
  ['5 % w/w', { kind: 'massPercent', value: 5 }],
  ['5 wt%', { kind: 'massPercent', value: 5 }],
  ['5 wt. %', { kind: 'massPercent', value: 5 }],
  ['5 % by mass', { kind: 'massPercent', value: 5 }],
  ['5% (w/v)', { kind: 'massVolumePercent', value: 5 }],
  ['95 % v/v', { kind: 'volumePercent', value: 95 }],
  ['5%', { kind: 'percent', value: 5 }],
  ['0.5 M', { kind: 'molarity', value: 0.5, unit: 'M' }],
  ['0.5 mol/L', { kind: 'molarity', value: 0.5, unit: 'mol/L' }],
  ['0.5 mol dm⁻³', { kind: 'molarity', value: 0.5, unit: 'mol dm⁻³' }],
  ['0.5 mol L-1', { kind: 'molarity', value: 0.5, unit: 'mol L⁻¹' }],
  ['0.5 mol·L^-1', { kind: 'molarity', value: 0.5, unit: 'mol L⁻¹' }],
  ['5 mmol/mL', { kind: 'molarity', value: 5 }],
  ['2.5 N', { kind: 'molarity', value: 2.5, unit: 'N' }],
  ['12 mM', { kind: 'molarity', value: 0.012 }],
  ['1.2 equiv', { kind: 'equivalents', value: 1.2 }],
  ['1.2 eq.', { kind: 'equivalents', value: 1.2 }],
  ['1.2 equivalents', { kind: 'equivalents', value: 1.2 }],
  ['2 molar equivalents', { kind: 'equivalents', value: 2 }],
  ['10 mol%', { kind: 'moleFraction', value: 10 }],
  ['10 mol %', { kind: 'moleFraction', value: 10 }],
  ['20 mmol', { kind: 'amount', value: 20 }],
  ['0.02 mol', { kind: 'amount', value: 20 }],
  ['0.5 kmol', { kind: 'amount', value: 500_000 }],
  ['250 µmol', { kind: 'amount', value: 0.25 }],
  ['ca. 2 g', { value: 2, approximate: true }],
  ['ca 2 g', { value: 2, approximate: true }],
  ['about 2 g', { value: 2, approximate: true }],
  ['approx. 2 g', { value: 2, approximate: true }],
  ['~2 g', { value: 2, approximate: true }],
  ['≈2 g', { value: 2, approximate: true }],
  ['about a further 2 g', { value: 2, approximate: true, further: true }],
  ['up to 10 mL', { value: 10, upTo: true }],
  ['below 5 °C', { kind: 'temperature', value: 5, upTo: true }],
  ['not more than 5 °C', { value: 5, upTo: true }],
  ['at least 10 min', { value: 10, atLeast: true }],
  ['a minimum of 10 min', { value: 10, atLeast: true }],
  ['a further 5 mL', { value: 5, further: true }],
  ['−78 °C', { kind: 'temperature', value: -78 }],
  ['-78 °C', { value: -78 }],
  ['–78 °C', { value: -78 }],
  ['78°C', { value: 78 }],
  ['5 degrees C', { value: 5, unit: '°C' }],
  ['5 deg C', { value: 5 }],
  ['-10--5 °C', { value: -10, high: -5 }],
  ['0–5 °C', { value: 0, high: 5 }],
  ['300 K', { value: 26.85, digits: 3, unit: 'K' }],
  ['140 °F', { value: 60 }],
  ['room temperature', { value: 20, assumed: 'room temperature taken as 20 °C (common practice)' }],
  ['RT', { value: 20, unit: 'room temperature' }],
  ['r.t.', { value: 20 }],
  ['ambient temperature', { value: 20 }],
  [
    '10 drops',
    { kind: 'drops', value: 0.5, assumed: '10 drops at 0.05 mL each (common practice)' },
  ],
  ['one drop', { kind: 'drops', value: 0.05 }],
  ['a few drops', { kind: 'drops', value: 0.15, approximate: true }],
  ['2 × 5 drops', { kind: 'drops', value: 0.25, repeat: 2 }],
  ['1–2 drops per second', { kind: 'frequency', value: 60, high: 120 }],
  ['300 rpm', { kind: 'frequency', value: 300 }],
  ['pH 7', { kind: 'pH', value: 7, digits: 1 }],
  ['pH 1–2', { kind: 'pH', value: 1, high: 2 }],
  ['a pH of 7', { kind: 'pH', value: 7 }],
  ['20 mbar', { kind: 'pressure', value: 2 }],
  ['1 atm', { kind: 'pressure', value: 101.325 }],
  ['760 Torr', { kind: 'pressure', value: 101.325 }],
  ['760 mm Hg', { kind: 'pressure', value: 101.32472, unit: 'mmHg' }],
  ['2 cm', { kind: 'length', value: 20 }],
  ['254 nm', { kind: 'length', value: 0.000254 }],
  ['1.2 g/mL', { kind: 'massPerVolume', value: 1.2 }],
  ['1.2 g cm⁻³', { kind: 'massPerVolume', value: 1.2 }],
  ['12 g/L', { kind: 'massPerVolume', value: 0.012 }],
  ['0,250 g', { value: 0.25, digits: 3 }],
  ['12,500,000 mg', { value: 12_500 }],
  ['1,250.5 mL', { value: 1250.5, digits: 5 }],
  ['1.250,5 mL', { value: 1250.5 }],
  [`1${NB}000 mL`, { value: 1000 }],
  [`1${THIN}000${NB}mL`, { value: 1000 }],
  ['1.2e-3 g', { value: 0.0012, digits: 2 }],
  ['1.2 × 10^-3 mol', { value: 1.2, digits: 2 }],
  ['1.2 × 10⁻³ mol', { value: 1.2, digits: 2 }],
  ['2 × 1.2 × 10⁻³ mol', { value: 1.2, repeat: 2 }],
  ['½ mL', { value: 0.5 }],
  ['1/2 mL', { value: 0.5 }],
  ['5 mls', { kind: 'volume', value: 5, unit: 'mL' }],
  ['5 millilitres', { value: 5 }],
  ['5 milliliters', { value: 5 }],
  ['5 cc', { value: 5, unit: 'cm³' }],
  ['2 dm3', { value: 2000, unit: 'dm³' }],
  ['5 gm', { kind: 'mass', value: 5 }],
  ['5 gms', { value: 5 }],
  ['5 Grams', { value: 5 }],
  ['0 g', { value: 0, digits: 1 }],
];

describe('what people write is read', () => {
  test.each(READ)('%s', (text, expected) => {
    expect(readAmount(text)).toMatchObject({ ...expected, text: text.replace(/\.$/, '') });
  });

  test('a plain amount has no flags', () => {
    expect(readAmount('1.25 g')).toEqual({
      kind: 'mass',
      value: 1.25,
      digits: 3,
      unit: 'g',
      text: '1.25 g',
    });
  });
});

describe('amounts without a number', () => {
  test.each([
    ['2 spatulas', 'spatula', 'some'],
    ['a spatula-tip', 'spatula tip', 'some'],
    ['a little', 'a little', 'some'],
    ['a small amount', 'a small amount', 'some'],
    ['a pinch', 'a pinch', 'some'],
    ['a few crystals', 'a few crystals', 'some'],
    ['a crystal', 'a crystal', 'some'],
    ['the minimum volume', 'the minimum', 'some'],
    ['excess', 'excess', 'excess'],
    ['an excess of', 'excess', 'excess'],
    ['until colourless', 'until colourless', 'until'],
    ['until pH 7.5', 'until pH 7.5', 'until'],
    ['till the colour is  discharged', 'until the colour is discharged', 'until'],
    ['until constant mass', 'to constant mass', 'constantMass'],
    ['to constant weight', 'to constant mass', 'constantMass'],
  ])('%s', (text, word, sense) => {
    expect(readAmount(text)).toMatchObject({ kind: 'unquantified', word, sense });
  });

  test('two spatulas are taken as twice one', () => {
    expect(readAmount('2 spatulas')).toMatchObject({
      assumed: { kind: 'mass', value: 0.4, source: 'from memory' },
    });
  });

  test.each([
    ['Warm until it dissolves, then cool.', 'until it dissolves'],
    ['Warm until it (nearly, at least) dissolves; cool.', 'until it (nearly, at least) dissolves'],
    ['Add acid until pH 2.5. Filter.', 'until pH 2.5'],
    ['Warm (until clear) and cool', 'until clear'],
  ])('the clause ends in %s', (sentence, clause) => {
    const reading = readAmountAt(sentence, sentence.indexOf('until'));
    expect(reading).toMatchObject({ kind: 'amount', amount: { text: clause } });
  });
});

describe('what cannot be taken is refused with what to write', () => {
  test.each([
    ['1,000 mL', '1000 or 1.000'],
    ['1,250 g', '1250 or 1.250'],
    ['1 000 mL', '1000'],
    ['15–10 min', 'smaller number first'],
    ['−5 to −10 °C', 'smaller number first'],
    ['2 x 10-3 mL', '10⁻³'],
    ['-5 mL', 'minus'],
    ['-1 g', 'minus'],
    ['1e999 g', 'power of ten'],
    ['1e-999 g', 'power of ten'],
    ['NaN g', 'figures'],
    ['Infinity mL', 'figures'],
    ['５ mL', '0 to 9'],
    ['٥ mL', '0 to 9'],
    ['5 ML', 'mL'],
    ['5 MG', 'mg'],
    ['5 Mmol', 'mmol'],
    ['60 C', '°C'],
    ['-78C', '°C'],
    ['60°', '°C'],
    ['5 lb', 'grams'],
    ['3 oz', 'grams'],
    ['1 teaspoon', 'millilitres'],
    ['5 mL/min', 'over'],
    ['5 mL min⁻¹', 'over'],
    ['05 g', '0.5'],
    ['1.2.3 g', 'one decimal'],
    ['1.2345678901234 g', 'at most'],
    ['-300 °C', 'figure'],
    ['120 % w/w', 'figure'],
    ['pH 70', 'figure'],
    ['2.5 × 4 mL', '2 × 5 mL'],
    ['0 × 4 mL', '1 to'],
  ])('%s', (text, hint) => {
    const reading = readAmountAt(text, 0);
    expect(reading.kind).toBe('refused');
    expect(reading).toMatchObject({ start: 0, end: text.length });
    expect((reading as { hint: string }).hint).toContain(hint);
    expect(readAmount(text).kind).toBe('refused');
  });

  test('the whole text must be one amount', () => {
    expect(readAmount('5 mL 6 mL')).toMatchObject({ kind: 'refused', start: 4 });
    expect(readAmount('water')).toMatchObject({ kind: 'refused' });
    expect(readAmount('')).toMatchObject({ kind: 'refused' });
  });
});

describe('what is no amount is left alone', () => {
  test.each([
    '4-methylcyclohexanone',
    '1,4-dioxane',
    '2-propanol',
    '2 N-methylaniline',
    '4-N,N-dimethyl',
    '67-64-1',
    '5 gg',
    '1 g/kg',
    '12',
    'dropwise',
    'a second flask',
    'a flask',
    'some of it',
    'overnighters',
    'until',
    'water',
    '21 needle',
    '2 HCl',
    '5 mmol2',
    '',
  ])('%s', (text) => {
    expect(readAmountAt(text, 0)).toEqual({ kind: 'none' });
  });

  test.each([
    ['Destroy the excess hydride', 'excess'],
    ['in excess here', 'excess'],
    ['Make up to 100 mL', 'up'],
    ['Warm up to 60 °C', 'up'],
    ['C10 mL', '10'],
  ])('%s', (sentence, word) => {
    expect(readAmountAt(sentence, sentence.indexOf(word))).toEqual({ kind: 'none' });
  });
});

describe('an amount ends where the sentence goes on', () => {
  test.each([
    ['from 20 °C to 60 °C', 5, '20 °C'],
    ['5 mL to 50 mL', 0, '5 mL'],
    ['add 10 mL of ether', 4, '10 mL'],
    ['add 1.2 equiv. of acid', 4, '1.2 equiv.'],
    ['add 1.2 equiv. Stir', 4, '1.2 equiv'],
    ['Stir at r.t. Cool', 8, 'r.t'],
    ['2 cm × 3 cm', 0, '2 cm'],
    ['5 mL × 2 of ether', 0, '5 mL × 2'],
    ['5 % water', 0, '5 %'],
    ['5 % weighed', 0, '5 %'],
    ['250-mL flask', 0, '250-mL'],
    ['1 M hydrochloric acid 10 mL', 0, '1 M'],
    ['5 mm L', 0, '5 mm'],
    ['10\n   mL of', 0, '10\n   mL'],
    ['pH 7 to 10 mL', 0, 'pH 7'],
  ])('%s', (sentence, at, text) => {
    const reading = readAmountAt(sentence, at);
    expect(reading).toMatchObject({ kind: 'amount', amount: { text }, end: at + text.length });
  });
});

test('total counts the repeats, at either end of a range', () => {
  const amount = readAmount('3 × 10–12 mL') as Amount;
  expect(total(amount)).toBe(30);
  expect(total(amount, 'high')).toBe(36);
  expect(total(readAmount('5 mL') as Amount, 'high')).toBe(5);
});
