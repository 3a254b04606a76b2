import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { SpectrumView } from '../../picture/spectrum/spectrum-view.ts';
import { stretchOf, valuesIn } from '../../picture/spectrum/x-scale.ts';
import { acted, actOfKey, firstLook, scaleOf } from './instrument.ts';
import type { Act, Look } from './instrument.ts';

const VIEW: SpectrumView = {
  traces: [],
  windows: [],
  bands: [2950, 1715, 1223].map((position) => ({
    id: `b${position}`,
    position,
    height: 1,
    label: '',
  })),
  regions: [],
  yAxis: 'transmittance',
  range: { low: 400, high: 4000 },
};

const seenOf = (look: Look) => valuesIn(scaleOf(VIEW, look), look.stretch);

const after = (...acts: readonly Act[]) =>
  acts.reduce((look, act) => acted(look, act, VIEW), firstLook(VIEW));

describe('acts', () => {
  test('the first look is the whole range', () => {
    expect(seenOf(firstLook(VIEW))).toEqual([400, 4000]);
  });

  test('closer keeps the cursor where it is in the picture', () => {
    const pointed = after({ kind: 'point', at: 1715 });
    const closer = acted(pointed, { kind: 'zoom', factor: 4 }, VIEW);
    const share = (look: Look) =>
      (scaleOf(VIEW, look).placeOf(1715) - look.stretch.from) /
      (look.stretch.to - look.stretch.from);
    expect(share(closer)).toBeCloseTo(share(pointed), 9);
  });

  test('bands one after another, as they stand from left to right, and no further than the last', () => {
    const right: Act = { kind: 'band', way: 1 };
    const left: Act = { kind: 'band', way: -1 };
    expect(after(right).cursor).toBeCloseTo(2950, 6);
    expect(after(right, right).cursor).toBeCloseTo(1715, 6);
    expect(after(right, right, right, right).cursor).toBeCloseTo(1223, 6);
    expect(after(right, right, left).cursor).toBeCloseTo(2950, 6);
    expect(after(left).cursor).toBeCloseTo(1223, 6);
  });

  test('a band out of sight is brought into it', () => {
    const look = after(
      { kind: 'see', low: 3000, high: 3600 },
      { kind: 'point', at: 3300 },
      { kind: 'band', way: 1 },
      { kind: 'band', way: 1 },
    );
    const [low, high] = seenOf(look);
    expect(look.cursor).toBeCloseTo(1715, 6);
    expect(low < 1715 && high > 1715).toBe(true);
  });

  test('the cursor goes to the nearest band where it is told to', () => {
    expect(after({ kind: 'point', at: 1700, snap: true }).cursor).toBe(1715);
    expect(after({ kind: 'snaps' }, { kind: 'point', at: 1300 }).cursor).toBe(1223);
    expect(after({ kind: 'point', at: 1700 }).cursor).toBe(1700);
  });

  test('another scale shows the same part', () => {
    const look = after({ kind: 'see', low: 1600, high: 2400 }, { kind: 'scale', scale: 'even' });
    const [low, high] = seenOf(look);
    expect([low, high].map(Math.round)).toEqual([1600, 2400]);
  });

  test('a trace that is put away comes back', () => {
    const away: Act = { kind: 'trace', id: 's' };
    expect([...after(away).hidden]).toEqual(['s']);
    expect([...after(away, away).hidden]).toEqual([]);
  });

  const anyAct: fc.Arbitrary<Act> = fc.oneof(
    fc.record({
      kind: fc.constant('zoom' as const),
      factor: fc.double({ min: 0.01, max: 100, noNaN: true }),
    }),
    fc.record({
      kind: fc.constant('pan' as const),
      by: fc.double({ min: -5000, max: 5000, noNaN: true }),
    }),
    fc.record({
      kind: fc.constant('point' as const),
      at: fc.double({ min: -100, max: 5000, noNaN: true }),
    }),
    fc.record({
      kind: fc.constant('step' as const),
      share: fc.double({ min: -1, max: 1, noNaN: true }),
    }),
    fc.record({
      kind: fc.constant('band' as const),
      way: fc.constantFrom(1 as const, -1 as const),
    }),
    fc.record({
      kind: fc.constant('edge' as const),
      edge: fc.constantFrom('from' as const, 'to' as const),
      place: fc.double({ min: -6000, max: 2000, noNaN: true }),
    }),
    fc.record({
      kind: fc.constant('scale' as const),
      scale: fc.constantFrom('even' as const, 'split' as const),
    }),
    fc.constant({ kind: 'whole' } as const),
  );

  test('whatever one does, something of the range is seen, and nothing beyond it', () => {
    fc.assert(
      fc.property(fc.array(anyAct, { maxLength: 30 }), (acts) => {
        const look = after(...acts);
        const whole = stretchOf(scaleOf(VIEW, look), VIEW.range);
        const room = whole.to - whole.from;
        expect(look.stretch.from).toBeGreaterThanOrEqual(whole.from - 1e-6);
        expect(look.stretch.to).toBeLessThanOrEqual(whole.to + 1e-6);
        expect(look.stretch.to - look.stretch.from).toBeGreaterThan(room / 500);
        if (look.cursor !== null) {
          expect(look.cursor).toBeGreaterThanOrEqual(400);
          expect(look.cursor).toBeLessThanOrEqual(4000);
        }
      }),
    );
  });
});

describe('keys', () => {
  const key = (name: string, more: object = {}) =>
    actOfKey({
      key: name,
      shiftKey: false,
      ctrlKey: false,
      altKey: false,
      metaKey: false,
      ...more,
    });

  test.each([
    ['ArrowRight', {}, 'step'],
    ['ArrowLeft', { shiftKey: true }, 'band'],
    ['[', {}, 'band'],
    [']', {}, 'band'],
    ['+', { shiftKey: true }, 'zoom'],
    ['-', {}, 'zoom'],
    ['Home', {}, 'whole'],
    ['Escape', {}, 'point'],
    ['ArrowUp', {}, undefined],
    ['Tab', {}, undefined],
    ['toString', {}, undefined],
    ['+', { ctrlKey: true }, undefined],
    ['ArrowLeft', { altKey: true }, undefined],
  ])('%s %o', (name, more, kind) => {
    expect(key(name, more)?.kind).toBe(kind);
  });
});
