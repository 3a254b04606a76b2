// @vitest-environment jsdom
import { QueryClientProvider } from '@tanstack/react-query';
import { cleanup, fireEvent, render, screen, waitFor, within } from '@testing-library/react';
import { MemoryRouter } from 'react-router';
import { afterEach, beforeEach, describe, expect, it, test, vi } from 'vitest';
import type { NewSpectrum, Spectrum, SpectrumSearch } from '../../wire/spectrum.ts';
import { queryClient } from '../api/queries.ts';
import { LibraryPage } from './library-page.tsx';
import { toHeightOf } from './overlay.ts';
import { similarityText } from './matches.tsx';
import { named, questionIn } from './question.ts';

const TABLE = `cm-1,absorbance\n${Array.from({ length: 1701 }, (_, i) => {
  const x = 600 + 2 * i;
  return `${x},${(0.1 + 1 / (1 + ((x - 1715) / 9) ** 2)).toFixed(5)}`;
}).join('\n')}\n`;

const spectrum = (id: string, name: string, more: Partial<Spectrum> = {}): Spectrum => ({
  id,
  name,
  smiles: null,
  state: 'atr',
  file: 'a'.repeat(64),
  addedAt: '2026-02-03T10:00:00.000Z',
  addedBy: 'R. T.',
  putAway: false,
  ...more,
});

/** A server with a library; `refuses` stands in for a file that is there already. */
function server() {
  const library = new Map<string, Spectrum>();
  const state = {
    library,
    role: 'instructor',
    decimalSign: '.',
    refuses: false,
    sent: [] as string[],
    searches: [] as SpectrumSearch[],
  };
  for (const one of [
    spectrum('s-acetone', 'acetone'),
    spectrum('s-toluene', 'toluene', { smiles: 'Cc1ccccc1', state: 'film' }),
  ])
    library.set(one.id, one);
  vi.stubGlobal('fetch', async (path: string, init: RequestInit = {}) => {
    const body = typeof init.body === 'string' ? JSON.parse(init.body) : undefined;
    if (path === '/api/settings') return Response.json({ decimalSign: state.decimalSign });
    if (path === '/api/session')
      return Response.json({ person: { id: 'p', name: 'R. T.' }, role: state.role, run: null });
    if (path.startsWith('/api/attachments/')) {
      if (init.method !== 'PUT') return new Response(TABLE);
      state.sent.push(path);
      return Response.json({ hash: path.split('/')[3] });
    }
    if (path === '/api/spectra/search') {
      state.searches.push(body);
      const hit = {
        id: 's-toluene',
        bands: [{ asked_percm: 1715, position_percm: 1716.2, share: 1 }],
      };
      const alike = ['s-acetone', 's-toluene'].map((id, i) => ({
        id,
        similarity: 0.978 - 0.7 * i,
        from_percm: 600,
        to_percm: i === 0 ? 4000 : 2400,
      }));
      return Response.json(
        'file' in body
          ? { alike, byBands: [], searched: 2 }
          : { alike: [], byBands: [hit], searched: 2 },
      );
    }
    if (init.method === 'POST') {
      if (state.refuses)
        return Response.json(
          { code: 'spectrum-there', message: 'There already.' },
          { status: 409 },
        );
      const { structure, ...rest } = body as NewSpectrum;
      library.set(rest.id, spectrum(rest.id, rest.name, { ...rest, smiles: structure }));
      return Response.json(library.get(rest.id), { status: 201 });
    }
    if (init.method === 'PATCH') {
      const id = path.split('/')[3]!;
      const { structure, ...rest } = body;
      const smiles = structure === undefined ? library.get(id)!.smiles : structure;
      library.set(id, { ...library.get(id)!, ...rest, smiles });
      return Response.json(library.get(id));
    }
    return Response.json([...library.values()]);
  });
  return state;
}

let state: ReturnType<typeof server>;
beforeEach(() => {
  state = server();
  vi.stubGlobal(
    'ResizeObserver',
    class {
      observe() {}
      unobserve() {}
      disconnect() {}
    },
  );
  vi.stubGlobal(
    'CSSStyleSheet',
    class {
      replaceSync() {}
    },
  );
  document.adoptedStyleSheets = [];
});
afterEach(() => {
  cleanup();
  queryClient.clear();
  vi.unstubAllGlobals();
});

