import { createContext, useContext } from 'react';
import type { EvidenceEntered } from '../../../core/evidence/schema.ts';
import { numberOf } from '../../bench/typed/typed-number.ts';
import type { DecimalSign } from '../../bench/typed/typed-number.ts';

/** A form as typed: text by the name of its field; a field of rows holds a list of such texts. */
export interface Draft {
  readonly [field: string]: string | boolean | File | readonly Draft[] | undefined;
}

/** What is wrong with a field, by its name: "low_C", "peaks.2.area". */
export type Problems = Readonly<Record<string, string>>;

/** What a form is worth: an entry, or what still has to be mended. */
export type Built =
  | {
      readonly ok: true;
      readonly entered: EvidenceEntered;
      /** A picture or file to be kept with the entry. */
      readonly attach?: File;
    }
  | { readonly ok: false; readonly problems: Problems };

export interface FormState {
  readonly draft: Draft;
  readonly set: (field: string, value: Draft[string]) => void;
  readonly sign: DecimalSign;
  readonly problems: Problems;
}

export const FormContext = createContext<FormState | undefined>(undefined);

export function useForm(): FormState {
  const form = useContext(FormContext);
  if (form === undefined) throw new Error('A field stands outside its form.');
  return form;
}

/** Takes fields out of a draft and gathers what is wrong with them on the way. */
export interface DraftReader {
  /** The trimmed text; undefined where there is none. */
  readonly text: (field: string, longest?: number) => string | undefined;
  /** A number; undefined where there is none, and a problem where it is none, or out of bounds. */
  readonly number: (field: string, low?: number, high?: number) => number | undefined;
  /** A number that has to be there. */
  readonly need: (field: string, low?: number, high?: number) => number;
  readonly flag: (field: string) => boolean | undefined;
  /** A picture or file that was chosen on the page. */
  readonly file: (field: string) => File | undefined;
  readonly rows: (field: string) => readonly DraftReader[];
  readonly say: (field: string, problem: string) => void;
  readonly problems: Problems;
  /** The decimal sign that numbers are typed with. */
  readonly sign: DecimalSign;
}

export function readDraft(draft: Draft, sign: DecimalSign): DraftReader {
  return readerOf(draft, sign, '', {});
}

function readerOf(
  draft: Draft,
  sign: DecimalSign,
  path: string,
  problems: Record<string, string>,
): DraftReader {
  const say = (field: string, problem: string): void => {
    problems[`${path}${field}`] ??= problem;
  };
  const text = (field: string, longest = 200): string | undefined => {
    const value = draft[field];
    const written = typeof value === 'string' ? value.trim() : '';
    if (written.length > longest) say(field, `At most ${longest} characters.`);
    return written === '' ? undefined : written.slice(0, longest);
  };
  const number = (field: string, low = -Infinity, high = Infinity): number | undefined => {
    const written = text(field, 40);
    if (written === undefined) return undefined;
    const value = numberOf(digitsOf(written, sign), sign)?.value;
    if (value === undefined) say(field, 'A number is expected here.');
    else if (value < low || value > high) say(field, boundsOf(low, high, sign));
    return value;
  };
  return {
    text,
    number,
    need: (field, low, high) => {
      const value = number(field, low, high);
      if (value === undefined) say(field, 'This is needed.');
      return value ?? 0;
    },
    flag: (field) => (draft[field] === true ? true : undefined),
    file: (field) => {
      const held = draft[field];
      return held instanceof File ? held : undefined;
    },
    rows: (field) => {
      const rows = draft[field];
      if (!Array.isArray(rows)) return [];
      return (rows as readonly Draft[]).map((row, i) =>
        readerOf(row, sign, `${path}${field}.${i}.`, problems),
      );
    },
    say,
    problems,
    sign,
  };
}

/** As `numberOf` takes it: "+12.4" and ".5" are ways of writing a number too. */
function digitsOf(written: string, sign: DecimalSign): string {
  // One separator is the decimal sign, whichever it is: fields of measurements hold no thousands
  const signed = written.replace('\u2212', '-').replace(/^\+/, '').replace(/[.,]/, sign);
  return signed.replace(/^(-?)(?=[.,])/, (minus) => `${minus}0`);
}

function boundsOf(low: number, high: number, sign: DecimalSign): string {
  const [least, most] = [low, high].map((value) =>
    String(value).replace('-', '\u2212').replace('.', sign),
  );
  if (high === Infinity) return `At least ${least}.`;
  return low === -Infinity ? `At most ${most}.` : `Between ${least} and ${most}.`;
}

/** An entry while it is put together: what may be left out may also be undefined. */
export type Open<T> = T extends readonly (infer Item)[]
  ? readonly Open<Item>[]
  : T extends object
    ? { readonly [K in keyof T]: Open<T[K]> | (object extends Pick<T, K> ? undefined : never) }
    : T;

/** The entry, unless something is wrong. Fields that are undefined are left out of it. */
export function built(reader: DraftReader, entered: object): Built {
  if (Object.keys(reader.problems).length > 0) return { ok: false, problems: reader.problems };
  return { ok: true, entered: without(entered) as EvidenceEntered };
}

/** Without what is undefined, at every depth: the entry's schema knows no such thing. */
function without(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(without);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([, field]) => field !== undefined)
      .map(([name, field]) => [name, without(field)]),
  );
}
