// @vitest-environment jsdom
import { afterEach, describe, expect, it, vi } from 'vitest';
import { cleanup, fireEvent, render, screen, waitFor } from '@testing-library/react';
import { Refused } from '../../api/request.ts';
import type { Kept, Keeping } from '../keep/keeping.ts';
import { KeepingWord } from './keeping-word.tsx';
import { NameVersion } from '../../versions/name-version.tsx';

afterEach(cleanup);

const base = {
  number: 4,
  document: '0'.repeat(64),
  savedAt: '2026-11-24T10:00:00.000Z',
  savedBy: 'Ada Field',
  name: null,
};
const kept = (keeping: Keeping, onDevice = true): Kept => ({ base, keeping, onDevice });

describe('how far it is kept', () => {
  it.each([
    ['Kept', kept({ kind: 'kept' })],
    ['Keeping …', kept({ kind: 'sending' })],
    ['Kept on this device; no network', kept({ kind: 'noNetwork' })],
    [
      'Kept on this device. Too long. Part it.',
      kept({ kind: 'refused', refusal: { code: 'any', message: 'Too long.', hint: 'Part it.' } }),
    ],
  ])('says “%s”', (word, now) => {
    render(<KeepingWord kept={now} />);
    expect(screen.getByRole('status').textContent).toBe(word);
  });

  it('warns where nothing could be kept', () => {
    render(<KeepingWord kept={kept({ kind: 'changed' }, false)} />);
    expect(screen.getByRole('status').textContent).toMatch(/^Not kept/);
  });
});

describe('naming a version', () => {
  const setUp = (onDone: (name: string | null | undefined) => Promise<void>) => {
    render(<NameVersion number={4} name={null} onDone={onDone} />);
    return screen.getByLabelText<HTMLInputElement>('Name of version 4');
  };

  it('gives the name, or takes it away where it is empty', async () => {
    const onDone = vi.fn(async () => {});
    const field = setUp(onDone);
    fireEvent.change(field, { target: { value: '  Trial run ' } });
    fireEvent.click(screen.getByRole('button', { name: 'Keep the name' }));
    await waitFor(() => expect(onDone).toHaveBeenCalledWith('Trial run'));
    fireEvent.change(field, { target: { value: ' ' } });
    fireEvent.click(screen.getByRole('button', { name: 'Keep the name' }));
    await waitFor(() => expect(onDone).toHaveBeenLastCalledWith(null));
  });

  it('keeps what was typed when it is refused', async () => {
    const field = setUp(() =>
      Promise.reject(new Refused(0, { code: 'no-network', message: 'Not reached.' })),
    );
    fireEvent.change(field, { target: { value: 'Trial run' } });
    fireEvent.click(screen.getByRole('button', { name: 'Keep the name' }));
    await waitFor(() => expect(screen.getByRole('status').textContent).toMatch(/Not reached/));
    expect(field.value).toBe('Trial run');
  });
});
