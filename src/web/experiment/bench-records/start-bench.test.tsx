// @vitest-environment jsdom
import { QueryClient, QueryClientProvider } from '@tanstack/react-query';
import { cleanup, fireEvent, render, screen, waitFor } from '@testing-library/react';
import { afterEach, expect, it, vi } from 'vitest';
import type { Version } from '../../../wire/experiment.ts';
import { StartBench } from './start-bench.tsx';

afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

it('starts an unnamed bench under the next number', async () => {
  const sent: unknown[] = [];
  vi.stubGlobal('fetch', async (_path: string, { method, body }: RequestInit) => {
    if (method !== 'POST') return Response.json([{ bench: 'Bench 1' }, { bench: 'Bench 2' }]);
    sent.push(JSON.parse(body as string));
    return Response.json({ id: 'run-00000001' }, { status: 201 });
  });
  const onStarted = vi.fn();
  render(
    <QueryClientProvider client={new QueryClient()}>
      <StartBench
        experiment="exp-00000001"
        settled={async () => ({ document: 'd'.repeat(64) }) as Version}
        onStarted={onStarted}
      />
    </QueryClientProvider>,
  );
  await screen.findByPlaceholderText('Bench 3');
  fireEvent.click(screen.getByRole('button', { name: 'Start the record' }));
  await waitFor(() => expect(onStarted).toHaveBeenCalled());
  expect(sent).toMatchObject([{ bench: 'Bench 3', experiment: 'exp-00000001' }]);
});
