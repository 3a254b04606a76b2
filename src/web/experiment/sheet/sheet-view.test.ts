// @vitest-environment jsdom
import { expect, it } from 'vitest';
import { flowSheet } from '../../../core/report/flow/flow.ts';
import { flowSheetParts } from '../../../picture/flow-sheet/flow-sheet.ts';
import { enacted } from '../enacted.ts';
import { sheetView } from './sheet-view.ts';

const text = (second: string) => `# T

## Vessels

- flask: 50 mL round-bottom flask

## Procedure

1. Charge the flask with ethanol 10 mL.
2. ${second}
3. Stir the flask for 5 min.
`;
const picture = (second: string) => {
  const { experiment, plan } = enacted(text(second));
  return flowSheetParts(flowSheet(experiment, plan), { width: 800 });
};

it('changes the row that changed and no other', () => {
  const view = sheetView('Steps');
  view.show(picture('Heat the flask at 60 °C for 10 min.'), '2');
  const [first, second, third] = ['1', '2', '3'].map(view.rowOf);
  view.show(picture('Heat the flask at 60 °C for 12 min.'), '2');
  expect(view.rowOf('1')).toBe(first);
  expect(view.rowOf('2')).not.toBe(second);
  // The third begins two minutes later, and says so.
  expect(view.rowOf('3')).not.toBe(third);
  expect(second?.isConnected).toBe(false);
});

it('is a list with one stop for Tab, at the step that is looked at', () => {
  const view = sheetView('Steps');
  view.show(picture('Cool the flask in ice for 5 min.'), '2');
  const rows = [...view.svg.querySelectorAll('[data-step]')];
  expect(view.svg.getAttribute('role')).toBe('list');
  expect(rows.map((row) => row.getAttribute('role'))).toEqual(rows.map(() => 'listitem'));
  expect(rows.map((row) => row.getAttribute('tabindex'))).toEqual(['-1', '0', '-1']);
  expect(rows[1]?.getAttribute('aria-current')).toBe('step');
  expect(rows[1]?.getAttribute('aria-label')).toMatch(/Step 2.*Cool the flask/);
  view.show(picture('Cool the flask in ice for 5 min.'), undefined);
  expect(rows.map((row) => row.getAttribute('tabindex'))).toEqual(['0', '-1', '-1']);
});
