import type { LaneKind } from '../../../../core/evidence/thin-layer/schema.ts';
import type { Subjects } from '../../../../core/evidence/subject.ts';
import type { Option } from '../fields.tsx';

/** What may stand on a start line, by what the choice holds. */
export interface LaneChoice {
  readonly value: string;
  readonly words: string;
  readonly group: string;
  readonly lane: {
    readonly kind: LaneKind;
    readonly substance?: string;
    readonly of?: readonly LaneKind[];
  };
  /** Its name is asked for. */
  readonly isNamed?: true;
}

const ONE = 'One sample';
const TWO = 'Two on one place';

/** The samples of the experiment, and pairs of them on one place; the product first. */
export function laneChoices({ product, others }: Subjects): readonly LaneChoice[] {
  const own = product?.substance.name;
  const called = own ?? 'the product';
  const named = own === undefined ? {} : { substance: own };
  const namesOf = (fits: (role: string) => boolean) => [
    ...new Set(others.filter(({ role }) => fits(role)).map(({ substance }) => substance.name)),
  ];
  const starting = namesOf((role) => role === 'startingMaterial');
  const further = namesOf((role) => role === 'reagent' || role === 'byProduct');
  const startingLane = (name: string | undefined): LaneChoice => ({
    value: name === undefined ? 'startingMaterial' : `startingMaterial:${name}`,
    words: name === undefined ? 'the starting material' : `${name} (starting material)`,
    group: ONE,
    lane: { kind: 'startingMaterial', ...(name !== undefined && { substance: name }) },
  });
  const together = (name: string | undefined): LaneChoice => ({
    value: name === undefined ? 'both' : `both:${name}`,
    words: `${called} and ${name ?? 'the starting material'}`,
    group: TWO,
    lane: {
      kind: 'coSpot',
      of: ['product', 'startingMaterial'],
      ...(name !== undefined && { substance: name }),
    },
  });
  const lefts = starting.length > 0 ? starting : [undefined];
  return [
    {
      value: 'product',
      words: own === undefined ? called : `${own} (product)`,
      group: ONE,
      lane: { kind: 'product' },
    },
    ...lefts.map(startingLane),
    {
      value: 'authentic',
      words: `${called}, known sample`,
      group: ONE,
      lane: { kind: 'authentic', ...named },
    },
    ...further.map((name): LaneChoice => ({
      value: `other:${name}`,
      words: name,
      group: ONE,
      lane: { kind: 'other', substance: name },
    })),
    { value: 'other', words: 'something else', group: ONE, lane: { kind: 'other' }, isNamed: true },
    ...lefts.map(together),
    {
      value: 'bothKnown',
      words: `${called} and its known sample`,
      group: TWO,
      lane: { kind: 'coSpot', of: ['product', 'authentic'], ...named },
    },
  ];
}

/** The one that a lane of the draft is; the first stands until another is chosen. */
export function chosenLane(choices: readonly LaneChoice[], value: unknown): LaneChoice {
  return choices.find((choice) => choice.value === value) ?? choices[0]!;
}

export const optionsOf = (choices: readonly LaneChoice[]): readonly Option[] =>
  choices.map(({ value, words, group }) => [value, words, group]);
