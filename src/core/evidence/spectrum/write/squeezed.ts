const SQZ = '@ABCDEFGHI';
const SQZ_BELOW = '@abcdefghi';
const DIF = '%JKLMNOPQR';
const DIF_BELOW = '%jklmnopqr';
const DUP = ' STUVWXYZs';

function pseudo(value: number, above: string, below: string): string {
  const digits = String(Math.abs(value));
  return (value < 0 ? below : above)[Number(digits[0])]! + digits.slice(1);
}

const squeezed = (value: number): string => pseudo(value, SQZ, SQZ_BELOW);
const difference = (step: number): string => pseudo(step, DIF, DIF_BELOW);
const repeated = (times: number): string => (times < 2 ? '' : pseudo(times, DUP, DUP));

/** A line of a standard file has at most 80 characters. */
const WIDTH = 78;

interface Run {
  readonly text: string;
  readonly next: number;
}

/** A value, and how often the step that leads to it follows itself. */
function runAt(integers: Float64Array, at: number, isFirst: boolean): Run {
  const value = integers[at]!;
  if (Number.isNaN(value)) return { text: '?', next: at + 1 };
  const before = integers[at - 1];
  if (isFirst || before === undefined || Number.isNaN(before))
    return { text: squeezed(value), next: at + 1 };
  const step = value - before;
  let next = at + 1;
  while (next < integers.length && integers[next]! - integers[next - 1]! === step) next++;
  return { text: difference(step) + repeated(next - at), next };
}

/**
 * The lines of (X++(Y..Y)) in the form DIFDUP. A line that ends in a difference is checked: the next
 * begins with the same value again, and the last line may hold nothing else.
 * Source: McDonald and Wilks, Appl. Spectrosc. 1988, 42, 151, section 5.8 (from memory).
 */
export function difdupLines(
  integers: Float64Array,
  abscissaText: (index: number) => string,
): string[] {
  const lines: string[] = [];
  let at = 0;
  let hasToCheck = false;
  while (at < integers.length || hasToCheck) {
    const place = hasToCheck ? at - 1 : at;
    let line = abscissaText(place);
    if (hasToCheck) line += squeezed(integers[place]!);
    hasToCheck = false;
    let isFirst = place === at;
    while (at < integers.length) {
      const { text, next } = runAt(integers, at, isFirst);
      if (!isFirst && line.length + text.length > WIDTH) break;
      line += text;
      hasToCheck = /^[%J-Rj-r]/.test(text);
      at = next;
      isFirst = false;
    }
    lines.push(line);
  }
  return lines;
}
