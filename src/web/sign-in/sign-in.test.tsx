// @vitest-environment jsdom
import { QueryClientProvider } from '@tanstack/react-query';
import { cleanup, render, screen } from '@testing-library/react';
import { MemoryRouter, Route, Routes, useLocation } from 'react-router';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { queryClient } from '../api/queries.ts';
import { SignInPage } from './sign-in-page.tsx';
import { SignedIn } from './signed-in.tsx';
import { firstPage, tokenIn } from './use-token.ts';

const PERSON = { person: { id: 'person-01', name: 'D. Marlow' } };
const TOKEN = 'a'.repeat(43);

function Address() {
  const { pathname, hash } = useLocation();
  return <p data-testid="address">{pathname + hash}</p>;
}

function openAt(path: string, answer: (path: string, init?: RequestInit) => [number, unknown]) {
  const fetched = vi.fn((at: string, init?: RequestInit) => {
    const [status, body] = answer(at, init);
    if (status === 0) return Promise.reject(new TypeError('no network'));
    return Promise.resolve(new Response(JSON.stringify(body), { status }));
  });
  vi.stubGlobal('fetch', fetched);
  render(
    <QueryClientProvider client={queryClient}>
      <MemoryRouter initialEntries={[path]}>
        <Address />
        <Routes>
          <Route path="/sign-in" element={<SignInPage />} />
          <Route element={<SignedIn />}>
            <Route index element={<p>The shelf</p>} />
            <Route path="/runs/:id" element={<p>The result</p>} />
          </Route>
        </Routes>
      </MemoryRouter>
    </QueryClientProvider>,
  );
  return fetched;
}

afterEach(() => {
  cleanup();
  queryClient.clear();
  vi.unstubAllGlobals();
});

describe('signing in by a link', () => {
  it('sends the token once and goes on to the shelf, without it in the address', async () => {
    const fetched = openAt(`/sign-in#${TOKEN}`, () => [
      200,
      { ...PERSON, role: 'instructor', run: null },
    ]);
    await screen.findByText('The shelf');
    expect(screen.getByTestId('address').textContent).toBe('/');
    const sent = fetched.mock.calls.filter(([, init]) => init?.method === 'POST');
    expect(sent.map(([, init]) => init?.body)).toEqual([JSON.stringify({ token: TOKEN })]);
  });

  it('says of a used link how one gets another, and forgets the token', async () => {
    openAt(`/sign-in#${TOKEN}`, () => [401, { code: 'link-used', message: 'This link was used.' }]);
    await screen.findByRole('heading', { name: 'This link was used.' });
    expect(document.body.textContent).toContain('In the window where Weighboat runs, press Enter');
    expect(screen.getByTestId('address').textContent).toBe('/sign-in');
    expect(screen.queryByRole('button', { name: 'Try again' })).toBeNull();
  });

  it('keeps the token for another try where the network was lost', async () => {
    let down = true;
    openAt(`/sign-in#${TOKEN}`, () =>
      down ? [0, undefined] : [200, { ...PERSON, role: 'instructor', run: null }],
    );
    const again = await screen.findByRole('button', { name: 'Try again' });
    down = false;
    again.click();
    await screen.findByText('The shelf');
  });

  it('takes only the hash of its own address for a token', () => {
    expect(tokenIn({ pathname: '/help', hash: '#extract' })).toBeUndefined();
    expect(tokenIn({ pathname: '/sign-in', hash: '' })).toBeUndefined();
    expect(tokenIn({ pathname: '/sign-in', hash: '#x' })).toBe('x');
  });

  it('leaves for the bench record where the session is for one', () => {
    expect(firstPage({ ...PERSON, role: 'bench', run: 'run-0001' })).toEqual({
      path: '/bench/run-0001',
      leave: true,
    });
  });
});

describe('pages for someone who is signed in', () => {
  it('tell anyone else how to get in', async () => {
    openAt('/', () => [401, { code: 'not-signed-in', message: '' }]);
    await screen.findByRole('heading', { name: 'You need a link to come in.' });
  });

  it.each([
    ['/', 'This device is signed in for one bench record.'],
    ['/runs/run-0002', 'This device is signed in for one bench record.'],
    ['/runs/run-0001', 'The result'],
  ])('show a bench session at %s: %s', async (path, text) => {
    openAt(path, () => [200, { ...PERSON, role: 'bench', run: 'run-0001' }]);
    await screen.findByText(text);
  });
});