async function openLibrary() {
  render(
    <QueryClientProvider client={queryClient}>
      <MemoryRouter>
        <LibraryPage />
      </MemoryRouter>
    </QueryClientProvider>,
  );
  await screen.findByRole('heading', { level: 1 });
}

const names = () => screen.getAllByRole('heading', { level: 3 }).map((each) => each.textContent);
const press = (name: string | RegExp) => fireEvent.click(screen.getByRole('button', { name }));
const type = (label: string | RegExp, value: string) =>
  fireEvent.change(screen.getByLabelText(label), { target: { value } });
const choose = (...files: readonly File[]) =>
  fireEvent.change(screen.getByLabelText('choose them'), { target: { files } });
const file = (name: string, text = TABLE) => new File([text], name);

describe('the library', () => {
  it('says how many there are, and how each was measured', async () => {
    await openLibrary();
    expect(screen.getByRole('heading', { level: 1 }).textContent).toBe('2 reference spectra.');
    expect(names()).toEqual(['acetone', 'toluene']);
    expect(screen.getByText(/^liquid film; added by R\. T\./)).toBeDefined();
  });

  it('takes files, each under the name that the person gives', async () => {
    await openLibrary();
    choose(file('run 7.csv'), file('run 8.csv'));
    const form = await screen.findByRole('form', { name: 'About run 7.csv' });
    expect(within(form).getByLabelText<HTMLInputElement>('Name').value).toBe('run 7');
    type('Name', 'cyclohexanone');
    type(/^Structure/, ' O=C1CCCCC1 ');
    type('How was it measured?', 'film');
    press('Keep it in the library');
    await screen.findByText('“cyclohexanone” is in the library.');
    const made = [...state.library.values()].find(({ name }) => name === 'cyclohexanone')!;
    expect(made).toMatchObject({ smiles: 'O=C1CCCCC1', state: 'film' });
    expect(state.sent).toEqual([`/api/attachments/${made.file}`]);
    await screen.findByRole('form', { name: 'About run 8.csv' });
    expect(screen.getByLabelText<HTMLSelectElement>('How was it measured?').value).toBe('film');
    press('Leave it out');
    expect(screen.queryByRole('form')).toBeNull();
  });

  it('keeps the questions open where the server refuses', async () => {
    await openLibrary();
    state.refuses = true;
    choose(file('run 7.csv'));
    await screen.findByRole('form');
    press('Keep it in the library');
    await screen.findByText('There already.');
    expect(screen.getByRole('form')).toBeDefined();
  });

  it('says why a file is no infrared spectrum', async () => {
    await openLibrary();
    choose(file('table.csv', 'name,mass\nA,1.2\n'), file('page.jdx', '<!doctype html>'));
    const form = await screen.findByRole('form', { name: 'About table.csv' });
    expect(within(form).getByRole('alert').textContent.length).toBeGreaterThan(20);
    expect(screen.queryByRole('button', { name: 'Keep it in the library' })).toBeNull();
    expect(screen.getByText(/page\.jdx is a web page/)).toBeDefined();
  });

  it('puts away and, by Undo, brings back; and changes what is said', async () => {
    await openLibrary();
    press('Put away acetone');
    await screen.findByText('“acetone” is put away.');
    expect(state.library.get('s-acetone')!.putAway).toBe(true);
    await screen.findByText('1 put away');
    press('Undo');
    await screen.findByText('“acetone” is back in the library.');
    expect(state.library.get('s-acetone')!.putAway).toBe(false);
    press('Change toluene');
    type('Name', 'toluene, dry');
    press('Keep the change');
    await screen.findByText('“toluene, dry” is changed.');
    expect(state.library.get('s-toluene')).toMatchObject({
      name: 'toluene, dry',
      smiles: 'Cc1ccccc1',
      state: 'film',
    });
  });

  it('finds by name here, and by bands on the server', async () => {
    await openLibrary();
    type('Find', 'TOLU');
    expect(names()).toEqual(['toluene']);
    type('Find', '1715 1220');
    await screen.findByText('1716 (strong) cm⁻¹');
    expect(names()).toEqual(['toluene']);
    fireEvent.change(screen.getByLabelText('within'), { target: { value: '20' } });
    await waitFor(() =>
      expect(state.searches.at(-1)).toEqual({ bands_percm: [1715, 1220], tolerance_percm: 20 }),
    );
  });

  it('says what a file is most like, with what that means, in the decimal sign of the laboratory', async () => {
    state.decimalSign = ',';
    await openLibrary();
    choose(file('unknown.csv'));
    await screen.findByRole('form');
    press('What is it most like?');
    await screen.findByRole('heading', { name: 'unknown is most like acetone: 0,97.' });
    expect(screen.getByText(/An isomer or a homologue can come as near/)).toBeDefined();
    expect(screen.getByText(/proves nothing by itself/)).toBeDefined();
    expect(screen.getByText(/compared from 2400 to 600 cm⁻¹ only/)).toBeDefined();
    expect(state.library.size).toBe(2);
    await screen.findByRole('region', { name: 'Trace of unknown and acetone' });
    fireEvent.click(screen.getByRole('radio', { name: /toluene/ }));
    await screen.findByRole('region', { name: 'Trace of unknown and toluene' });
    press('Close the comparison');
    expect(screen.queryByRole('region', { name: /^Trace/ })).toBeNull();
  });

  it('draws the first 200 of very many, says so, and finds the others', async () => {
    for (let n = 0; n < 300; n++) {
      const id = `many-${n}`;
      state.library.set(id, spectrum(id, `sample ${n}`));
    }
    await openLibrary();
    expect(names()).toHaveLength(200);
    expect(screen.getByText(/^The first 200 of 302 are shown/)).toBeDefined();
    type('Find', 'sample 299');
    expect(names()).toEqual(['sample 299']);
  });

  it('shows the trace of a reference', async () => {
    await openLibrary();
    press('Trace of acetone');
    await screen.findByRole('region', { name: 'Trace of acetone' });
  });

  it('lets a bench compare, but neither keep nor change', async () => {
    state.role = 'bench';
    await openLibrary();
    await waitFor(() => expect(screen.queryByRole('button', { name: /^Put away/ })).toBeNull());
    choose(file('mine.csv'));
    await screen.findByRole('form');
    expect(screen.queryByRole('button', { name: 'Keep it in the library' })).toBeNull();
    expect(screen.getByRole('button', { name: 'What is it most like?' })).toBeDefined();
  });
});

