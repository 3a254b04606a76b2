import { expect, test } from 'vitest';
import { numberColumns, pastedTable } from './pasted-table.ts';

const cells = (text: string) => pastedTable(text)?.rows.map((row) => row.cells);

test.each([
  [
    'tabs and points',
    '3.42\t1200.5\n4.10\t30',
    [
      [3.42, 1200.5],
      [4.1, 30],
    ],
  ],
  [
    'tabs and commas',
    '3,421\t12,345\n4,100\t30',
    [
      [3.421, 12.345],
      [4.1, 30],
    ],
  ],
  ['semicolons and commas', '3,42;1200,5', [[3.42, 1200.5]]],
  ['commas', '1, 3.42, 1200', [[1, 3.42, 1200]]],
  [
    'blanks',
    '  43 100\n  71.1   35 ',
    [
      [43, 100],
      [71.1, 35],
    ],
  ],
  ['commas in all numbers', '3,42 1200,5', [[3.42, 1200.5]]],
  ['a count and commas in numbers', '1;3,42;1200', [[1, 3.42, 1200]]],
  ['blanks and commas in numbers', '43,05 100', [[43.05, 100]]],
  [
    'thousands',
    '3.42\t12,345\n4.00\t1,234,567.8',
    [
      [3.42, 12345],
      [4, 1234567.8],
    ],
  ],
  [
    'thousands the other way',
    '3,42\t12.345,6\n4,0\t1 234',
    [
      [3.42, 12345.6],
      [4, 1234],
    ],
  ],
])('a table with %s', (_, text, expected) => {
  expect(cells(text)).toEqual(expected);
});

test('words are kept, headings found, and lines without numbers told', () => {
  const table = pastedTable(
    'Report of 3 May\n\nTime\tName\tArea\n[min]\t\t[pA*s]\n3.4\tketone\t12\nnote\n4.1\t\t3\n',
  );
  expect(table).toEqual({
    headings: ['Time [min]', 'Name', 'Area [pA*s]'],
    rows: [
      { line: 5, cells: [3.4, 'ketone', 12] },
      { line: 7, cells: [4.1, '', 3] },
    ],
    unread: [6],
  });
});

test('a count of the lines is no measurement, two columns are', () => {
  const of = (text: string) => numberColumns(pastedTable(text)!);
  expect(of('1\t3.4\t12\n2\t4.1\t3')).toEqual([1, 2]);
  expect(of('1\t12\n2\t3')).toEqual([0, 1]);
  expect(of('3.4\tBB\t12')).toEqual([0, 2]);
});

test('a text without two numbers on a line is no table', () => {
  expect(pastedTable('nothing here\n12')).toBeUndefined();
  expect(pastedTable('')).toBeUndefined();
});
