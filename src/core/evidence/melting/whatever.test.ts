import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { tableWith } from '../../chemistry/substance.ts';
import { judgeBoiling } from '../boiling/judge.ts';
import { boilingEnteredSchema } from '../boiling/schema.ts';
import { judgeDensity } from '../density/judge.ts';
import { densityEnteredSchema } from '../density/schema.ts';
import { judgeRefraction } from '../refraction/judge.ts';
import { refractionEnteredSchema } from '../refraction/schema.ts';
import { judgeRotation } from '../rotation/judge.ts';
import { rotationEnteredSchema } from '../rotation/schema.ts';
import type { Judged } from '../statement.ts';
import type { Subject, Subjects } from '../subject.ts';
import { judgeMelting } from './judge.ts';
import { meltingEnteredSchema } from './schema.ts';

const all = tableWith().all();
const RUNS = Number(process.env.FUZZ_RUNS ?? 1000);
/** Likely values, and values that a slip of the pen makes. */
const number = fc.oneof(
  fc.double({ min: -50, max: 300, noNaN: true }),
  fc.double({ min: 0.5, max: 2, noNaN: true }),
  fc.constantFrom(0, -0, -1, 1, 20, 760, 1013, 1e4, -270, 1e-9),
);
const maybe = <T>(value: fc.Arbitrary<T>) => fc.option(value, { nil: undefined });
const name = fc.constantFrom(...all.map((substance) => substance.name));

const subject: fc.Arbitrary<Subject> = fc.record({
  role: fc.constantFrom('product', 'startingMaterial', 'solvent'),
  substance: fc.constantFrom(...all),
  literature: fc
    .record({
      meltingRange_C: maybe(fc.tuple(number, number)),
      boilingPoint_C: maybe(number),
      boilingPressure_kPa: maybe(number),
      refractiveIndex: maybe(number),
      refractiveIndexT_C: maybe(number),
      density_g_mL: maybe(number),
      densityT_C: maybe(number),
      specificRotation: maybe(number),
    })
    .map((found) => JSON.parse(JSON.stringify(found)) as Subject['literature']),
});
const subjects: fc.Arbitrary<Subjects> = fc
  .record({ product: maybe(subject), others: fc.array(subject, { maxLength: 3 }) })
  .map(({ product, others }) => (product === undefined ? { others } : { product, others }));

const range = fc.record({ low_C: number, high_C: number });
const thermometer = fc.record({
  kind: maybe(fc.constantFrom('digital', 'mercury', 'alcohol')),
  tolerance_C: maybe(number),
  calibration: maybe(
    fc.array(fc.record({ measured_C: number, true_C: number }), { minLength: 1, maxLength: 4 }),
  ),
  stem: maybe(fc.record({ emergent_C: number, stem_C: number })),
});
const flag = maybe(fc.boolean());

