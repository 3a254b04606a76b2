/** What an entry is dated with: with an offset or without, or a day alone. */
const PARTS = /^(\d{4}-\d\d-\d\d)(?:T(\d\d:\d\d))?/;
const ZONED = /(?:Z|[+-]\d\d:?\d\d)$/;

const two = (n: number) => String(n).padStart(2, '0');

/** Day and hour of an entry: where it was written down without an offset, as it was written. */
export function dayAndHour(at: string): { readonly day: string; readonly hour: string } {
  if (!ZONED.test(at)) {
    const [, day = at, hour = ''] = PARTS.exec(at) ?? [];
    return { day, hour };
  }
  const date = new Date(at);
  if (Number.isNaN(date.getTime())) return { day: at, hour: '' };
  return {
    day: `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`,
    hour: `${two(date.getHours())}:${two(date.getMinutes())}`,
  };
}

/** A table without times dates its lines from 1970: better no date than that one. */
export function isDated(at: string): boolean {
  return !at.startsWith('1970-01-01');
}

/** "2025-11-04" or "2025-11-04 and 2025-11-11", the days on which something was entered. */
export function daysOf(instants: readonly string[]): readonly string[] {
  const days = new Set(instants.filter(isDated).map((at) => dayAndHour(at).day));
  return [...days].sort();
}
