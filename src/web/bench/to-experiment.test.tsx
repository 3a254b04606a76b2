// @vitest-environment jsdom
import { act, cleanup, render, screen } from '@testing-library/react';
import { afterEach, expect, it, vi } from 'vitest';
import { RecordForTest } from './testing.tsx';
import { ToExperiment } from './to-experiment.tsx';

afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

async function shownTo(role: 'instructor' | 'bench') {
  const session = { person: { id: 'person-0001', name: 'R. Kessler' }, role, run: null };
  vi.stubGlobal('fetch', async () => Response.json(session));
  render(
    <RecordForTest steps={[]} written={{ entries: [], files: [] }}>
      <ToExperiment />
    </RecordForTest>,
  );
  await act(() => new Promise((done) => setTimeout(done)));
}

it('leads back to the experiment for an instructor', async () => {
  await shownTo('instructor');
  const link = await screen.findByRole('link', { name: 'Back to the experiment' });
  expect(link.getAttribute('href')).toBe('/experiments/exp-00000001');
});

it('is not there for a bench, which sees only its record', async () => {
  await shownTo('bench');
  expect(screen.queryByRole('link')).toBeNull();
});