/** Each technique with anything that its schema lets in. */
const TECHNIQUES = {
  melting: {
    entered: fc.record({
      technique: fc.constant('meltingRange'),
      sample: fc.constantFrom('product', 'mixed', 'authentic'),
      low_C: number,
      high_C: number,
      thermometer: maybe(thermometer),
      heatingRate_C_min: maybe(number),
      decomposes: flag,
      sublimes: flag,
      mixedWith: maybe(fc.record({ substance: name, range: maybe(range) })),
      alone: maybe(range),
    }),
    schema: meltingEnteredSchema,
    judge: judgeMelting,
  },
  boiling: {
    entered: fc.record({
      technique: fc.constant('boilingRange'),
      low_C: number,
      high_C: number,
      pressure: maybe(
        fc.record({ value: number, unit: fc.constantFrom('kPa', 'mbar', 'mmHg', 'atm') }),
      ),
      method: maybe(fc.constantFrom('distillation', 'microscale')),
      thermometer: maybe(thermometer),
      hydrogenBonded: flag,
    }),
    schema: boilingEnteredSchema,
    judge: judgeBoiling,
  },
  refraction: {
    entered: fc.record({
      technique: fc.constant('refractiveIndex'),
      index: number,
      T_C: number,
      compensated: flag,
      tolerance: maybe(number),
      fall_perC: maybe(fc.double({ min: 0, max: 0.01, noNaN: true })),
      water: maybe(fc.record({ index: number, T_C: number })),
    }),
    schema: refractionEnteredSchema,
    judge: judgeRefraction,
  },
  density: {
    entered: fc.record({
      technique: fc.constant('density'),
      T_C: number,
      by: fc.oneof(
        fc.record({
          kind: fc.constant('pycnometer'),
          empty_g: number,
          withWater_g: number,
          withSample_g: number,
          waterT_C: maybe(number),
          readability_g: maybe(number),
          buoyancy: flag,
        }),
        fc.record({
          kind: fc.constant('shown'),
          density_g_mL: number,
          tolerance_g_mL: maybe(number),
        }),
      ),
      fall_g_mL_perC: maybe(fc.double({ min: 0, max: 0.1, noNaN: true })),
    }),
    schema: densityEnteredSchema,
    judge: judgeDensity,
  },
  rotation: {
    entered: fc.record({
      technique: fc.constant('rotation'),
      observed_deg: number,
      blank_deg: maybe(number),
      length_dm: number,
      sample: fc.oneof(
        fc.record({
          kind: fc.constant('solution'),
          concentration: number,
          unit: fc.constantFrom('g/100 mL', 'g/mL'),
          solvent: maybe(name),
        }),
        fc.record({ kind: fc.constant('neat'), density_g_mL: number }),
      ),
      T_C: number,
      wavelength_nm: maybe(fc.constantFrom(589, 546, 589.3, 0)),
      tolerance_deg: maybe(number),
      literature: maybe(fc.record({ solvent: maybe(name) })),
    }),
    schema: rotationEnteredSchema,
    judge: judgeRotation,
  },
} as const;

interface Technique {
  readonly entered: fc.Arbitrary<unknown>;
  readonly schema: {
    safeParse(value: unknown): { readonly success: boolean; readonly data?: unknown };
  };
  readonly judge: (entered: never, subjects: Subjects) => Judged;
}

function wellSaid(judged: Judged): void {
  const text = JSON.stringify(judged);
  expect(text).not.toMatch(/NaN|undefined|null|Infinity|∞|[Cc]onfirm|!/);
  expect(judged.statements.length + judged.diagnostics.length).toBeGreaterThan(0);
  const ids = judged.statements.map(({ id }) => id);
  expect(new Set(ids).size).toBe(ids.length);
  for (const one of judged.statements) {
    expect(one.says).toMatch(/\.$/);
    expect(one.limits).toMatch(/\.$/);
    expect(one.measured).not.toBe('');
    if (one.purity !== undefined) {
      expect(one.purity.share).toBeGreaterThanOrEqual(0);
      expect(one.purity.share).toBeLessThanOrEqual(1);
      expect(one.purity.basis).toBe('mole');
    }
  }
  for (const { hint, message } of judged.diagnostics) {
    expect(message).toMatch(/\.$/);
    expect(hint).toMatch(/\.$/);
  }
}

describe('whatever is written', () => {
  it.each(Object.entries(TECHNIQUES) as unknown as [string, Technique][])(
    '%s: an answer in plain sentences',
    (_, { entered, schema, judge }) => {
      let taken = 0;
      fc.assert(
        fc.property(entered, subjects, (written, known) => {
          const parsed = schema.safeParse(JSON.parse(JSON.stringify(written)));
          if (!parsed.success) return;
          taken++;
          wellSaid(judge(parsed.data as never, known));
        }),
        { numRuns: RUNS },
      );
      expect(taken).toBeGreaterThan(RUNS / 4);
    },
  );
});
