// @vitest-environment jsdom
import { QueryClientProvider } from '@tanstack/react-query';
import { cleanup, fireEvent, render, screen, waitFor } from '@testing-library/react';
import { MemoryRouter } from 'react-router';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Settings } from '../../wire/settings.ts';
import { queryClient } from '../api/queries.ts';
import { SettingsPage } from './settings-page.tsx';

const BALANCE = {
  id: 'balance-1',
  name: 'Balance by the window',
  readability_g: 0.001,
  repeatability_g: 0.001,
  linearity_g: 0.002,
  capacity_g: 320,
};

let kept: Settings;

beforeEach(() => {
  kept = { decimalSign: '.', terms: 'uk', paper: 'a4', balances: [BALANCE], glassware: [] };
  localStorage.clear();
  vi.stubGlobal('matchMedia', () => ({ matches: false, addEventListener: () => undefined }));
  vi.stubGlobal('fetch', (path: string, init: RequestInit = {}) => {
    if (path === '/api/session')
      return Promise.resolve(
        Response.json({ person: { id: 'person-01', name: 'M' }, role: 'instructor', run: null }),
      );
    if (init.method === 'PUT' && typeof init.body === 'string')
      kept = JSON.parse(init.body) as Settings;
    return Promise.resolve(Response.json(kept));
  });
});

afterEach(() => {
  cleanup();
  queryClient.clear();
  vi.unstubAllGlobals();
});

async function openPage() {
  render(
    <QueryClientProvider client={queryClient}>
      <MemoryRouter>
        <SettingsPage />
      </MemoryRouter>
    </QueryClientProvider>,
  );
  await screen.findByDisplayValue('Balance by the window');
}

const field = (label: string) => screen.getByLabelText<HTMLInputElement>(label);

describe('the laboratory', () => {
  it('says what it has and what one reading is worth', async () => {
    await openPage();
    expect(screen.getByRole('heading', { level: 1 }).textContent).toBe(
      'This laboratory has 1 balance and 0 pieces of glassware of its own.',
    );
    // u = 0.001 g × √(4/3 + 1 + 1/12) = 1.55 mg (docs/methods/uncertainty.md)
    expect(document.body.textContent).toMatch(/standard uncertainty of 1\.6\s?mg/);
  });

  it('takes a balance out and, by Undo, leaves it as it was', async () => {
    await openPage();
    fireEvent.click(screen.getByRole('button', { name: 'Take out Balance by the window' }));
    await waitFor(() => expect(kept.balances).toEqual([]));
    fireEvent.click(screen.getByRole('button', { name: /^Undo/ }));
    await waitFor(() => expect(kept.balances).toEqual([BALANCE]));
  });

  it('says what is wrong with a figure once it is left, and keeps the one before', async () => {
    await openPage();
    fireEvent.focus(field('Capacity, g'));
    fireEvent.change(field('Capacity, g'), { target: { value: '32o' } });
    expect(field('Capacity, g').getAttribute('aria-invalid')).toBe('false');
    fireEvent.blur(field('Capacity, g'));
    expect(field('Capacity, g').getAttribute('aria-invalid')).toBe('true');
    expect(screen.getByText('Write a number, in g.')).toBeTruthy();
    fireEvent.click(screen.getByLabelText('Letter'));
    await waitFor(() => expect(kept.paper).toBe('letter'));
    expect(kept.balances).toEqual([BALANCE]);
  });

  it('writes every figure anew when the decimal sign changes', async () => {
    await openPage();
    fireEvent.click(screen.getByLabelText('Comma: 1,44 g'));
    expect(field('Reads to, g').value).toBe('0,001');
    await waitFor(() => expect(kept.decimalSign).toBe(','));
    expect(kept.balances).toEqual([BALANCE]);
  });

  it('adds a usual balance and puts the cursor in its name', async () => {
    await openPage();
    const [add] = screen.getAllByRole('button', { name: 'Add it' });
    fireEvent.click(add!);
    await waitFor(() => expect(kept.balances).toHaveLength(2));
    expect(kept.balances[1]).toMatchObject({ id: 'balance-0.1mg', linearity_g: 0.0002 });
    const focused = document.activeElement as HTMLInputElement;
    expect(focused.tagName + focused.value).toBe('INPUTbalance 0.1 mg');
  });
});
