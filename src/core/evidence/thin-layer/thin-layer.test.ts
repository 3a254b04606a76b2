import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { makeSubstance } from '../../chemistry/substance.ts';
import { standardUncertainty } from '../../quantity/uncertain.ts';
import type { Statement } from '../statement.ts';
import type { Subject, SubjectRole, Subjects } from '../subject.ts';
import { judgeThinLayer } from './judge.ts';
import { placeSpots } from './retention.ts';
import { thinLayerEnteredSchema } from './schema.ts';
import type { LaneKind, ThinLayerEntered, ThinLayerLane } from './schema.ts';

function subject(role: SubjectRole, name: string): Subject {
  const made = makeSubstance({ name });
  if (!made.ok) throw new Error(made.message);
  return { role, substance: made.substance, literature: {} };
}

const SUBJECTS: Subjects = {
  product: subject('product', 'borneol'),
  others: [subject('startingMaterial', 'camphor')],
};

function lane(kind: LaneKind, ...positions: number[]): ThinLayerLane {
  return { kind, spots: positions.map((mm) => ({ position_mm: mm, seenBy: ['anisaldehyde'] })) };
}

function plate(...lanes: ThinLayerLane[]): ThinLayerEntered {
  return {
    technique: 'thinLayer',
    stationaryPhase: 'silica',
    eluent: 'hexane–ethyl acetate 4:1',
    measure: { by: 'ruler', start_mm: 10, front_mm: 60 },
    visualisations: ['uv254', 'anisaldehyde'],
    lanes,
  };
}

function judged(...lanes: ThinLayerLane[]): readonly Statement[] {
  const entered = plate(...lanes);
  expect(thinLayerEnteredSchema.safeParse(entered).success).toBe(true);
  return judgeThinLayer(entered, SUBJECTS).statements;
}

const brief = (statements: readonly Statement[]) =>
  statements.map(({ id, agreement, weight }) => `${id}: ${agreement}, ${weight}`);

const SCENARIOS: readonly [string, readonly ThinLayerLane[], readonly string[]][] = [
  [
    'clean product, starting material gone',
    [lane('product', 25), lane('startingMaterial', 35)],
    ['spots: agrees, moderate', 'starting-material-2: agrees, moderate'],
  ],
  [
    'starting material left',
    [lane('product', 25, 35), lane('startingMaterial', 35)],
    ['spots: disagrees, moderate', 'starting-material-2: disagrees, moderate'],
  ],
  [
    'one spot that runs like the starting material',
    [lane('product', 35), lane('startingMaterial', 35.3)],
    ['spots: agrees, moderate', 'starting-material-2: cannotTell, weak'],
  ],
  [
    'the same, but two spots on one place',
    [lane('product', 35), lane('startingMaterial', 35.3), lane('coSpot', 34.5, 36)],
    ['spots: agrees, moderate', 'starting-material-2: agrees, moderate'],
  ],
  [
    'starting material not made visible',
    [lane('product', 25), lane('startingMaterial')],
    ['spots: agrees, moderate', 'starting-material-2: cannotTell, weak'],
  ],
  [
    'starting material at the front',
    [lane('product', 25), lane('startingMaterial', 59.5)],
    ['spots: agrees, moderate', 'starting-material-2: cannotTell, weak'],
  ],
  [
    'two spots near the starting material, one of them its own',
    [lane('product', 44, 41.8, 15), lane('startingMaterial', 42)],
    ['spots: disagrees, moderate', 'starting-material-2: disagrees, moderate'],
  ],
  ['product at the start line', [lane('product', 10.5)], ['spots: cannotTell, weak']],
  [
    'like the authentic sample',
    [lane('product', 25), lane('authentic', 25.4)],
    ['spots: agrees, moderate', 'authentic-2: agrees, weak'],
  ],
  [
    'like it on one place too',
    [
      lane('product', 25),
      lane('authentic', 25.4),
      { ...lane('coSpot', 25.2), of: ['product', 'authentic'] },
    ],
    ['spots: agrees, moderate', 'authentic-2: agrees, moderate'],
  ],
  [
    'unlike the authentic sample',
    [lane('product', 25), lane('authentic', 31)],
    ['spots: agrees, moderate', 'authentic-2: disagrees, moderate'],
  ],
  [
    'two spots on one place with the authentic sample',
    [
      lane('product', 25),
      lane('authentic', 26),
      { ...lane('coSpot', 24.8, 26.2), of: ['product', 'authentic'] },
    ],
    ['spots: agrees, moderate', 'authentic-2: disagrees, strong'],
  ],
  [
    'at the height of the authentic sample, but seen in another way',
    [lane('product', 25), { kind: 'authentic', spots: [{ position_mm: 25, seenBy: ['uv254'] }] }],
    ['spots: agrees, moderate', 'authentic-2: disagrees, moderate'],
  ],
  ['no product', [lane('startingMaterial', 30)], []],
];

