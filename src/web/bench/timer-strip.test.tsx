// @vitest-environment jsdom
import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { entry } from './outbox/testing.ts';
import { STARTED } from './record/new-entry.ts';
import { RecordForTest, stepWith } from './testing.tsx';
import type { Written } from './testing.tsx';
import { TimerStrip } from './timer-strip.tsx';

const START = new Date('2026-02-03T10:00:00.000Z');
const rung = vi.hoisted(() => vi.fn());
vi.mock('./device/bell.ts', () => ({ ringBell: rung }));

beforeEach(() => {
  vi.useFakeTimers();
  vi.setSystemTime(START);
  rung.mockClear();
});
afterEach(() => {
  cleanup();
  vi.useRealTimers();
});

const steps = [
  { ...stepWith(), wait: { duration_min: 20, what: 'Stirring, flask' } },
  { ...stepWith(), id: '2', wait: { duration_min: 1, what: 'Cooling, flask' } },
];
const given = ['1', '2'].map((step) =>
  entry(`s${step}`, { kind: 'time', step, text: STARTED, at: START.toISOString() }),
);

it('shows every clock, turns the one whose time is over, rings once, and ends with "Done"', async () => {
  const written: Written = { entries: [], files: [] };
  render(
    <RecordForTest steps={steps} written={written} given={given}>
      <TimerStrip current={undefined} />
    </RecordForTest>,
  );
  const rows = () => screen.getAllByRole('listitem').map((row) => row.textContent);
  expect(rows()[0]).toContain('20:00');
  await act(() => vi.advanceTimersByTimeAsync(59_000));
  expect(rows()[1]).toContain('0:01');
  expect(rung).not.toHaveBeenCalled();
  await act(() => vi.advanceTimersByTimeAsync(31_000));
  expect(rows()[1]).toContain('+0:30');
  expect(rung).toHaveBeenCalledTimes(1);
  expect(screen.getByRole('status').textContent).toBe('Step 2, Cooling, flask: the time is over.');
  await act(async () => {
    fireEvent.click(screen.getByRole('button', { name: /^Done.*Cooling, flask$/ }));
  });
  expect(rows()).toHaveLength(1);
  expect(written.entries).toMatchObject([{ kind: 'time', step: '2', text: 'Finished' }]);
});

it('leaves the clock of the open step to that step, until it rings', async () => {
  const written: Written = { entries: [], files: [] };
  render(
    <RecordForTest steps={steps} written={written} given={given}>
      <TimerStrip current="2" />
    </RecordForTest>,
  );
  const rows = () => screen.getAllByRole('listitem').map((row) => row.textContent);
  expect(rows()).toHaveLength(1);
  expect(rows()[0]).toContain('Stirring, flask');
  await act(() => vi.advanceTimersByTimeAsync(61_000));
  expect(rows()[1]).toContain('Cooling, flask');
  expect(screen.getAllByRole('button', { name: /^Done/ })).toHaveLength(1);
});
