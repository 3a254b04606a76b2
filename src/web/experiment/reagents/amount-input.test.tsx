// @vitest-environment jsdom
import { afterEach, expect, it, vi } from 'vitest';
import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { AmountInput } from './amount-input.tsx';

afterEach(cleanup);

const setUp = () => {
  const write = vi.fn((amount: string) =>
    /\d/.test(amount)
      ? { ok: true as const, text: '', change: { from: 0, to: 0, insert: amount } }
      : { ok: false as const, why: 'This says no amount.', hint: 'Write a mass.' },
  );
  const shown = render(<AmountInput label="ethanol, step 1" written="10 mL" write={write} />);
  return { write, shown, field: screen.getByLabelText<HTMLInputElement>('ethanol, step 1') };
};

it('writes on Enter, and not when nothing changed', () => {
  const { write, field } = setUp();
  fireEvent.keyDown(field, { key: 'Enter' });
  expect(write).not.toHaveBeenCalled();
  fireEvent.change(field, { target: { value: '12 mL ' } });
  fireEvent.keyDown(field, { key: 'Enter' });
  expect(write).toHaveBeenCalledWith('12 mL');
});

it('keeps what was typed and says why it is refused', () => {
  const { field } = setUp();
  fireEvent.change(field, { target: { value: 'lots' } });
  fireEvent.blur(field);
  expect(field.value).toBe('lots');
  expect(field.getAttribute('aria-invalid')).toBe('true');
  expect(screen.getByRole('alert').textContent).toBe('This says no amount. Write a mass.');
  fireEvent.keyDown(field, { key: 'Escape' });
  expect(field.value).toBe('10 mL');
  expect(screen.queryByRole('alert')).toBeNull();
});

it('follows the text', () => {
  const { shown, field, write } = setUp();
  shown.rerender(<AmountInput label="ethanol, step 1" written="15 mL" write={write} />);
  expect(field.value).toBe('15 mL');
});
