// @vitest-environment jsdom
import { cleanup, fireEvent, render, screen, waitFor } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { DEFAULT_SETTINGS } from '../../../wire/settings.ts';
import { entry } from '../outbox/testing.ts';
import { KETONE, RecordForTest, stepWith } from '../testing.tsx';
import type { Written } from '../testing.tsx';
import { StepView } from './step-view.tsx';

let written: Written;
beforeEach(() => {
  written = { entries: [], files: [] };
  localStorage.clear();
});
afterEach(cleanup);

const STEP = stepWith(KETONE);
const tap = (name: string | RegExp) => fireEvent.click(screen.getByRole('button', { name }));
const type = (text: string) =>
  fireEvent.change(screen.getByRole('textbox', { name: /^(Correct: )?4-methyl/ }), {
    target: { value: text },
  });
/** "Keep it" rests for a moment after the question. */
const rested = () =>
  waitFor(
    () => expect(screen.getByRole('button', { name: 'Keep it' }).ariaDisabled).not.toBe('true'),
    { timeout: 3000 },
  );
const BLANK = /^Enter 4-methylcyclohexanone/;

function shown(props: Partial<Parameters<typeof RecordForTest>[0]> = {}, step = STEP) {
  return render(
    <RecordForTest steps={[step]} written={written} {...props}>
      <StepView step={step} />
    </RecordForTest>,
  );
}

/** As a bench does it: the blank, the number, the key. */
async function enterMass(text: string) {
  tap(BLANK);
  type(text);
  tap('Enter it');
  await waitFor(() => expect(written.entries).toHaveLength(1));
}

describe('a number', () => {
  it('is entered with its place, its unit, its decimals, its balance and who wrote it', async () => {
    shown();
    await enterMass('1.120');
    expect(written.entries).toMatchObject([
      {
        kind: 'charge',
        step: '1',
        use: '1.1',
        item: '4-methylcyclohexanone',
        value: 1.12,
        decimals: 3,
        unit: 'g',
        instrument: 'balance 2',
        by: 'RK',
        bench: 'Bench 4',
      },
    ]);
    await screen.findByRole('button', { name: /^1\.120/ });
    expect(screen.queryByRole('button', { name: BLANK })).toBeNull();
  });

  it('is entered once, however often the key is tapped', async () => {
    shown();
    tap(BLANK);
    type('1.12');
    const key = screen.getByRole('button', { name: 'Enter it' });
    fireEvent.click(key);
    fireEvent.click(key);
    await screen.findByRole('button', { name: /^1\.12/ });
    expect(written.entries).toHaveLength(1);
  });
});

describe('a number in doubt', () => {
  it('far from the plan is asked about, and entered when it is kept', async () => {
    shown();
    tap(BLANK);
    type('11.2');
    tap('Enter it');
    await screen.findByText('10 times the plan. Keep it?');
    expect(written.entries).toEqual([]);
    await rested();
    tap('Keep it');
    await waitFor(() => expect(written.entries).toMatchObject([{ value: 11.2 }]));
  });

  it('is not kept by a second tap that was meant for the first', async () => {
    shown();
    tap(BLANK);
    type('11.2');
    tap('Enter it');
    fireEvent.click(await screen.findByRole('button', { name: 'Keep it' }));
    fireEvent.submit(document.querySelector('form.bench-keypad-form')!);
    await new Promise((done) => setTimeout(done, 50));
    expect(written.entries).toEqual([]);
  });

  it('carries its doubt when it was kept, and loses it when it is corrected', async () => {
    const kept = entry('k', { kind: 'charge', step: '1', use: '1.1', value: 11.2, unit: 'g' });
    shown({ given: [kept] });
    screen.getByText('10 times the plan.');
    cleanup();
    const right = entry('r', { kind: 'correction', corrects: 'k', value: 1.12, unit: 'g' });
    shown({ given: [kept, right] });
    expect(screen.queryByText(/times the plan/)).toBeNull();
  });

  it('is asked about again after it was changed', async () => {
    shown();
    tap(BLANK);
    type('11.2');
    tap('Enter it');
    await screen.findByText('10 times the plan. Keep it?');
    type('112');
    tap('Enter it');
    await screen.findByText('100 times the plan. Keep it?');
    expect(written.entries).toEqual([]);
  });

  it('that was typed and not entered outlasts a reload', () => {
    shown();
    tap(BLANK);
    type('1.1');
    cleanup();
    shown();
    expect(screen.getByRole('button', { name: BLANK }).textContent).toContain('1.1 not entered');
    tap(BLANK);
    type('1.12');
    expect(screen.getByRole<HTMLInputElement>('textbox', { name: /^4-methyl/ }).value).toBe('1.12');
  });

  it('stays typed where the device cannot keep it, and it says so', async () => {
    shown({ full: true });
    tap(BLANK);
    type('1.12');
    tap('Enter it');
    await screen.findByText(/could not keep it/);
    expect(screen.getByRole<HTMLInputElement>('textbox', { name: /^4-methyl/ }).value).toBe('1.12');
  });

  it('is typed and shown with the decimal comma of the laboratory', async () => {
    shown({ settings: { ...DEFAULT_SETTINGS, decimalSign: ',' } });
    await enterMass('1,12');
    expect(written.entries).toMatchObject([{ value: 1.12 }]);
    await screen.findByRole('button', { name: /^1,12/ });
  });

  it('may be by volume where the document gives both', async () => {
    const step = stepWith({ ...KETONE, or: { unit: 'mL', decimals: 2 } });
    shown({}, step);
    tap(BLANK);
    tap('in mL instead');
    type('1.22');
    tap('Enter it');
    await waitFor(() =>
      expect(written.entries).toMatchObject([
        { kind: 'charge', use: '1.1', value: 1.22, unit: 'mL' },
      ]),
    );
    expect(written.entries[0]).not.toHaveProperty('instrument');
  });
});

