import * as z from 'zod';

/** `unclear`: something happened, but not what either answer looks like. */
export const TEST_RESULTS = ['positive', 'negative', 'unclear'] as const;

export type TestResult = (typeof TEST_RESULTS)[number];

const testSchema = z
  .strictObject({
    /** By id or name of data/chemical_tests.csv. */
    test: z.string().min(1).max(100),
    result: z.enum(TEST_RESULTS),
    /** What was seen, in the person's words. */
    observed: z.string().max(1000).exactOptional(),
    /** What it was done on: "product", "third washing". */
    sample: z.string().max(200).exactOptional(),
    /** The reagent alone. */
    blank: z.enum(TEST_RESULTS).exactOptional(),
    /** A substance that must answer. */
    knownPositive: z.enum(TEST_RESULTS).exactOptional(),
  })
  .readonly();

/** Chemical tests as entered, in the order in which they were done. */
export const chemicalTestEnteredSchema = z
  .strictObject({
    technique: z.literal('chemicalTest'),
    tests: z.array(testSchema).min(1).max(40).readonly(),
    note: z.string().max(2000).exactOptional(),
  })
  .readonly();

export type ChemicalTestEntered = z.infer<typeof chemicalTestEnteredSchema>;
export type TestEntered = ChemicalTestEntered['tests'][number];
