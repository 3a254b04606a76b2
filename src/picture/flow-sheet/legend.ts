import type { Basis } from '../../core/ledger/posting.ts';
import { textWidth, wrapText } from '../text/measure.ts';
import { BASIS_STYLE, withMark } from './items.ts';
import type { Words } from './items.ts';
import type { PlacedRow } from './row.ts';
import type { Sheet } from './sheet.ts';
import type { DrawnPhase } from './theme.ts';

export type Sample =
  | { readonly kind: 'phase'; readonly phase: DrawnPhase }
  | { readonly kind: 'arrow'; readonly basis: Basis; readonly gas: boolean }
  | { readonly kind: 'outline' }
  | { readonly kind: 'life' };

export interface PlacedSample {
  readonly sample: Sample;
  readonly x: number;
  /** Of its middle. */
  readonly y: number;
}

export interface Legend {
  readonly words: readonly Words[];
  readonly samples: readonly PlacedSample[];
  readonly bottom: number;
}

const LINE = 26;
const SAMPLE_px = 30;
const GAP = 22;
const NUMBER_GAP = 7;

interface Entry {
  readonly sample: Sample;
  readonly text: string;
  /** A number in the way of its basis, before the text. */
  readonly number?: { readonly text: string; readonly basis: Basis };
}

const PHASE_WORDS: Readonly<Record<DrawnPhase, string>> = {
  organic: 'organic layer',
  aqueous: 'aqueous layer',
  solid: 'solid',
};

/** Only what the sheet shows is explained. */
function entriesOf(rows: readonly PlacedRow[], { glasses }: Sheet, lives: boolean): Entry[] {
  const phases = new Set(
    rows.flatMap((row) => row.standings.flatMap(({ state }) => state.phases.map((p) => p.phase))),
  );
  const lines = rows.flatMap((row) => row.lines);
  const bases = new Set<Basis>([
    ...lines.map(({ basis }) => basis),
    ...rows.flatMap((row) => row.weighings.map(({ basis }) => basis)),
    ...(rows.some((row) => row.standings.length > 0) ? (['assumed'] as const) : []),
  ]);
  const number = (basis: Basis, words: string): Entry[] =>
    bases.has(basis)
      ? [
          {
            sample: { kind: 'arrow', basis, gas: false },
            number: { text: withMark('1.12\u202fg', basis), basis },
            text: words,
          },
        ]
      : [];
  const drawn = (['organic', 'aqueous', 'solid'] as const).filter((phase) => phases.has(phase));
  return [
    ...drawn.map((phase): Entry => ({
      sample: { kind: 'phase', phase },
      text: PHASE_WORDS[phase],
    })),
    ...(lines.some(({ gas }) => gas)
      ? [{ sample: { kind: 'arrow', basis: 'planned', gas: true } as const, text: 'gas or vapour' }]
      : []),
    ...number('planned', 'planned'),
    ...number('measured', 'measured'),
    ...number('assumed', 'computed from assumptions'),
    ...(lives ? [{ sample: { kind: 'life' } as const, text: 'holds something' }] : []),
    ...([...glasses.values()].some(({ toScale }) => !toScale)
      ? [{ sample: { kind: 'outline' } as const, text: 'size not given: not to scale' }]
      : []),
  ];
}

const CAPTION =
  'Vessels are drawn at one scale, as they stand after the step; every layer is as high as its volume stands in that glass. Times are hours and minutes from the start.';

/** `size` of its words; `lives`: whether the sheet shows bars of vessels' lives. */
export interface LegendStyle {
  readonly size: number;
  readonly lives: boolean;
}

export function placeLegend(
  rows: readonly PlacedRow[],
  sheet: Sheet,
  top: number,
  { size, lives }: LegendStyle,
): Legend {
  const { margin, right } = sheet.edges;
  const words: Words[] = [];
  const samples: PlacedSample[] = [];
  if (rows.length === 0) return { words, samples, bottom: top - 26 };
  let x = margin;
  let y = top;
  for (const { sample, text, number } of entriesOf(rows, sheet, lives)) {
    const style = number === undefined ? {} : BASIS_STYLE[number.basis];
    const first =
      number === undefined ? 0 : textWidth(number.text, { size, ...style }) + NUMBER_GAP;
    const width = SAMPLE_px + 8 + first + textWidth(text, { size });
    if (x > margin && x + width > right) {
      x = margin;
      y += LINE;
    }
    samples.push({ sample, x, y: y - 4 });
    const base = { y, anchor: 'start' as const, size };
    const textX = x + SAMPLE_px + 8;
    const tail = { text, size, gap: NUMBER_GAP, ink: 'quiet' as const };
    words.push(
      number === undefined
        ? { ...base, x: textX, text, ink: 'quiet' }
        : { ...base, ...style, x: textX, text: number.text, ink: 'ink', tails: [tail] },
    );
    x += width + GAP;
  }
  y += LINE;
  const caption = { x: margin, anchor: 'start' as const, size, ink: 'quiet' as const };
  for (const text of wrapText(CAPTION, right - margin, { size })) {
    words.push({ ...caption, y, text });
    y += size + 4;
  }
  return { words, samples, bottom: y - 12 };
}
