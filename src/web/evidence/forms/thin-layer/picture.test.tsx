// @vitest-environment jsdom
import { cleanup, fireEvent, screen, waitFor, within } from '@testing-library/react';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { openForm, subjectsFor, worth } from '../testing.tsx';
import { thinLayerForm } from './form.tsx';

const KETONE = subjectsFor('4-methylcyclohexanone', { '4-methylcyclohexanol': 'startingMaterial' });

beforeEach(() => {
  URL.createObjectURL = vi.fn(() => 'blob:plate');
  URL.revokeObjectURL = vi.fn();
  // A picture of 600 by 800 pixels, shown half as large: nothing is laid out here.
  vi.spyOn(HTMLImageElement.prototype, 'naturalWidth', 'get').mockReturnValue(600);
  vi.spyOn(HTMLImageElement.prototype, 'naturalHeight', 'get').mockReturnValue(800);
  vi.spyOn(HTMLElement.prototype, 'getBoundingClientRect').mockReturnValue(
    new DOMRect(100, 50, 300, 400),
  );
});

afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
});

const plate = () => screen.getByRole('application', { name: 'Plate' });
const press = (...keys: readonly string[]) => {
  for (const key of keys) fireEvent.keyDown(plate(), { key, shiftKey: false });
};
const stride = (key: string, times: number) => {
  for (let i = 0; i < times; i++) fireEvent.keyDown(plate(), { key, shiftKey: true });
};
/** At pixels of the picture. */
const tap = (x: number, y: number) =>
  fireEvent.click(plate(), { clientX: 100 + x / 2, clientY: 50 + y / 2 });
const said = () => plate().parentElement!.querySelector('[role=status]')!.textContent;
const aimed = () =>
  within(screen.getByRole('radiogroup'))
    .getAllByRole<HTMLInputElement>('radio')
    .find(({ checked }) => checked)!.parentElement!.textContent;

async function withPicture() {
  const form = openForm(thinLayerForm, KETONE);
  form.type('Eluent', 'ether');
  form.tick('UV 254 nm');
  form.type('Measured', 'photograph');
  const file = new File(['plate'], 'plate.png', { type: 'image/png' });
  fireEvent.change(screen.getByLabelText('Picture'), { target: { files: [file] } });
  const image = await waitFor(() => plate().querySelector('img')!);
  fireEvent.load(image);
  return form;
}

test('taps set the start line, the front and the spots of the chosen lane', async () => {
  const form = await withPicture();
  tap(60, 700);
  expect(aimed()).toBe('Start line, other end');
  tap(540, 700);
  expect(aimed()).toBe('Solvent front');
  tap(300, 100);
  expect(aimed()).toMatch(/^Lane 1/);
  tap(150, 400);
  expect(said()).toMatch(/^Lane 1, spot 1: 150 across, 400 down\. Rf 0\.50/);
  fireEvent.click(screen.getByRole('radio', { name: /^Lane 2/ }));
  tap(300, 220);
  expect(document.querySelectorAll('output')[1]?.textContent).toMatch(/^Rf 0\.80/);
  form.keep();
  expect(form.kept).toMatchObject([
    {
      measure: {
        by: 'photograph',
        start: [
          [60, 700],
          [540, 700],
        ],
        front: [[300, 100]],
      },
      lanes: [
        { kind: 'startingMaterial', spots: [{ point: [150, 400], seenBy: ['uv254'] }] },
        { kind: 'product', spots: [{ point: [300, 220] }] },
      ],
    },
  ]);
  expect(form.attached).toEqual([undefined]);
});

test('arrow keys move the tapped point by a pixel of the screen, and a tap on a spot takes it up', async () => {
  await withPicture();
  fireEvent.click(screen.getByRole('radio', { name: /^Lane 1/ }));
  tap(150, 400);
  press('ArrowUp', 'ArrowUp', 'ArrowRight');
  expect(said()).toBe('Lane 1, spot 1: 152 across, 396 down.');
  tap(300, 300);
  expect(said()).toMatch(/^Lane 1, spot 2/);
  tap(156, 398);
  expect(said()).toMatch(/^Lane 1, spot 1/);
  press('Delete');
  expect(said()).toMatch(/^Crosshair/);
  expect(screen.getAllByRole('group', { name: 'Spot 1' })).toHaveLength(1);
});