describe('a correction', () => {
  it('is a new line; the old one stays, struck through with the reason', async () => {
    shown();
    await enterMass('1.211');
    fireEvent.click(await screen.findByRole('button', { name: /^1\.211/ }));
    tap('Correct');
    tap('digits swapped');
    type('1.121');
    tap('Correct it');
    await waitFor(() => expect(written.entries).toHaveLength(2));
    const [first, second] = written.entries;
    expect(second).toMatchObject({
      kind: 'correction',
      corrects: first!.id,
      value: 1.121,
      unit: 'g',
      text: 'digits swapped',
    });
    await screen.findByRole('button', { name: /^1\.121/ });
    expect(document.querySelector('s')?.textContent).toContain('1.211');
    screen.getByText(/corrected .*RK: digits swapped/);
  });

  it('may withdraw a line, and the blank is there again', async () => {
    shown();
    await enterMass('1.2');
    fireEvent.click(await screen.findByRole('button', { name: /^1\.2/ }));
    tap('Withdraw');
    tap('wrong vessel');
    tap('Withdraw it');
    await waitFor(() => expect(written.entries).toHaveLength(2));
    expect(written.entries[1]).not.toHaveProperty('value');
    await screen.findByRole('button', { name: BLANK });
    expect(document.querySelector('s')?.textContent).toContain('1.2');
  });

  it('can be a further portion instead', async () => {
    shown();
    await enterMass('0.6');
    fireEvent.click(await screen.findByRole('button', { name: /^0\.6/ }));
    tap('Add a portion');
    type('0.7');
    tap('Enter it');
    await waitFor(() => expect(written.entries).toHaveLength(2));
    expect(written.entries[1]).toMatchObject({ kind: 'charge', use: '1.1', value: 0.7 });
  });
});

describe('what is seen', () => {
  it('is entered with words of the trade and one’s own', async () => {
    shown();
    tap('gas');
    const words = screen.getByLabelText<HTMLTextAreaElement>('What do you see?');
    expect(words.value).toBe('gas');
    fireEvent.change(words, { target: { value: 'gas, slowly' } });
    tap('Enter it');
    await waitFor(() =>
      expect(written.entries).toMatchObject([{ kind: 'observation', text: 'gas, slowly' }]),
    );
    expect(words.value).toBe('');
  });

  it('may be a photo, entered with its hash', async () => {
    shown();
    const file = new File(['abc'], 'flask.png', { type: 'image/png' });
    fireEvent.change(screen.getByLabelText('Photo'), { target: { files: [file] } });
    await waitFor(() => expect(written.entries).toHaveLength(1));
    const hash = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad';
    expect(written.entries[0]).toMatchObject({ text: 'Photo', attachments: [hash] });
    expect(written.files).toMatchObject([{ hash, mediaType: 'image/png' }]);
  });
});

describe('the time', () => {
  const later = () => vi.spyOn(performance, 'now').mockReturnValue(performance.now() + 1000);
  afterEach(() => void vi.restoreAllMocks());

  it('is not stamped as over by the same tap', async () => {
    shown();
    tap('Stamp the start');
    fireEvent.click(await screen.findByRole('button', { name: 'Stamp the end' }));
    await screen.findByText('Started');
    expect(written.entries).toHaveLength(1);
  });

  it('is stamped at the start and at the end', async () => {
    shown();
    tap('Stamp the start');
    await screen.findByText('Started');
    later();
    tap('Stamp the end');
    await screen.findByText('Finished');
    expect(written.entries.map(({ kind, step, text }) => [kind, step, text])).toEqual([
      ['time', '1', 'Started'],
      ['time', '1', 'Finished'],
    ]);
  });

  it('runs backwards where the step says how long', async () => {
    shown({}, { ...STEP, wait: { duration_min: 20, what: 'Stirring, flask' } });
    tap(/^Start 20/);
    await screen.findByText('20:00');
    later();
    tap('Done');
    await screen.findByText('Finished');
    expect(screen.queryByText('20:00')).toBeNull();
  });
});
