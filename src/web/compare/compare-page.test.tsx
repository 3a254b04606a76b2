// @vitest-environment jsdom
import { QueryClientProvider } from '@tanstack/react-query';
import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { MemoryRouter, Route, Routes } from 'react-router';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { NewVersion, Version } from '../../wire/experiment.ts';
import { queryClient } from '../api/queries.ts';
import { EXAMPLE } from '../help/example.ts';
import { ComparePage } from './compare-page.tsx';

const PATH = '/api/experiments/experiment-1';
type Kept = Version & { readonly text: string };

let versions: Kept[];

function keep(text: string): Kept {
  const number = versions.length + 1;
  const savedAt = new Date(1_760_000_000_000 + number * 60_000).toISOString();
  const made = { number, document: 'd', savedAt, savedBy: 'M', name: null, text };
  versions.push(made);
  return made;
}

function answer(path: string, init: RequestInit): Response {
  if (path === '/api/settings') return Response.json({ decimalSign: '.', terms: 'uk' });
  const head = versions.at(-1)!;
  if (path === PATH) return Response.json({ id: 'experiment-1', title: 'Benzoic acid', head });
  if (init.method === 'POST' && typeof init.body === 'string') {
    const { text, base } = JSON.parse(init.body) as NewVersion;
    if (base === head.number) return Response.json(keep(text), { status: 201 });
    const refusal = { code: 'version-moved', message: `There is a version ${head.number} now.` };
    return Response.json(refusal, { status: 409 });
  }
  const number = Number(path.split('/')[5]);
  return Response.json(number ? versions[number - 1] : [...versions].reverse());
}

beforeEach(() => {
  versions = [];
  keep(EXAMPLE);
  keep(EXAMPLE.replace('1.44 g', '1.20 g'));
  vi.stubGlobal('fetch', (path: string, init: RequestInit = {}) =>
    Promise.resolve(answer(path, init)),
  );
  render(
    <QueryClientProvider client={queryClient}>
      <MemoryRouter initialEntries={['/experiments/experiment-1/compare?from=1&to=2']}>
        <Routes>
          <Route path="/experiments/:id/compare" element={<ComparePage />} />
        </Routes>
      </MemoryRouter>
    </QueryClientProvider>,
  );
});

afterEach(() => {
  cleanup();
  queryClient.clear();
  vi.unstubAllGlobals();
});

describe('two versions', () => {
  it('are answered with what follows, then with what was struck and written', async () => {
    const heading = await screen.findByRole('heading', { level: 1 });
    // 1.44 g and 1.20 g of sodium benzoate (144.105 g/mol) as benzoic acid (122.123 g/mol)
    expect(heading.textContent).toMatch(/^Theory of benzoic acid: 1\.22\s?g → 1\.02\s?g/);
    expect(document.querySelector('del')!.textContent).toBe('out: 1.44');
    expect(document.querySelector('ins')!.textContent).toBe('in: 1.20');
  });

  it('can be turned round', async () => {
    fireEvent.click(await screen.findByRole('button', { name: 'The other way round' }));
    await screen.findByText(/1\.02\s?g → 1\.22\s?g/);
  });

  it('one goes back to by a new version; the ones before stay', async () => {
    fireEvent.click(await screen.findByRole('button', { name: 'Go back to version 1' }));
    await screen.findByText('The text of version 1 is now version 3. Version 2 is still there.');
    expect(versions.map(({ text }) => text)).toEqual([EXAMPLE, versions[1]!.text, EXAMPLE]);
  });

  it('going back is refused where someone saved meanwhile, and nothing is changed', async () => {
    const back = await screen.findByRole('button', { name: 'Go back to version 1' });
    keep('# Another\n');
    fireEvent.click(back);
    await screen.findByText(/There is a version 3 now\. Nothing was changed/);
    expect(versions).toHaveLength(3);
  });
});
