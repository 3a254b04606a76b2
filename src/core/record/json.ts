import type { BenchEntry } from './entry.ts';
import { collect, tooLarge } from './intake.ts';
import type { Intake } from './intake.ts';

/** A bench record from JSON: a list of entries, or an object whose `entries` is that list. */
export function readJsonRecord(text: string): Intake {
  const refusal = tooLarge(text);
  if (refusal !== undefined) return refusal;
  let value: unknown;
  try {
    value = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    return refused(`The record is no JSON: ${error instanceof Error ? error.message : ''}`, text);
  }
  const list = listIn(value);
  if (list === undefined) return refused('The record holds no list of entries.', text);
  return collect(
    list.map((fields) => ({ text: JSON.stringify(fields), read: () => ({ fields }) })),
  );
}

function listIn(value: unknown): readonly unknown[] | undefined {
  if (Array.isArray(value)) return value;
  const held = typeof value === 'object' && value !== null && 'entries' in value && value.entries;
  return Array.isArray(held) ? held : undefined;
}

function refused(message: string, text: string): Intake {
  return {
    entries: [],
    diagnostics: [
      {
        code: 'record-unreadable',
        severity: 'error',
        message,
        hint: 'A record is a list of entries: [{"id": ..., "at": ..., "kind": "charge", ...}]',
        text: text.slice(0, 10_000),
      },
    ],
  };
}

export function printJsonRecord(entries: readonly BenchEntry[]): string {
  return `${JSON.stringify(entries, null, 1)}\n`;
}
