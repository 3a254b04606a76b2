import type { BenchEntry } from '../../../core/record/entry.ts';
import { evidenceFile, evidenceTitle } from '../../words/evidence-words.ts';
import type { DecimalSign } from '../typed/typed-number.ts';
import { numberText } from '../typed/typed-number.ts';

const THIN = '\u202f';

/** The number of an entry as it was written down, with its unit: "1.1200 g", "121.5–122.3 °C". */
export function figureText(entry: BenchEntry, sign: DecimalSign): string {
  const { value, high, decimals = 0, unit } = entry;
  if (value === undefined) return '';
  const text = (number: number) => numberText({ value: number, decimals }, sign);
  const range = high === undefined ? text(value) : `${text(value)}–${text(high)}`;
  return unit === undefined || unit === '' ? range : `${range}${THIN}${unit}`;
}

const KIND_WORDS: Readonly<Record<BenchEntry['kind'], string>> = {
  charge: 'taken',
  tare: 'empty',
  gross: 'with what it holds',
  net: 'net',
  time: 'time',
  temperature: 'temperature',
  observation: 'seen',
  lot: 'lot',
  meltingRange: 'melting range',
  evidence: 'evidence',
  correction: 'correction',
};

/** What an entry is about, in words: for one that fills no field of the sheet. */
export function aboutText({ kind, item, use, vessel, n, evidence }: BenchEntry): string {
  if (evidence !== undefined) return evidenceTitle(evidence);
  const what = item ?? vessel ?? use;
  const words = what === undefined ? KIND_WORDS[kind] : `${what}, ${KIND_WORDS[kind]}`;
  return n !== undefined && n > 1 ? `${words} (${n})` : words;
}

/** The text of an entry where it is part of it, and not the reason of a correction. */
export function remarkOf({ kind, text, corrects, evidence }: BenchEntry): string | undefined {
  if (evidence !== undefined) return evidenceFile(evidence);
  const own = kind === 'observation' || kind === 'lot' || kind === 'time';
  return own || corrects === undefined ? text : undefined;
}
