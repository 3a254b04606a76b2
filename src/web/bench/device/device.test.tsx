// @vitest-environment jsdom
import { cleanup, renderHook, waitFor } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { DEFAULT_SETTINGS } from '../../../wire/settings.ts';
import { balanceChoices, balanceLabel, keepPreferences, preferencesOf } from './preferences.ts';
import { addressOf, viewOf } from './view.ts';
import type { View } from './view.ts';
import { useWakeLock } from './wake-lock.ts';

beforeEach(() => localStorage.clear());
afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

describe('what a device remembers', () => {
  it('is the person and the balance of a record, and the balance for the next one', () => {
    keepPreferences('run-1', { by: 'RK', balance: 'balance 2', awake: false });
    expect(preferencesOf('run-1')).toEqual({ by: 'RK', balance: 'balance 2', awake: false });
    expect(preferencesOf('run-2')).toEqual({ by: '', balance: 'balance 2', awake: false });
  });

  it('may be nothing, or nothing that can be read', () => {
    localStorage.setItem('weighboat.bench run-1', '{"by":');
    expect(preferencesOf('run-1')).toEqual({ by: '', balance: null, awake: true });
  });
});

describe('the balances to choose from', () => {
  const own = { readability_g: 0.001, repeatability_g: 0.001, linearity_g: 0.002, capacity_g: 320 };
  const laboratory = {
    ...DEFAULT_SETTINGS,
    balances: [{ id: 'b2', name: 'Balance 2, by the window', ...own }],
  };

  it('are those of the laboratory', () => {
    expect(balanceChoices(laboratory)).toEqual([
      { instrument: 'b2', label: 'Balance 2, by the window' },
    ]);
    expect(balanceLabel('b2', laboratory)).toBe('Balance 2, by the window');
  });

  it('are named by what they show where the laboratory lists none', () => {
    const comma = { ...DEFAULT_SETTINGS, decimalSign: ',' as const };
    expect(balanceChoices(comma)[1]).toEqual({
      instrument: 'balance (0.001 g)',
      label: 'shows 0,001\u202fg',
    });
    expect(balanceLabel('balance (0.001 g)', comma)).toBe('balance (0,001 g)');
  });
});

it.each<View>([
  { kind: 'begin' },
  { kind: 'step', step: '19b' },
  { kind: 'step', step: 'a/b %' },
  { kind: 'steps' },
  { kind: 'entered' },
])('finds its view by its address: %j', (view) => {
  expect(viewOf(addressOf(view))).toEqual(view);
});

it('takes no other address for a view', () => {
  expect(viewOf('#main')).toBeUndefined();
  expect(viewOf('')).toBeUndefined();
});

describe('the screen', () => {
  it('is kept on while it is wanted, and asked for again when it is seen again', async () => {
    const release = vi.fn(async () => {});
    const request = vi.fn(async () => ({ release }));
    vi.stubGlobal('navigator', { wakeLock: { request } });
    const { rerender } = renderHook(({ wanted }) => useWakeLock(wanted), {
      initialProps: { wanted: true },
    });
    await waitFor(() => expect(request).toHaveBeenCalledTimes(1));
    document.dispatchEvent(new Event('visibilitychange'));
    await waitFor(() => expect(request).toHaveBeenCalledTimes(2));
    rerender({ wanted: false });
    await waitFor(() => expect(release).toHaveBeenCalled());
    document.dispatchEvent(new Event('visibilitychange'));
    expect(request).toHaveBeenCalledTimes(2);
  });

  it('goes off as ever where the browser cannot keep it on', () => {
    vi.stubGlobal('navigator', {});
    expect(() => renderHook(() => useWakeLock(true))).not.toThrow();
  });
});
