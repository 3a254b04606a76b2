// @vitest-environment jsdom
import { QueryClientProvider } from '@tanstack/react-query';
import { act, cleanup, fireEvent, render, screen, waitFor, within } from '@testing-library/react';
import { MemoryRouter, Route, Routes } from 'react-router';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { KeptEntry, RunOpened } from '../../wire/run.ts';
import { queryClient } from '../api/queries.ts';
import { DEFAULT_SETTINGS_SHOWN } from './settings-shown.ts';
import { ResultPage } from './result-page.tsx';
import { openedRun } from './testing.ts';

/** The server's feed, held in the test's hand. */
class Feed extends EventTarget {
  static last: Feed | undefined;
  constructor(readonly url: string) {
    super();
    Feed.last = this;
  }
  close() {
    Feed.last = undefined;
  }
}

const posted: unknown[] = [];
/** What was said of the pages of paper. */
const sheets: string[] = [];

function serve(run: RunOpened, refusal?: object, comma = false) {
  vi.stubGlobal('fetch', async (path: string, asked: { method: string; body?: string }) => {
    if (asked.method === 'POST') {
      posted.push(JSON.parse(asked.body!));
      return refusal === undefined
        ? Response.json({ acknowledged: [] }, { status: 201 })
        : Response.json(refusal, { status: 409 });
    }
    if (path === '/api/settings' && comma)
      return Response.json({ ...DEFAULT_SETTINGS_SHOWN, decimalSign: ',' });
    if (path === `/api/runs/${run.id}`) return Response.json(run);
    return Response.json({ code: 'none', message: 'None.' }, { status: 404 });
  });
  render(
    <QueryClientProvider client={queryClient}>
      <MemoryRouter initialEntries={[`/runs/${run.id}`]}>
        <Routes>
          <Route path="/runs/:id" element={<ResultPage />} />
        </Routes>
      </MemoryRouter>
    </QueryClientProvider>,
  );
}

const answer = async () => (await screen.findByRole('heading', { level: 1 })).textContent;

beforeEach(() => {
  vi.stubGlobal('EventSource', Feed);
  vi.stubGlobal(
    'ResizeObserver',
    class {
      observe() {}
      unobserve() {}
      disconnect() {}
    },
  );
  // What jsdom leaves out and the page and its popover ask for.
  Object.assign(document, { adoptedStyleSheets: [] });
  vi.stubGlobal(
    'CSSStyleSheet',
    class {
      replaceSync(text: string) {
        sheets.push(text);
      }
    },
  );
  vi.stubGlobal('CSS', { escape: (text: string) => text });
  window.matchMedia = () => ({ matches: false }) as MediaQueryList;
});

afterEach(() => {
  cleanup();
  queryClient.clear();
  posted.length = 0;
  sheets.length = 0;
  vi.unstubAllGlobals();
});

test('the yield is the heading, and each of its numbers opens where it is from', async () => {
  serve(openedRun('cyclohexanol', 3));
  expect(await answer()).toContain('of 4-methylcyclohexanol: ');
  expect(screen.getByText('7 entries, 1 struck')).toBeDefined();
  fireEvent.click(screen.getAllByRole('button', { name: /1\.141/ })[0]!);
  const theory = await screen.findByRole('dialog', { name: 'Theory, 4-methylcyclohexanol' });
  expect(within(theory).getByText(/T = M/)).toBeDefined();
});

test('what the bench writes meanwhile is counted as it comes, once', async () => {
  const run = openedRun('cyclohexanol', 1);
  const weighings = run.kept.filter(({ entry }) => entry.kind !== 'evidence');
  const kept = weighings.slice(0, -3);
  serve({ ...run, kept, entries: kept.length });
  expect(await answer()).toContain('0.926');
  await waitFor(() => expect(Feed.last?.url).toBe('/api/runs/run00001/feed?after=8'));
  const send = (entries: readonly KeptEntry[]) =>
    act(() => {
      Feed.last!.dispatchEvent(new MessageEvent('entries', { data: JSON.stringify(entries) }));
    });
  send(weighings.slice(-3));
  send(weighings.slice(-2));
  await waitFor(async () => expect(await answer()).toContain('0.899'));
  expect(screen.getByText('11 entries')).toBeDefined();
});

test('a struck line says that it is struck and why', async () => {
  serve(openedRun('cyclohexanol', 3));
  await answer();
  const struck = screen.getByText('1.211 g').closest('tr')!;
  expect(struck.querySelector('del')).not.toBeNull();
  expect(struck.textContent).toContain('Digits the wrong way round');
});

