import type { SampleState } from '../infrared.ts';
import type { MeasuredTrace } from '../trace.ts';

/**
 * Words of the trade for each state, the more telling first: "KBr plates" hold a film and "split
 * mull" is a mull whatever else is said; "solid" alone says nothing of how it was put in the beam.
 */
const WORDS: readonly (readonly [SampleState, RegExp])[] = [
  [
    'mull',
    /\bmulls?\b|\bnujol\b|\bfluorolube\b|\bhalocarbon oil\b|\b(?:paraffin|mineral) oil\b|hexachlorobutadiene/,
  ],
  ['atr', /\bf?atr\b|attenuated total|internal reflection/],
  ['film', /\b(?:kbr|nacl|csi|agcl|salt|caf2|baf2)\s+(?:plates?|windows?|crystals?|flats?)\b/],
  ['disc', /\bdis[ck]s?\b|\bpellets?\b|\bwafers?\b|\bpressed\b|\bkbr\b|\bkcl\b/],
  ['gas', /\bgas(?:eous)?\b|\bvapou?rs?\b|\bgas[- ]phase\b/],
  [
    'solution',
    /\bsolutions?\b|\bsoln\b|\bdissolved\b|\bccl4\b|\bcs2\b|\bchcl3\b|carbon (?:tetrachloride|disulfide)/,
  ],
  ['film', /\bneat\b|\bfilms?\b|\bcapillary\b|\bliquid\b|\bmelt(?:ed)?\b|\bsmear\b|\bcast\b/],
];

/** A title may be any name at all: only words that no substance is called by count in it. */
const IN_TITLES: ReadonlySet<SampleState> = new Set(['mull', 'atr', 'disc']);

const HEADERS = ['STATE', 'SAMPLINGPROCEDURE', 'SAMPLEDESCRIPTION', 'CONCENTRATIONS'] as const;

/** The state that a text tells of, or undefined where it tells of none. */
export function stateIn(text: string): SampleState | undefined {
  const words = text.toLowerCase();
  return WORDS.find(([, pattern]) => pattern.test(words))?.[0];
}

/** How the sample was put into the beam, as far as the file says. */
export function stateOf(trace: MeasuredTrace): SampleState | undefined {
  for (const text of [trace.state, ...HEADERS.map((label) => trace.headers[label])]) {
    const state = stateIn(text ?? '');
    if (state !== undefined) return state;
  }
  const named = stateIn(trace.title);
  return named !== undefined && IN_TITLES.has(named) ? named : undefined;
}