describe('what is asked', () => {
  test.each([
    ['1715 1220', [1715, 1220]],
    ['1715.5; 1220 cm-1', [1715.5, 1220]],
    ['1715, 1220 cm⁻¹', [1715, 1220]],
    ['1715,5', [1715.5]],
    ['1715,1220', [1715, 1220]],
    ['3060', [3060]],
  ])('%s asks for bands', (text, bands_percm) => {
    expect(questionIn(text)).toEqual({ kind: 'bands', bands_percm });
  });

  test.each(['', 'acetone', '4-methyl', '17', '2026 run', '9999', '1715 acetone'])(
    '%j asks for a name',
    (text) => {
      expect(questionIn(text).kind).toBe('name');
    },
  );

  it('is found in a name without its accents, or in a SMILES', () => {
    const all = [spectrum('1', 'Benzoësäure'), spectrum('2', 'x', { smiles: 'CC#N' })];
    expect(named(all, ['benzoesaure']).map(({ id }) => id)).toEqual(['1']);
    expect(named(all, ['c#n']).map(({ id }) => id)).toEqual(['2']);
    expect(named(all, [])).toHaveLength(2);
  });
});

it('a similarity is never rounded up to 1', () => {
  expect(similarityText(0.9999, '.')).toBe('0.99');
  expect(similarityText(1 - 1e-12, ',')).toBe('1,00');
  expect(similarityText(0.29, '.')).toBe('0.29');
});

it('an overlay is as high as the spectrum under it, without its background', () => {
  const x = Float64Array.from({ length: 1701 }, (_, i) => 600 + 2 * i);
  const made = (height: number, level: number) => ({
    title: '',
    wavenumber_percm: x,
    absorbance: x.map((each) => level + height / (1 + ((each - 1715) / 9) ** 2)),
    recordedAs: 'absorbance' as const,
    gaps: [],
    positionU_percm: 0.5,
  });
  const over = toHeightOf(made(0.8, 0.1), made(0.1, 0.6));
  expect(Math.max(...over.absorbance)).toBeCloseTo(0.8, 1);
  expect(Math.min(...over.absorbance)).toBeCloseTo(0, 1);
});
