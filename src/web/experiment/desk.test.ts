// @vitest-environment jsdom
import { describe, expect, it } from 'vitest';
import { undo } from '@codemirror/commands';
import { makeDesk } from './desk.ts';
import { findingsHere, fixOf } from './editor/fixes.ts';

const TEXT = `# T

## Vessels

- flask: 50 mL round-bottom flask

## Procedure

1. Charge the flask with ethanol 10 mL.
2. Heat the flask at 60 °C for 10 min.
`;

describe('the desk', () => {
  it('enacts within the edit, and tells who listens', () => {
    const desk = makeDesk(TEXT, 0);
    const heard: (number | undefined)[] = [];
    desk.subscribe(({ enacted }) => heard.push(enacted.plan.charges[0]?.volume_mL));
    const at = TEXT.indexOf('10 mL');
    desk.edit({ changes: { from: at, to: at + 2, insert: '25' } });
    expect(heard).toEqual([25]);
    expect(desk.now().enacted.text).toContain('ethanol 25 mL');
  });

  it('looks at the step of the cursor, and goes on looking when the cursor leaves the procedure', () => {
    const desk = makeDesk(TEXT, 0);
    expect(desk.now().step).toBeUndefined();
    desk.goTo(TEXT.indexOf('Heat'));
    expect(desk.now().step).toBe('2');
    desk.goTo(0);
    expect(desk.now().step).toBe('2');
    desk.edit({ changes: { from: TEXT.indexOf('2. Heat'), to: TEXT.length } });
    expect(desk.now().step).toBeUndefined();
  });

  it('can undo an edit that came from elsewhere on the page', () => {
    const desk = makeDesk(TEXT, 0);
    const unmount = desk.mount(document.createElement('div'));
    desk.edit({ changes: { from: 0, to: 3, insert: '# Other' } });
    expect(desk.now().enacted.experiment.title).toBe('Other');
    undo({ state: desk.state(), dispatch: (transaction) => desk.edit(transaction) });
    expect(desk.now().enacted.text).toBe(TEXT);
    unmount();
    expect(desk.now().enacted.text).toBe(TEXT);
  });

  it('applies a fix to the words that it means', () => {
    const wrong = TEXT.replace('Heat', 'Haet');
    const desk = makeDesk(wrong, wrong.indexOf('Haet'));
    const [finding] = findingsHere(desk.state());
    const mending = fixOf(desk.state(), {
      ...finding!,
      fix: 'Heat',
      at: { line: 10, column: 4, length: 4 },
    });
    desk.edit(mending!);
    expect(desk.now().enacted.text).toBe(TEXT);
    expect(findingsHere(desk.state()).map(({ severity }) => severity)).not.toContain('error');
  });
});
