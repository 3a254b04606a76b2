// @vitest-environment jsdom
import { QueryClientProvider } from '@tanstack/react-query';
import { cleanup, fireEvent, render, screen, waitFor, within } from '@testing-library/react';
import { MemoryRouter, Route, Routes } from 'react-router';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { ExperimentOpened } from '../../wire/experiment.ts';
import { queryClient } from '../api/queries.ts';
import { ShelfPage } from './shelf-page.tsx';

/** A server with a shelf; `down` loses the network, `deaf` the answers alone. */
function server() {
  const shelf = new Map<string, ExperimentOpened>();
  const state = { shelf, down: false, deaf: false, sent: [] as string[], decimalSign: '.' };
  const put = (id: string, text: string) => {
    const title = /^# (.*)$/m.exec(text)?.[1] ?? '';
    const savedAt = new Date(1_760_000_000_000 + shelf.size * 60_000).toISOString();
    const head = { number: 1, document: 'd'.repeat(64), savedAt, savedBy: 'M', name: null };
    shelf.set(id, { id, title, course: null, head, runs: 0, putAway: false, text });
  };
  put('first-experiment', '# Aspirin\n');
  put('second-experiment', '# Benzoic acid\n');
  vi.stubGlobal('fetch', async (path: string, init: RequestInit = {}) => {
    if (state.down) throw new TypeError('no network');
    const body = typeof init.body === 'string' ? JSON.parse(init.body) : undefined;
    if (path === '/api/settings') return Response.json({ decimalSign: state.decimalSign });
    if (path.endsWith('/answer'))
      return Response.json({ matter: ['Makes at most 2.12\u202fg (9.99\u202fmmol) of benzoin.'] });
    const id = path.split('/')[3];
    if (init.method === 'POST') {
      state.sent.push(body.id);
      if (!shelf.has(body.id)) put(body.id, body.text);
      if (state.deaf) throw new TypeError('the answer is lost');
      return Response.json(shelf.get(body.id));
    }
    if (init.method === 'PATCH') shelf.set(id!, { ...shelf.get(id!)!, ...body });
    return Response.json(id === undefined ? [...shelf.values()] : shelf.get(id));
  });
  return state;
}

async function openShelf() {
  render(
    <QueryClientProvider client={queryClient}>
      <MemoryRouter>
        <Routes>
          <Route index element={<ShelfPage />} />
          <Route path="/experiments/:id" element={<p>The experiment</p>} />
        </Routes>
      </MemoryRouter>
    </QueryClientProvider>,
  );
  await screen.findByRole('link', { name: 'Aspirin' });
}

const press = (name: string) => fireEvent.click(screen.getByRole('button', { name }));
const notice = () => document.querySelector('.shelf-notice')!;

let state: ReturnType<typeof server>;
beforeEach(() => {
  state = server();
});
afterEach(() => {
  cleanup();
  queryClient.clear();
  vi.unstubAllGlobals();
});

describe('the shelf', () => {
  it('has the newest first and says how many there are', async () => {
    await openShelf();
    expect(screen.getByRole('heading', { level: 1 }).textContent).toBe('2 experiments.');
    const titles = screen.getAllByRole('heading', { level: 2 }).map((each) => each.textContent);
    expect(titles).toEqual(['Benzoic acid', 'Aspirin']);
  });

  it('answers in the decimal sign of the laboratory', async () => {
    state.decimalSign = ',';
    await openShelf();
    const answers = await screen.findAllByText(
      'Makes at most 2,12\u202fg (9,99\u202fmmol) of benzoin.',
      {
        normalizer: (text) => text,
      },
    );
    expect(answers).toHaveLength(2);
  });

  it('copies an experiment under another title and leaves the first as it is', async () => {
    await openShelf();
    press('Copy Aspirin');
    await screen.findByRole('link', { name: 'Copy of Aspirin' });
    expect(state.shelf.get('first-experiment')!.text).toBe('# Aspirin\n');
  });

  it('puts away and, by Undo, brings back', async () => {
    await openShelf();
    const button = screen.getByRole('button', { name: 'Put away Aspirin' });
    button.focus();
    fireEvent.click(button);
    const undo = await screen.findByRole('button', { name: 'Undo' });
    expect(state.shelf.get('first-experiment')!.putAway).toBe(true);
    await waitFor(() => expect(document.activeElement).toBe(undo));
    fireEvent.click(undo);
    await within(notice() as HTMLElement).findByText('“Aspirin” is back on the shelf.');
    expect(state.shelf.get('first-experiment')!.putAway).toBe(false);
  });

  it('makes one experiment of two tries where only the answer was lost', async () => {
    await openShelf();
    state.deaf = true;
    press('Start an experiment');
    await screen.findByText('Weighboat cannot be reached.');
    state.deaf = false;
    press('Start an experiment');
    await screen.findByText('The experiment');
    expect(new Set(state.sent).size).toBe(1);
    expect(state.sent).toHaveLength(2);
  });

  it('adds the files that it can read and says why not of the others', async () => {
    await openShelf();
    const files = [new File(['# Ester\n'], 'ester.md'), new File([new Uint8Array([0])], 'a.docx')];
    fireEvent.change(screen.getByLabelText('Files of experiments'), { target: { files } });
    await screen.findByRole('link', { name: 'Ester' });
    await within(notice() as HTMLElement).findByText(/“a\.docx” is not plain text/);
  });
});
