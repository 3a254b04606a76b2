// @vitest-environment jsdom
import { act, cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { SpectrumView } from '../../picture/spectrum/spectrum-view.ts';
import { Trace } from './trace.tsx';

const X = Float64Array.from({ length: 1801 }, (_, i) => 400 + 2 * i);
const curve = (...centres: readonly number[]) =>
  X.map((x) => centres.reduce((sum, centre) => sum + Math.exp(-(((x - centre) / 15) ** 2)), 0));

const VIEW: SpectrumView = {
  traces: [
    { id: 's', label: 'Product', role: 'sample', x: X, y: curve(1700, 2950) },
    { id: 'm', label: 'Alcohol charged', role: 'startingMaterial', x: X, y: curve(3350) },
  ],
  windows: [
    { id: 'co', low: 1690, high: 1720, label: 'C=O of a ketone', verdict: 'present' },
    { id: 'oh', low: 3200, high: 3550, label: 'O–H', verdict: 'absent' },
  ],
  bands: [
    { id: 'b1', position: 1700, height: 1, width: 25, label: 'C=O stretch' },
    { id: 'b2', position: 2950, height: 0.5, label: '' },
  ],
  regions: [{ low: 2280, high: 2390, label: 'CO₂ of the air' }],
  yAxis: 'transmittance',
  range: { low: 400, high: 4000 },
};

const CAPTION = { name: 'Ketone, bench 7', version: 'version 4' };

beforeEach(() => {
  vi.stubGlobal(
    'ResizeObserver',
    class {
      observe() {}
      unobserve() {}
      disconnect() {}
    },
  );
  // No layout and no canvas in this browser: a width is said, and nothing is painted.
  vi.spyOn(HTMLElement.prototype, 'clientWidth', 'get').mockReturnValue(900);
  vi.spyOn(HTMLCanvasElement.prototype, 'getContext').mockReturnValue(null);
});

afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

const stage = () => screen.getByRole('slider', { name: 'Cursor, Wavenumber' });
const press = (...keys: readonly string[]) => {
  for (const key of keys) fireEvent.keyDown(stage(), { key });
};
const said = () => stage().getAttribute('aria-valuetext')!.replaceAll('\u202f', ' ');
const part = () =>
  screen
    .getByRole('group', { name: /^Part shown/ })
    .getAttribute('aria-label')!
    .replaceAll('\u202f', ' ');

test('without a canvas all that is not the curve is there', () => {
  const { container } = render(<Trace view={VIEW} caption={CAPTION} />);
  expect(container.querySelector('.trace-stage > svg')?.textContent).toContain(
    'C=O of a ketone, seen',
  );
  expect(part()).toBe('Part shown: 4000–400 cm⁻¹');
  expect(said()).toBe('No cursor');
});

test('brackets go from band to band and say what stands there', () => {
  render(<Trace view={VIEW} caption={CAPTION} />);
  press(']');
  expect(said()).toBe('2950 cm⁻¹, Product 10.0 %T, Alcohol charged 100.0 %T, band 2950 cm⁻¹');
  press(']');
  expect(said()).toContain('band 1700 cm⁻¹, C=O stretch');
  press('[');
  expect(said()).toContain('2950 cm⁻¹');
  press('Escape');
  expect(said()).toBe('No cursor');
});

test('arrows move the cursor the way they point: to the right the wavenumber falls', () => {
  render(<Trace view={VIEW} caption={CAPTION} />);
  press('ArrowRight');
  const before = Number(stage().getAttribute('aria-valuenow'));
  press('ArrowRight');
  expect(Number(stage().getAttribute('aria-valuenow'))).toBeLessThan(before);
});

test('plus comes closer, Home goes back, and a key with Ctrl is left alone', () => {
  render(<Trace view={VIEW} caption={CAPTION} />);
  press('+', '+');
  expect(part()).not.toBe('Part shown: 4000–400 cm⁻¹');
  const closer = part();
  fireEvent.keyDown(stage(), { key: '-', ctrlKey: true });
  expect(part()).toBe(closer);
  press('Home');
  expect(part()).toBe('Part shown: 4000–400 cm⁻¹');
});

test('the grips are moved by keys and say where they stand', () => {
  render(<Trace view={VIEW} caption={CAPTION} />);
  const left = screen.getByRole('slider', { name: 'Left edge' });
  fireEvent.keyDown(left, { key: 'ArrowRight' });
  expect(part()).not.toContain('4000');
  expect(left.getAttribute('aria-valuetext')).not.toContain('4000');
  fireEvent.keyDown(left, { key: 'Home' });
  expect(part()).toBe('Part shown: 4000–400 cm⁻¹');
});

test('Enter chooses the band under the cursor, a row of the table the window', () => {
  const [onBand, onWindow] = [vi.fn(), vi.fn()];
  render(<Trace view={VIEW} caption={CAPTION} onSelectBand={onBand} onSelectWindow={onWindow} />);
  press(']', 'Enter');
  expect(onBand).toHaveBeenLastCalledWith('b2');
  fireEvent.click(screen.getByText('O–H', { selector: 'button' }));
  expect(onWindow).toHaveBeenLastCalledWith('oh');
  expect(part()).toBe('Part shown: 4000–2250 cm⁻¹');
  fireEvent.click(screen.getByText('1700', { selector: 'button' }));
  expect(onBand).toHaveBeenLastCalledWith('b1');
  expect(said()).toContain('band 1700 cm⁻¹');
});

test('a tap on the name of a window chooses it, a drag does not', () => {
  const onWindow = vi.fn();
  const { container } = render(<Trace view={VIEW} caption={CAPTION} onSelectWindow={onWindow} />);
  const name = [...container.querySelectorAll('.trace-stage > svg text')].find(
    ({ textContent }) => textContent === 'O–H, not seen',
  )!;
  const spot = {
    clientX: Number(name.getAttribute('x')) + 8,
    clientY: Number(name.getAttribute('y')) - 4,
    button: 0,
    pointerId: 1,
  };
  fireEvent.pointerDown(stage(), spot);
  fireEvent.pointerUp(stage(), { ...spot, clientX: spot.clientX + 40 });
  expect(onWindow).not.toHaveBeenCalled();
  fireEvent.pointerDown(stage(), spot);
  fireEvent.pointerUp(stage(), spot);
  expect(onWindow).toHaveBeenCalledWith('oh');
});

test('absorbance and back, and a trace put away is no longer read', () => {
  render(<Trace view={VIEW} caption={CAPTION} />);
  press(']');
  fireEvent.click(screen.getByRole('button', { name: 'Absorbance' }));
  expect(said()).toContain('Product 1.000 A');
  fireEvent.click(screen.getByRole('checkbox', { name: 'Alcohol charged' }));
  expect(said()).not.toContain('Alcohol charged');
});

test('the table says the same in words, with the decimal sign of the laboratory', () => {
  const { container } = render(<Trace view={VIEW} caption={CAPTION} decimal="," />);
  const bands = within(container.querySelector('[aria-label="Bands"]')!);
  const cells = bands.getAllByText(/./, { selector: 'td' }).map(({ textContent }) => textContent);
  expect(cells).toEqual(['0,500', '–', '1,000', '25', 'C=O stretch', 'C=O of a ketone, seen']);
  expect(container.textContent).toContain('Not judged: 2390–2280');
});

test('paper gets the picture, in black, and the screen does not', () => {
  const { container } = render(<Trace view={VIEW} caption={CAPTION} />);
  expect(container.querySelector('.trace-paper')).toBeNull();
  act(() => void window.dispatchEvent(new Event('beforeprint')));
  const paper = container.querySelector('.trace-paper svg')!;
  expect(paper.querySelector('title')?.textContent).toBe('Ketone, bench 7, version 4');
  expect(paper.innerHTML).not.toMatch(/#(?!(..)\1\1)[0-9a-f]{6}/);
  act(() => void window.dispatchEvent(new Event('afterprint')));
  expect(container.querySelector('.trace-paper')).toBeNull();
});

test('the SVG that is saved is the picture', async () => {
  const blobs: Blob[] = [];
  vi.stubGlobal(
    'URL',
    Object.assign(URL, {
      createObjectURL: (blob: Blob) => (blobs.push(blob), 'blob:x'),
      revokeObjectURL: () => {},
    }),
  );
  vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(() => {});
  render(<Trace view={VIEW} caption={CAPTION} />);
  fireEvent.click(screen.getByText('Save as SVG'));
  expect(blobs[0]?.type).toBe('image/svg+xml');
});
