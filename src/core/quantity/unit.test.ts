import { expect, it } from 'vitest';
import { readUnitAt, unitNames } from './unit.ts';

it.each(unitNames())('%s is read behind a number, as it is printed', (name) => {
  const read = readUnitAt(`5 ${name}`, 1);
  expect(read?.unit.unit).toBe(name);
  expect(read?.end).toBe(2 + name.length);
});

it.each(['gas', 'g/kg', 'mg/µL of it', 'mLx', 'mL²', 'mLé', 'gα', 'min_1', 'd5'])(
  '%s is no unit of one word',
  (text) => {
    expect(readUnitAt(`5 ${text}`, 1)?.unit.kind).not.toBe('mass');
    expect(readUnitAt(`5 ${text}`, 1)?.unit.kind).not.toBe('volume');
  },
);
