import type { TraceTechnique, XUnit, YUnit } from '../trace.ts';

/** How files and column headers name what they hold, tried in order. Words of the trade in several tongues. */
const X_WORDS: readonly (readonly [pattern: RegExp, unit: XUnit])[] = [
  [/cm\s*(?:\^|\*\*)?\s*\(?\s*[-−–⁻]\s*[1¹]|\b1\s*\/\s*cm\b|\breciprocal cent|\bkayser/i, '1/cm'],
  [
    /wave\s*number|wellenzahl|nombres? d.onde|n[uú]meros? d[e']\s*onda|golfgetal|raman shift/i,
    '1/cm',
  ],
  [/micro\s*met(?:er|re)s?|\bmicrons?\b|(?<![a-z])[uµμ]m\b/i, 'um'],
  [/nano\s*met(?:er|re)s?|\bnm\b/i, 'nm'],
  [/\bppm\b|chemical shift|parts per million/i, 'ppm'],
  [/\bhz\b|\bhertz\b/i, 'Hz'],
  [/\bm\s*\/\s*[ze]\b|\bmass[\s-]+(?:to[\s-]+)?charge|\bmz\b|\bmass units?\b|\bamu\b/i, 'm/z'],
  [/milli\s*seconds?|micro\s*seconds?|\bm?s\s*\/\s*div/i, 'unknown'],
  [/\bminutes\b|[[(]\s*min\.?\s*[\])]|^\s*min\.?\s*$|\btime\b.{0,20}\bmin\b/i, 'min'],
  [/\bseconds\b|[[(]\s*s(?:ec)?\.?\s*[\])]|^\s*s(?:ec)?\s*$/i, 's'],
];

const Y_WORDS: readonly (readonly [pattern: RegExp, unit: YUnit])[] = [
  [/kubelka|log\s*\(?\s*1\s*\/\s*r|reflect|^\s*%\s*r\s*$|\bremission/i, 'reflectance'],
  [/imaginary refractive|absorption index|extinction coefficient|^\s*k\s*$/i, 'absorptionIndex'],
  [/refractive index|dispersion index|^\s*n\s*$/i, 'refractiveIndex'],
  [/transm|durchl[aä]ss|%\s*t\b|^\s*t\s*[%(]|^\s*t\s*$/i, 'transmittance'],
  [/absorb|absorptance|extinktion|extinction|\babs\b|^\s*a\.?u?\.?\s*$|\bod\b/i, 'absorbance'],
  [
    /arbitrary|abundance|intensit|counts?\b|signal|respon[sc]e|\bm?v(?:olts?)?\b|\bmau\b|single\s*beam|emiss/i,
    'arbitrary',
  ],
  [/micromol\s*\/\s*mol/i, 'arbitrary'],
];

const TECHNIQUES: readonly (readonly [pattern: RegExp, technique: TraceTechnique])[] = [
  [/raman/i, 'raman'],
  [/infra\s*red|\bft-?ir\b|\bn?ir\b|\batr\b/i, 'infrared'],
  [/\bnmr\b|nuclear magnetic/i, 'nmr'],
  [/chromato|\bgc\b|\bhplc\b/i, 'chromatogram'],
  [/mass spec|\bms\b/i, 'mass'],
  [/ultra\s*violet|\buv\b|uv[-/ ]?vis/i, 'ultraviolet'],
];

function firstOf<T>(words: readonly (readonly [RegExp, T])[], written: string): T | undefined {
  const clipped = written.slice(0, 200);
  return words.find(([pattern]) => pattern.test(clipped))?.[1];
}

export const xUnitOf = (written: string): XUnit | undefined => firstOf(X_WORDS, written);
export const yUnitOf = (written: string): YUnit | undefined => firstOf(Y_WORDS, written);

/** Whether the words say percent, a fraction, or neither. */
export function percentOf(written: string): boolean | undefined {
  if (/%|percent|prozent|pour ?cent/i.test(written.slice(0, 200))) return true;
  return /fraction/i.test(written.slice(0, 200)) ? false : undefined;
}

export const techniqueNamed = (written: string): TraceTechnique | undefined =>
  firstOf(TECHNIQUES, written);

/** From the units alone, where nothing names the technique: only what they leave no doubt of. */
export function techniqueOf(x: XUnit, y: YUnit): TraceTechnique {
  if (x === 'ppm') return 'nmr';
  if (x === 'm/z') return 'mass';
  const isOptical = y === 'absorbance' || y === 'transmittance' || y === 'absorptionIndex';
  if ((x === '1/cm' || x === 'um') && isOptical) return 'infrared';
  if (x === 'nm' && isOptical) return 'ultraviolet';
  return 'unknown';
}
