import type { IrBand } from '../judge/bands.ts';
import { irBands, vibrationKind } from '../judge/bands.ts';
import type { Bond, BondWords } from './bond-words.ts';
import { BOND_WORDS, RING_VIBRATIONS } from './bond-words.ts';
import type { ClassWords } from './class-words.ts';
import { CLASS_WORDS, RING_PATTERNS } from './class-words.ts';
import type { Foreign } from './other-words.ts';
import { ABSENCE, BENDING, FOREIGN_WORDS, STRETCHING } from './other-words.ts';

/** What the words of a claim mean. */
export interface GroupRead {
  readonly kind: 'read';
  /** "No C=O": the claim says that there is none. */
  readonly said: 'present' | 'absent';
  readonly bonds: readonly Bond[];
  /** "ketone", "monosubstituted ring". */
  readonly classes: readonly string[];
  /** Rows of data/ir-bands.csv that may be meant. */
  readonly bandIds: ReadonlySet<string>;
  /** The rows of the bond, whatever class of compound was named. */
  readonly bondBandIds: ReadonlySet<string>;
  /** Taken for something that is no band of the substance itself. */
  readonly foreign?: Foreign;
}

export interface GroupNotRead {
  readonly kind: 'unread';
  readonly where: string;
  readonly what: string;
  readonly whatToDo: string;
}

export type GroupReading = GroupRead | GroupNotRead;

/** Lower case, one kind of dash, "#" for "≡", Greek signs of vibrations spelled out. */
export function plainText(text: string): string {
  return text
    .normalize('NFKC')
    .toLowerCase()
    .replaceAll(/[\u2010-\u2015\u2212\u00ad\ufe58\ufe63\uff0d]/g, '-')
    .replaceAll(/[≡\u2261]/g, '#')
    .replaceAll(/[ʋυν𝜈]/gu, ' nu ')
    .replaceAll(/[δ𝛿γρωτ]/gu, ' delta ')
    .replaceAll(/\s+/g, ' ')
    .trim();
}

/** Words one after the other; what one has taken is blanked for the next. */
function taken<Words extends { readonly words: RegExp }>(
  text: string,
  words: readonly Words[],
): Words[] {
  let rest = text;
  return words.filter((one) => {
    const left = rest.replaceAll(one.words, ' ; ');
    const found = left !== rest;
    rest = left;
    return found;
  });
}

/**
 * Reads trade words for a band: bonds ("C=O", "O–H str."), classes ("ketone", "aromatic"), what is
 * foreign to the substance ("water", "CO₂"). Several bonds add up; a class narrows them to its own
 * rows, where it has such a bond. `unread`: no word of them is known.
 */
export function readGroup(words: string): GroupReading {
  const text = plainText(words);
  const foreign = FOREIGN_WORDS.find(([, pattern]) => pattern.test(text))?.[0];
  const bonds = taken(text, BOND_WORDS);
  const classes = narrowest(taken(text, CLASS_WORDS));
  if (bonds.length === 0 && classes.length === 0 && foreign === undefined)
    return {
      kind: 'unread',
      where: words,
      what: `It is not clear which group “${words}” means.`,
      whatToDo: 'Write the bond, such as C=O, O–H, C–H (sp³) or C≡N, and the class if you like.',
    };
  const said = ABSENCE.test(text) ? 'absent' : 'present';
  const mode = modeOf(text);
  const ofBond = irBands().filter((band) => bonds.some((bond) => means(bond, band, mode, classes)));
  const ofClass = (band: IrBand): boolean =>
    classes.some(({ patterns }) => patterns.test(band.pattern));
  const both =
    bonds.length === 0
      ? irBands().filter(ofClass)
      : classes.length === 0
        ? ofBond
        : ofBond.filter(ofClass);
  const narrowed = both.length > 0 ? both : ofBond;
  return {
    kind: 'read',
    said,
    bonds: bonds.map(({ bond }) => bond),
    classes: classes.map(({ name }) => name),
    bandIds: new Set(narrowed.map(({ id }) => id)),
    bondBandIds: new Set((bonds.length === 0 ? narrowed : ofBond).map(({ id }) => id)),
    ...(foreign === undefined ? {} : { foreign }),
  };
}

/** How a ring is substituted says more than that there is one. */
function narrowest(classes: readonly ClassWords[]): ClassWords[] {
  const substituted = classes.some(({ name }) => name.endsWith('substituted ring'));
  const ofAlkene = classes.some(({ name }) => name.endsWith(' alkene'));
  return classes.filter(
    ({ name }) => !(substituted && name === 'aromatic ring') && !(ofAlkene && name === 'alkene'),
  );
}

type Mode = 'stretch' | 'bend' | 'either';

function modeOf(text: string): Mode {
  const bends = BENDING.test(text);
  const stretches = STRETCHING.test(text);
  return bends === stretches ? 'either' : bends ? 'bend' : 'stretch';
}

function means(
  { bond, stretch, bend, patterns }: BondWords,
  band: IrBand,
  mode: Mode,
  classes: readonly ClassWords[],
): boolean {
  const vibration = vibrationKind(band);
  // A ring's own C–C is one and a half bonds: textbooks write C–C, C=C and "ring"
  const aromatic = classes.some(({ patterns: ring }) => ring === RING_PATTERNS);
  if (bond === 'c-c' && aromatic && RING_VIBRATIONS.includes(vibration)) return true;
  // A bond without bends of its own is what it is, however its motion is called
  const inMode =
    mode === 'either' || bend.length === 0
      ? [...stretch, ...bend]
      : mode === 'bend'
        ? bend
        : stretch;
  return inMode.includes(vibration) && (patterns === undefined || patterns.test(band.pattern));
}
