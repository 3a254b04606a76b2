import { rfText } from '../../../../core/evidence/thin-layer/plate.ts';
import { placeSpots } from '../../../../core/evidence/thin-layer/retention.ts';
import type { ThinLayerMeasure } from '../../../../core/evidence/thin-layer/schema.ts';
import { inSign } from '../../../bench/typed/typed-number.ts';
import type { DecimalSign } from '../../../bench/typed/typed-number.ts';
import { readDraft } from '../draft.ts';
import type { Draft, DraftReader } from '../draft.ts';
import { positive, readChoice } from '../read.ts';
import { pointIn } from './points.ts';
import type { Point } from './points.ts';

export const WAYS_TO_MEASURE = ['ruler', 'photograph'] as const;

/** A ruler that is laid along a plate. */
export const RULER_mm = [-500, 500] as const;
/** Nearer than this, two points give no line. */
const APART_px = 20;

function readPoint(reader: DraftReader, field: string): Point | undefined {
  return pointIn(reader.text(field));
}

function readOnPhotograph(reader: DraftReader): ThinLayerMeasure {
  const [a, b] = [readPoint(reader, 'startA'), readPoint(reader, 'startB')];
  const [front, second] = [readPoint(reader, 'frontA'), readPoint(reader, 'frontB')];
  if (a === undefined || b === undefined)
    reader.say('points', 'Set both ends of the start line on the picture.');
  else if (Math.hypot(a[0] - b[0], a[1] - b[1]) < APART_px)
    reader.say('points', 'Set the two ends of the start line further apart.');
  if (front === undefined) reader.say('points', 'Set the solvent front on the picture.');
  const run_mm = positive(reader, 'run_mm', 500);
  const none: Point = [0, 0];
  return {
    by: 'photograph',
    start: [a ?? none, b ?? none],
    front: second === undefined ? [front ?? none] : [front ?? none, second],
    ...(run_mm !== undefined && { run_mm }),
  };
}

/** Where the start line and the front are. */
export function readMeasure(reader: DraftReader): ThinLayerMeasure {
  if (readChoice(reader, 'by', WAYS_TO_MEASURE) === 'photograph') return readOnPhotograph(reader);
  const start_mm = reader.need('start_mm', ...RULER_mm);
  const front_mm = reader.need('front_mm', ...RULER_mm);
  if (!(front_mm - start_mm >= 1))
    reader.say('front_mm', 'The front lies above the start line: read both from the lower edge.');
  return { by: 'ruler', start_mm, front_mm };
}

/** The same while it is typed; undefined until it is whole. */
export function measureIn(draft: Draft, sign: DecimalSign): ThinLayerMeasure | undefined {
  const reader = readDraft(draft, sign);
  const measure = readMeasure(reader);
  return Object.keys(reader.problems).length === 0 ? measure : undefined;
}

const ODD: Readonly<Record<string, string>> = {
  'tlc-spot-above-front': 'Above the front: look again.',
  'tlc-spot-below-start': 'Below the start line: look again.',
  'tlc-no-run': 'The front is not above the start line.',
};

/** "Rf 0.42 ± 0.02" of a spot as it stands in its row; empty until it can be told. */
export function rfIn(
  spot: Draft,
  measure: ThinLayerMeasure | undefined,
  front_mm: number | undefined,
  sign: DecimalSign,
): string {
  const position_mm = readDraft(spot, sign).number('position_mm', ...RULER_mm);
  const point = pointIn(spot['point']);
  const has = measure?.by === 'ruler' ? position_mm !== undefined : point !== undefined;
  if (measure === undefined || !has) return '';
  const { spots, diagnostics } = placeSpots({
    technique: 'thinLayer',
    stationaryPhase: 'silica',
    eluent: '',
    measure,
    visualisations: [],
    lanes: [
      {
        kind: 'other',
        ...(front_mm !== undefined && measure.by === 'ruler' && { front_mm }),
        spots: [
          {
            seenBy: [],
            ...(position_mm !== undefined && { position_mm }),
            ...(point !== undefined && { point }),
            ...(spot['tailing'] === true && { tailing: true }),
          },
        ],
      },
    ],
  });
  const [placed] = spots;
  if (placed !== undefined) return inSign(rfText(placed), sign);
  return ODD[diagnostics[0]?.code ?? ''] ?? '';
}
