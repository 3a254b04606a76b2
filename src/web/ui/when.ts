const two = (n: number) => String(n).padStart(2, '0');

const dayOf = (date: Date) =>
  `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;

/** "today 12:03", "yesterday 09:40", "2026-11-02 16:15": the hour where the reader is. */
export function whenText(instant: string, now = new Date()): string {
  const date = new Date(instant);
  const hour = `${two(date.getHours())}:${two(date.getMinutes())}`;
  const day = dayOf(date);
  if (day === dayOf(now)) return `today ${hour}`;
  const before = new Date(now);
  before.setDate(before.getDate() - 1);
  return day === dayOf(before) ? `yesterday ${hour}` : `${day} ${hour}`;
}
