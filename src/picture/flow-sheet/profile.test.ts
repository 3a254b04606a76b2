import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { heightOf, levelAt, radiusAt, volumeBelow, volumeOf, wallBetween } from './profile.ts';
import type { Profile } from './profile.ts';
import { SHAPES, extentOf, unit_cm } from './shapes.ts';

const BALL: Profile = [{ kind: 'ball', radius: 1, from: -1, to: 1 }];
const CONE: Profile = [{ kind: 'cone', height: 3, bottomRadius: 0, topRadius: 1 }];
const TUBE: Profile = [{ kind: 'cone', height: 5, bottomRadius: 2, topRadius: 2 }];

/*
 * Archimedes, On the Sphere and Cylinder, book I, proposition 34 and its corollary: a ball is two
 * thirds of the cylinder about it, a cone one third. Cap of a ball: V = πh²(3R − h)/3; frustum:
 * V = πh(a² + ab + b²)/3 (D. Zwillinger, CRC Standard Mathematical Tables and Formulas, Geometry;
 * from memory of the book's section on solids).
 */
describe('volumes of solids, against their published formulas', () => {
  it('makes a ball two thirds of its cylinder, and a cone one third', () => {
    expect(volumeOf(BALL)).toBeCloseTo((2 / 3) * (Math.PI * 2), 12);
    expect(volumeOf(CONE)).toBeCloseTo((1 / 3) * (Math.PI * 3), 12);
  });

  it.each([0.1, 0.5, 1, 1.5, 1.9])('gives the cap of a ball of height %d', (h) => {
    expect(volumeBelow(BALL, h)).toBeCloseTo((Math.PI * h * h * (3 - h)) / 3, 12);
  });

  it('gives the frustum of a cone', () => {
    const frustum: Profile = [{ kind: 'cone', height: 1.75, bottomRadius: 1, topRadius: 0.42 }];
    const expected = (Math.PI * 1.75 * (1 + 0.42 + 0.42 ** 2)) / 3;
    expect(volumeOf(frustum)).toBeCloseTo(expected, 12);
  });
});

describe('the height at which a volume stands', () => {
  it.each([
    // 5/32 of a ball stand as high as half its radius, 27/32 as 3/2: the cap formula solved by hand
    ['ball', BALL, 5 / 32, 0.5],
    ['ball', BALL, 1 / 2, 1],
    ['ball', BALL, 27 / 32, 1.5],
    // A cone on its tip: the height goes with the cube root
    ['cone', CONE, 1 / 8, 1.5],
    ['cone', CONE, 1 / 27, 1],
    ['cylinder', TUBE, 1 / 4, 1.25],
  ] as const)('in a %s: %#', (_, profile, fraction, height) => {
    expect(levelAt(profile, fraction * volumeOf(profile))).toBeCloseTo(height, 8);
  });

  it('is none for nothing and the brim for too much', () => {
    for (const volume of [0, -1, Number.NaN]) expect(levelAt(BALL, volume)).toBe(0);
    expect(levelAt(BALL, 100)).toBe(2);
  });

  it('is the inverse of the volume, in every vessel', () => {
    const shape = fc.constantFrom(...Object.values(SHAPES));
    fc.assert(
      fc.property(shape, fc.double({ min: 0.001, max: 1, noNaN: true }), (each, fraction) => {
        const room = [...each.body, ...each.neck];
        const volume = fraction * volumeOf(room);
        expect(volumeBelow(room, levelAt(room, volume)) / volume).toBeCloseTo(1, 6);
      }),
    );
  });
});

describe('the shapes', () => {
  it.each(Object.entries(SHAPES))('%s: a wall without a step, in a known extent', (_, shape) => {
    const room = [...shape.body, ...shape.neck];
    const { halfWidth, above } = extentOf(shape);
    for (const { z, r } of wallBetween(room, 0, heightOf(room))) {
      expect(r).toBeLessThanOrEqual(halfWidth + 1e-9);
      expect(z).toBeLessThanOrEqual(above + 1e-9);
    }
    let base = 0;
    for (const section of room) {
      base += heightOf([section]);
      expect(radiusAt(room, base - 1e-9)).toBeCloseTo(radiusAt(room, base + 1e-9), 3);
    }
  });

  it('are as large as their capacity: a ball of 100 mL is 5.8 cm across', () => {
    // (6 V / π)^(1/3), of which the slice under the neck is not counted
    const across = 2 * unit_cm(SHAPES['round-bottom flask'], 100);
    expect(across).toBeGreaterThan(Math.cbrt((6 * 100) / Math.PI));
    expect(across).toBeLessThan(1.01 * Math.cbrt((6 * 100) / Math.PI));
  });
});