describe('judging a plate', () => {
  test.each(SCENARIOS)('%s', (_, lanes, expected) => {
    const statements = judged(...lanes);
    expect(brief(statements)).toEqual(expected);
    for (const statement of statements) expect(statement.limits).not.toBe('');
  });

  test('Rf and its uncertainty by hand', () => {
    const { spots } = placeSpots(plate(lane('product', 35)));
    const rf = spots[0]!.rf;
    expect(rf.value).toBeCloseTo(0.5, 12);
    // u(reading) = 0.5/√3; ∂Rf/∂spot = 1/50, ∂/∂front = −0.5/50, ∂/∂start = −0.5/50
    const u = 0.5 / Math.sqrt(3);
    expect(standardUncertainty(rf)).toBeCloseTo((u / 50) * Math.sqrt(1 + 0.25 + 0.25), 12);
  });

  test.each([
    ['above the front', plate(lane('product', 64)), 'tlc-spot-above-front'],
    ['below the start', plate(lane('product', 2)), 'tlc-spot-below-start'],
    ['not measured', plate({ kind: 'product', spots: [{ seenBy: [] }] }), 'tlc-spot-unmeasured'],
    [
      'no run',
      { ...plate(lane('product', 30)), measure: { by: 'ruler', start_mm: 60, front_mm: 10 } },
      'tlc-no-run',
    ],
    ['no product', plate(lane('authentic', 30)), 'tlc-no-product'],
    ['blank product', plate(lane('product')), 'tlc-product-blank'],
    ['two products', plate(lane('product', 30), lane('product', 31)), 'tlc-two-products'],
    ['at the edge', plate(lane('product', 10)), 'tlc-at-edge'],
    ['not looked at', { ...plate(lane('product', 30)), visualisations: [] }, 'tlc-not-visualised'],
    [
      'tailing',
      plate({ kind: 'product', spots: [{ position_mm: 30, seenBy: [], tailing: true }] }),
      'tlc-tailing',
    ],
  ] as [string, ThinLayerEntered, string][])('%s', (_, entered, code) => {
    const { diagnostics } = judgeThinLayer(entered, SUBJECTS);
    expect(diagnostics.map((one) => one.code)).toContain(code);
  });

  test('a spot beyond the front makes no statement', () => {
    expect(judged(lane('product', 70))).toEqual([]);
  });
});

const fraction = fc.double({ min: 0.02, max: 0.98, noNaN: true });

/** A plate 200 wide and 500 high in a photograph that is turned, scaled, shifted or mirrored. */
function photograph(
  rfs: readonly number[],
  turn: { angle: number; size: number; x: number; y: number; mirror: boolean },
): ThinLayerEntered {
  const place = (across: number, up: number): readonly [number, number] => {
    const [u, v] = [turn.mirror ? -across : across, -up];
    const [c, s] = [Math.cos(turn.angle), Math.sin(turn.angle)];
    return [turn.x + turn.size * (c * u - s * v), turn.y + turn.size * (s * u + c * v)];
  };
  return {
    technique: 'thinLayer',
    stationaryPhase: 'silica',
    eluent: 'ether',
    measure: { by: 'photograph', start: [place(0, 0), place(200, 0)], front: [place(90, 500)] },
    visualisations: ['uv254'],
    lanes: rfs.map((rf, i) => ({
      kind: 'other',
      spots: [{ point: place(30 + 20 * i, 500 * rf), seenBy: ['uv254'] }],
    })),
  };
}

