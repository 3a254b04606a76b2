import * as z from 'zod';
import type { BenchSheet } from '../core/report/bench/field.ts';
import { benchSheet } from '../core/report/bench/sheet.ts';
import { leastRecent } from './least-recent.ts';
import { planOf } from './plan.ts';

const stepSchema = z.looseObject({
  id: z.string(),
  item: z.string(),
  section: z.string().nullable(),
  sentence: z.string(),
  cautions: z.array(z.string()),
  fields: z.array(z.looseObject({ key: z.string(), kind: z.string(), label: z.string() })),
});

/** Its outline. The report itself is described where it is made, in the core. */
export const sheetSchema = z.looseObject({
  title: z.string(),
  course: z.string().nullable(),
  answer: z.string(),
  product: z.string().nullable(),
  steps: z.array(stepSchema),
}) as unknown as z.ZodType<BenchSheet>;

/** A class works from a few documents, and every bench of it asks for the same sheet. */
const MOST_SHEETS = 50;
const MOST_CHARACTERS = 20_000_000;

/** The sheets of documents, by their hash; each is worked out once. */
export function sheetReader(): (document: string, text: string) => BenchSheet {
  const memory = leastRecent<BenchSheet>(MOST_SHEETS, MOST_CHARACTERS);
  return (document, text) => {
    const before = memory.get(document);
    if (before !== undefined) return before;
    const { experiment, plan } = planOf(text);
    const sheet = benchSheet(experiment, plan);
    // A sheet is about as long as the text that it is made from, a few times over.
    memory.set(document, sheet, text.length);
    return sheet;
  };
}