test('with the keyboard alone a plate is measured whole', async () => {
  const form = await withPicture();
  press('ArrowLeft');
  expect(said()).toBe('Crosshair: 298 across, 400 down.');
  press('ArrowRight');
  // Start line, its two ends, from the middle of the picture at 300, 400.
  stride('ArrowDown', 15);
  stride('ArrowLeft', 10);
  press('Enter');
  stride('ArrowRight', 20);
  press('Enter');
  stride('ArrowUp', 30);
  press('Enter');
  expect(aimed()).toMatch(/^Lane 1/);
  stride('ArrowDown', 15);
  press(' ');
  form.tick('Keep the picture with the record');
  form.keep();
  expect(form.kept).toMatchObject([
    {
      measure: {
        start: [
          [100, 700],
          [500, 700],
        ],
        front: [[500, 100]],
      },
      lanes: [{ spots: [{ point: [500, 400] }] }, { spots: [] }],
    },
  ]);
  expect(form.attached[0]).toBeInstanceOf(File);
  expect(form.attached[0]?.name).toBe('plate.png');
});

test('a point of the list is carried by the next tap, nudged by buttons, and taken out', async () => {
  await withPicture();
  tap(60, 700);
  fireEvent.click(screen.getByRole('button', { name: /^Move it: Start line, one end/ }));
  expect(document.activeElement).toBe(plate());
  tap(80, 690);
  expect(said()).toMatch(/^Start line, one end: 80 across, 690 down/);
  fireEvent.click(screen.getByRole('button', { name: 'Down' }));
  expect(said()).toMatch(/80 across, 692 down/);
  fireEvent.click(screen.getByRole('button', { name: /^Take out: Start line, one end/ }));
  expect(screen.queryByRole('list', { name: 'Points of the plate' })).toBeNull();
});

test('the crosshair stays on the picture', async () => {
  await withPicture();
  stride('ArrowUp', 60);
  stride('ArrowLeft', 60);
  expect(said()).toBe('Crosshair: 0 across, 0 down.');
});

test.each([
  ['no picture', {}, { photo: 'A picture of the plate is needed.' }],
  ['no start line', {}, { points: 'Set both ends of the start line on the picture.' }],
  [
    'ends too close',
    { startA: '10 10', startB: '12 10', frontA: '5 100' },
    { points: 'Set the two ends of the start line further apart.' },
  ],
  [
    'no front',
    { startA: '10 10', startB: '90 10' },
    { points: 'Set the solvent front on the picture.' },
  ],
  ['an odd scale', { run_mm: '0' }, { run_mm: 'More than 0 is expected here.' }],
])('%s is said', (_, draft, problems) => {
  const found = worth(thinLayerForm, { eluent: 'ether', by: 'photograph', ...draft }, KETONE);
  expect(found).toMatchObject(problems);
});

test('a tilted front and the scale are kept, and spots that were typed for a ruler are not', () => {
  const photo = new File(['plate'], 'plate.png', { type: 'image/png' });
  const draft = {
    eluent: 'ether',
    by: 'photograph',
    photo,
    way_uv254: true,
    startA: '10 700',
    startB: '590 690',
    frontA: '20 100',
    frontB: '580 80',
    run_mm: '45',
    lanes: [{ what: 'product', spots: [{ position_mm: '20' }, { id: 'spot1', point: '300 400' }] }],
  };
  expect(worth(thinLayerForm, draft, KETONE)).toMatchObject({
    measure: {
      front: [
        [20, 100],
        [580, 80],
      ],
      run_mm: 45,
    },
    lanes: [{ spots: [{ point: [300, 400], seenBy: ['uv254'] }] }],
  });
});