describe('what must always hold', () => {
  test('Rf does not depend on how the photograph lies', () => {
    const turn = fc.record({
      angle: fc.double({ min: -3.2, max: 3.2, noNaN: true }),
      size: fc.double({ min: 0.2, max: 20, noNaN: true }),
      x: fc.double({ min: -5000, max: 5000, noNaN: true }),
      y: fc.double({ min: -5000, max: 5000, noNaN: true }),
      mirror: fc.boolean(),
    });
    fc.assert(
      fc.property(fc.array(fraction, { minLength: 1, maxLength: 5 }), turn, (rfs, how) => {
        const { spots, diagnostics } = placeSpots(photograph(rfs, how));
        expect(diagnostics).toEqual([]);
        spots.forEach((spot, i) => {
          expect(spot.rf.value).toBeCloseTo(rfs[i]!, 6);
          const plain = placeSpots(
            photograph(rfs, { angle: 0, size: 1, x: 0, y: 0, mirror: false }),
          );
          expect(standardUncertainty(spot.rf)).toBeCloseTo(
            standardUncertainty(plain.spots[i]!.rf),
            6,
          );
        });
      }),
    );
  });

  test('a slanted front is taken where the spot stands', () => {
    const entered = photograph([0.5], { angle: 0, size: 1, x: 0, y: 0, mirror: false });
    if (entered.measure.by !== 'photograph') throw new Error('no photograph');
    const slanted: ThinLayerEntered = {
      ...entered,
      measure: {
        ...entered.measure,
        front: [
          [0, -400],
          [200, -600],
        ],
      },
    };
    // The spot is 30 across: the front stands at 430 there, the spot at 250
    expect(placeSpots(slanted).spots[0]!.rf.value).toBeCloseTo(250 / 430, 9);
  });

  test('the order of the spots of a lane changes nothing', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: 15, max: 55 }), { minLength: 1, maxLength: 4 }),
        fc.integer({ min: 15, max: 55 }),
        (positions, other) => {
          const forth = judged(lane('product', ...positions), lane('startingMaterial', other));
          const back = judged(
            lane('product', ...positions.toReversed()),
            lane('startingMaterial', other),
          );
          expect(brief(back)).toEqual(brief(forth));
        },
      ),
    );
  });
});

describe('a co-spot beside samples that are not pure', () => {
  const of = (...kinds: LaneKind[]) => ({ ...lane('coSpot', 25, 35), of: kinds });
  const find = (lanes: readonly ThinLayerLane[], id: string) =>
    judged(...lanes).find((one) => one.id === id)!;

  test('the second spot is the impurity that the product shows alone, too', () => {
    const lanes = [lane('product', 25, 35), lane('authentic', 25), of('product', 'authentic')];
    expect(find(lanes, 'authentic-2').agreement).not.toBe('disagrees');
  });

  test('the second spot is what the starting material shows alone, too', () => {
    const lanes = [
      lane('product', 25),
      {
        ...lane('startingMaterial'),
        spots: [
          { position_mm: 25, seenBy: ['anisaldehyde'], intensity: 'strong' },
          { position_mm: 35, seenBy: ['anisaldehyde'], intensity: 'faint' },
        ],
      } as const satisfies ThinLayerLane,
      of('product', 'startingMaterial'),
    ];
    expect(find(lanes, 'starting-material-2').agreement).toBe('cannotTell');
  });

  test('more spots than either has: they differ', () => {
    const lanes = [lane('product', 25), lane('authentic', 26), of('product', 'authentic')];
    expect(find(lanes, 'authentic-2')).toMatchObject({ agreement: 'disagrees', weight: 'strong' });
  });
});

test('a faint spot that runs like the authentic sample is not the product', () => {
  const product: ThinLayerLane = {
    kind: 'product',
    spots: [
      { position_mm: 45, seenBy: ['anisaldehyde'], intensity: 'strong' },
      { position_mm: 25, seenBy: ['anisaldehyde'], intensity: 'faint' },
    ],
  };
  const found = judged(product, lane('authentic', 25)).find(({ id }) => id === 'authentic-2');
  expect(found?.agreement).toBe('disagrees');
});

test('an authentic sample is the product, whatever the case of its name', () => {
  const lanes = [lane('product', 25), { ...lane('authentic', 25), substance: 'Borneol' }];
  expect(judged(...lanes).find(({ id }) => id === 'authentic-2')?.substance).toBe('borneol');
});

test('one way of looking, entered twice, is one way', () => {
  const entered = plate(lane('product', 25));
  const twice: ThinLayerEntered = { ...entered, visualisations: ['uv254', 'uv254'] };
  expect(judgeThinLayer(twice, SUBJECTS).statements[0]?.weight).toBe('weak');
});