test('a finding leads to the line that it is about', async () => {
  serve(openedRun('ester', 2));
  await answer();
  const link = screen.getByRole('link', { name: 'See the entry' });
  expect(document.getElementById(link.getAttribute('href')!.slice(1))).not.toBeNull();
});

const choose = (text: string) =>
  fireEvent.change(screen.getByLabelText('Add a record made elsewhere'), {
    target: { files: [new File([text], 'mine.csv', { lastModified: 0 })] },
  });
const TABLE = 'kind,step,item,value,unit\ncharge,1,95 % ethanol,10,mL\nfoo,1,,1,g\n';

test('a file is shown first, then added, and what could not be read is said', async () => {
  serve(openedRun('cyclohexanol', 3));
  await answer();
  choose(TABLE);
  expect(await screen.findByText('1 entry was read from mine.csv, 1 could not be.')).toBeDefined();
  expect(posted).toEqual([]);
  fireEvent.click(screen.getByRole('button', { name: 'Add 1 entry' }));
  expect(await screen.findByText(/^Added\./)).toBeDefined();
  expect(posted).toMatchObject([{ entries: [{ kind: 'charge', step: '1', value: 10 }] }]);
});

test('a refusal says why and keeps what was read', async () => {
  const refusal = { code: 'entry-differs', message: 'It is there with another content.' };
  serve(openedRun('cyclohexanol', 3), refusal);
  await answer();
  choose(TABLE);
  fireEvent.click(await screen.findByRole('button', { name: 'Add 1 entry' }));
  expect((await screen.findByRole('alert')).textContent).toContain(refusal.message);
  expect(screen.getByRole('button', { name: 'Add 1 entry' })).toBeDefined();
});

test('a laboratory that writes commas reads no decimal point', async () => {
  window.matchMedia = () => ({ matches: true }) as MediaQueryList;
  vi.spyOn(HTMLElement.prototype, 'clientWidth', 'get').mockReturnValue(1000);
  serve(openedRun('cyclohexanol', 3), undefined, true);
  await waitFor(async () => expect(await answer()).toContain('1,141'));
  await waitFor(() => expect(document.querySelector('svg.flow-sheet')).not.toBeNull());
  const said = [
    ...document.querySelectorAll('.result td, .result th, .result p, .result svg text'),
    ...document.querySelectorAll('.result svg [aria-label]'),
  ].map((each) => each.getAttribute('aria-label') ?? each.textContent ?? '');
  expect(said.filter((text) => /\d,\d/.test(text)).length).toBeGreaterThan(30);
  expect(said.filter((text) => /\d\.\d/.test(text))).toEqual([]);
  vi.restoreAllMocks();
});

test('the flow sheet names the version by eight digits of its hash', async () => {
  window.matchMedia = () => ({ matches: true }) as MediaQueryList;
  vi.spyOn(HTMLElement.prototype, 'clientWidth', 'get').mockReturnValue(1000);
  serve(openedRun('cyclohexanol', 1));
  await waitFor(() =>
    expect(document.querySelector('svg.flow-sheet')?.textContent).toContain('version dddddddd'),
  );
  expect(document.querySelector('svg.flow-sheet')?.textContent).not.toContain('d'.repeat(9));
  vi.restoreAllMocks();
});

test('each percentage says what it is of', async () => {
  serve(openedRun('cyclohexanol', 1));
  await answer();
  expect(screen.getByRole('columnheader', { name: 'Against plan' })).toBeDefined();
  expect(
    screen.getByText(/of the theory for what this bench charged, not of the plan/),
  ).toBeDefined();
});

test('paper shows the photographs, and at its foot whose result it is', async () => {
  const photo = 'a'.repeat(64);
  serve(
    openedRun('cyclohexanol', 1, (entries) => ({
      entries: [
        ...entries,
        {
          ...entries[0]!,
          id: 'photo0001',
          kind: 'observation',
          text: 'Photo',
          attachments: [photo],
        },
      ],
    })),
  );
  await answer();
  const shown = screen.getByRole('img', { name: 'Photograph 1: Photo' });
  expect(shown.getAttribute('loading')).toBeNull();
  expect(shown.closest('.screen-only')).toBeNull();
  expect(sheets.join()).toMatch(
    /@page \{ size: a4.*margin.*Bench 4 · cyclohexanol · version 3 \(d{12}\)/,
  );
  expect(sheets.join()).toContain('counter(page)');
});
