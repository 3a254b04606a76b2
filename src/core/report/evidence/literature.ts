import type { Substance } from '../../chemistry/substance.ts';
import type { Literature } from '../../evidence/subject.ts';

type Mutable = { -readonly [Key in keyof Literature]: Literature[Key] };

const NUMBER = '[-+\u2212]?\\d+(?:[.,]\\d+)?';
const RANGE = new RegExp(
  `(${NUMBER})\\s*(?:°?\\s*C\\s*)?(?:(?:[-\u2013\u2212]|to)\\s*(${NUMBER}))?`,
);
/** "n20D", "[α]D20", "d20/4": what a value is called holds numbers too. */
const LABEL =
  /^\s*(?:(?:\[\s*[αa]\s*\]|[nd])[\s_^]*(?:\d+\s*[/,]?\s*D?|D\s*\d*|\d*\s*\/\s*\d+)?(?:\/\d+)?)\s*[:=]?\s+/i;
const AT = new RegExp(`(?:at|@|\\()\\s*(${NUMBER})\\s*°?\\s*C`, 'i');

const numberOf = (text: string): number =>
  Number(text.replace('\u2212', '-').replace('+', '').replace(',', '.'));

/** "at 25 °C", "(25 °C)" */
function temperatureIn(text: string): number | undefined {
  const found = AT.exec(text)?.[1];
  return found === undefined ? undefined : numberOf(found);
}

function firstNumber(text: string): number | undefined {
  const found = RANGE.exec(text.replace(LABEL, ''))?.[1];
  return found === undefined ? undefined : numberOf(found);
}

const MMHG_kPa = 0.133322387415;

const PRESSURE = new RegExp(`(${NUMBER})\\s*(kPa|mbar|hPa|mm\\s?Hg|torr|atm)`, 'i');

function pressureIn(text: string): number | undefined {
  const found = PRESSURE.exec(text);
  if (found === null) return undefined;
  const unit = found[2]!.toLowerCase().replace(/\s/g, '');
  const factor: Readonly<Record<string, number>> = {
    kpa: 1,
    mbar: 0.1,
    hpa: 0.1,
    mmhg: MMHG_kPa,
    torr: MMHG_kPa,
    atm: 101.325,
  };
  return numberOf(found[1]!) * factor[unit]!;
}

interface Reader {
  /** What the line of the Product section is called. */
  readonly called: RegExp;
  readonly read: (value: string, into: Mutable) => void;
}

const READERS: Readonly<Record<string, Reader>> = {
  meltingRange_C: {
    called: /^(?:melting (?:range|point)|m\.?p\.?)$/i,
    read: (value, into) => {
      const found = RANGE.exec(value);
      if (found === null) return;
      const low = numberOf(found[1]!);
      into.meltingRange_C = [low, found[2] === undefined ? low : numberOf(found[2])];
    },
  },
  boilingPoint_C: {
    called: /^(?:boiling (?:range|point)|b\.?p\.?)$/i,
    read: (value, into) => {
      // "20 mmHg: 85 °C": the pressure may stand first
      const found = RANGE.exec(value.replace(PRESSURE, ''));
      if (found === null) return;
      const low = numberOf(found[1]!);
      into.boilingPoint_C = found[2] === undefined ? low : (low + numberOf(found[2])) / 2;
      const pressure = pressureIn(value);
      if (pressure !== undefined) into.boilingPressure_kPa = pressure;
    },
  },
  refractiveIndex: {
    called: /^(?:refractive index|n ?20 ?d|n ?d)$/i,
    read: (value, into) => {
      const n = firstNumber(value);
      if (n === undefined || !(n >= 1.2 && n <= 1.9)) return;
      into.refractiveIndex = n;
      into.refractiveIndexT_C = temperatureIn(value) ?? 20;
    },
  },
  density_g_mL: {
    called: /^density$/i,
    read: (value, into) => {
      const read = firstNumber(value);
      if (read === undefined) return;
      const density = /kg\s*(?:\/|m)|g\s*\/\s*L\b/i.test(value) ? read / 1000 : read;
      // Nothing that is weighed here is lighter or heavier: another unit, or a label
      if (!(density >= 0.5 && density <= 5)) return;
      into.density_g_mL = density;
      into.densityT_C = temperatureIn(value) ?? 20;
    },
  },
  specificRotation: {
    called: /^(?:specific rotation|optical rotation|rotation)$/i,
    read: (value, into) => {
      const rotation = firstNumber(value);
      if (rotation !== undefined) into.specificRotation = rotation;
    },
  },
};

/** "Literature bp", "Lit. m.p." */
const LITERATURE = /^lit(?:erature)?\.?\s+/i;

/**
 * What is known of a substance to compare a measurement with: the substance table, and over it what
 * the document's Product section says ("Melting range: 120–122 °C", "Refractive index: 1.4613 at
 * 20 °C").
 */
export function literatureOf(
  substance: Substance,
  expectations: Readonly<Record<string, string>> = {},
): Literature {
  const into: Mutable = {};
  const sources: Record<string, string> = {};
  const { meltingPoint_C, boilingPoint_C, density_g_mL, densityT_C, state } = substance;
  if (meltingPoint_C !== undefined) {
    into.meltingRange_C = [meltingPoint_C, meltingPoint_C];
    sources['meltingRange_C'] = substance.sources.meltingPoint ?? '';
  }
  if (boilingPoint_C !== undefined) {
    into.boilingPoint_C = boilingPoint_C;
    sources['boilingPoint_C'] = substance.sources.boilingPoint ?? '';
  }
  // Of a solid it is that of the crystals, which no liquid is compared with
  if (density_g_mL !== undefined && state !== 'solid') {
    into.density_g_mL = density_g_mL;
    if (densityT_C !== undefined) into.densityT_C = densityT_C;
    sources['density_g_mL'] = substance.sources.density ?? '';
  }
  for (const [key, value] of Object.entries(expectations)) {
    const found = Object.entries(READERS).find(([, { called }]) =>
      called.test(key.trim().replace(LITERATURE, '')),
    );
    if (found === undefined) continue;
    const before = JSON.stringify(into);
    found[1].read(value, into);
    if (JSON.stringify(into) !== before) sources[found[0]] = 'the experiment’s own text';
  }
  return { ...into, sources };
}
