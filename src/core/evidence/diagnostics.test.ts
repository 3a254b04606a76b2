import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it, test } from 'vitest';
import { makeSubstance } from '../chemistry/substance.ts';
import { judgeBoiling } from './boiling/judge.ts';
import { judgeChemicalTest } from './chemical-test/judge.ts';
import { judgeChromatogram } from './chromatogram/judge.ts';
import { peaksOfTrace } from './chromatogram/integrate.ts';
import { judgeDensity } from './density/judge.ts';
import { judgeMass } from './mass/judge.ts';
import { judgeMelting } from './melting/judge.ts';
import { signalsOfTrace } from './nmr/from-trace.ts';
import { judgeNmr } from './nmr/judge.ts';
import { judgeRefraction } from './refraction/judge.ts';
import { judgeRotation } from './rotation/judge.ts';
import { evidenceEnteredSchema } from './schema.ts';
import type { EvidenceEntered } from './schema.ts';
import { candidatesOf, checkClaims } from './spectrum/claims/check-claims.ts';
import { CLAIM_FINDINGS } from './spectrum/claims/finding.ts';
import type { InfraredSpectrum } from './spectrum/infrared.ts';
import * as facts from './spectrum/judge/testing/facts.ts';
import { traceOf as recordOf } from './spectrum/judge/testing/scenario.ts';
import { judgeInfrared } from './spectrum/judge/judge.ts';
import { referenceIn } from './spectrum/library/reference.ts';
import { MAX_BYTES } from './spectrum/read/limits.ts';
import { readInstrumentFile } from './spectrum/read/read-file.ts';
import { bandClaimSchema } from './spectrum/schema.ts';
import { infraredOf } from './spectrum/to-infrared.ts';
import type { FileReading, MeasuredTrace } from './spectrum/trace.ts';
import { bandsAt, evenly, spectrumOf, traceOf } from './spectrum/treat/testing/curves.ts';
import type { Judged } from './statement.ts';
import type { StructureFacts } from './structure.ts';
import type { Subject, Subjects } from './subject.ts';
import { judgeThinLayer } from './thin-layer/judge.ts';
import { judgeTitration } from './titration/judge.ts';

const guide = readFileSync(
  new URL('../../../docs/diagnostics-evidence.md', import.meta.url),
  'utf8',
);

/** Group by group: the text before its first entry, and the entries by code. */
const groups = guide
  .split(/^## From /m)
  .slice(1)
  .map((group) => {
    const [intro = '', ...entries] = group.split(/^### /m);
    return { intro, entries: entries.map((entry) => ({ code: entry.split('\n')[0]!, entry })) };
  });
const written = groups.flatMap(({ intro, entries }) => entries.map((one) => ({ ...one, intro })));

function sources(at: URL): string[] {
  return readdirSync(at, { withFileTypes: true }).flatMap((entry) => {
    if (entry.isDirectory())
      return entry.name === 'testing' ? [] : sources(new URL(`${entry.name}/`, at));
    const isSource = /\.tsx?$/.test(entry.name) && !/\.test\.tsx?$/.test(entry.name);
    return isSource ? [readFileSync(new URL(entry.name, at), 'utf8')] : [];
  });
}

/** What makes a diagnostic of a code that it is handed. */
const MAKERS = ['found', 'refusal', 'warning', 'note', 'implausible', 'problem', 'refused', 'say'];
const HANDED = new RegExp(`\\b(?:${MAKERS.join('|')})\\(([^,{]*)`, 'g');
const NAMED = /\b(?:code: |(?:code|CODE) =)([^,;}]*)/g;
/** A table of faults: the code, and how the sentence begins. */
const PAIRS = /\['(file-[a-z-]+)', '/g;
const LITERAL = /'([a-z0-9]+(?:-[a-z0-9]+)+)'/g;

function codesIn(source: string): string[] {
  const places = [...source.matchAll(HANDED), ...source.matchAll(NAMED)].map((m) => m[1]!);
  const pairs = source.includes('[code: string') ? [...source.matchAll(PAIRS)] : [];
  return [
    ...places.flatMap((place) => [...place.matchAll(LITERAL)].map((m) => m[1]!)),
    ...pairs.map((m) => m[1]!),
  ];
}

const own = sources(new URL('./', import.meta.url));
const others = ['../report/evidence/', '../../cli/', '../../web/evidence/'].flatMap((folder) =>
  sources(new URL(folder, import.meta.url)),
);
const emitted = [...new Set([...[...own, ...others].flatMap(codesIn), ...CLAIM_FINDINGS])].sort();

describe('the page', () => {
  it('has an entry for every code', () => {
    expect(emitted.length).toBeGreaterThan(150);
    expect(emitted.filter((code) => !written.some((one) => one.code === code))).toEqual([]);
  });

  it('has no entry without its code, and none twice', () => {
    const codes = written.map(({ code }) => code);
    expect(codes.filter((code) => !emitted.includes(code))).toEqual([]);
    expect(codes.filter((code, i) => codes.indexOf(code) !== i)).toEqual([]);
  });

  it('every function that is handed a code is looked through', () => {
    const handed = own.flatMap((source) => [
      ...source.matchAll(/(\w+)(?: =)? ?\((?:\s*\w+: [\w<>[\]']+,)?\s*code: string\b/g),
    ]);
    expect(handed.length).toBeGreaterThan(4);
    expect(handed.map((m) => m[1]!).filter((name) => !MAKERS.includes(name))).toEqual([]);
  });
});

type Codes = readonly string[];
const codesOf = (found: readonly { readonly code: string }[]): Codes =>
  found.map(({ code }) => code);
const fenceIn = (text: string, language: string): string | undefined =>
  new RegExp(`\`\`\`${language}\\n([\\s\\S]*?)\`\`\``).exec(text)?.[1];
const ticksIn = (text: string): string[] =>
  [...text.replace(/```[\s\S]*?```/g, '').matchAll(/`([^`\n]+)`/g)].map((m) => m[1]!);

const FILE = fenceIn(groups[0]!.intro, 'text')!;
const read = (text: string): FileReading => readInstrumentFile(new TextEncoder().encode(text));
const saidOf = (reading: FileReading): Codes =>
  reading.ok ? reading.traces.flatMap(({ warnings }) => codesOf(warnings)) : [reading.problem.code];

/** The whole file with the records of an example in the place of its own; a bare label goes. */
function changedFile(entry: string): string | undefined {
  const fence = fenceIn(entry, 'text') ?? '';
  if (fence !== '' && !fence.startsWith('##')) return fence;
  const inline = ticksIn(entry).filter((one) => one.startsWith('##'));
  const changes = [...fence.split(/^(?=##)/m), ...inline.map((one) => `${one}\n`)].filter(Boolean);
  if (changes.length === 0) return undefined;
  const labelOf = (record: string): string => record.split(/[=\n]/)[0]!;
  return changes
    .reduce<readonly string[]>(
      (records, change) => {
        const isSame = (one: string) => labelOf(one) === labelOf(change);
        if (!change.includes('=')) return records.filter((one) => !isSame(one));
        if (records.some(isSame)) return records.map((one) => (isSame(one) ? change : one));
        return records.toSpliced(-2, 0, change);
      },
      FILE.split(/^(?=##)/m),
    )
    .join('');
}

function product(name: string, smiles?: string, literature: Subject['literature'] = {}): Subjects {
  const made = makeSubstance({ name, ...(smiles !== undefined && { smiles }) });
  if (!made.ok) throw new Error(made.message);
  return { product: { role: 'product', substance: made.substance, literature }, others: [] };
}
const ALCOHOL = product('cyclohexanol', 'OC1CCCCC1');
const ACID = product('benzoic acid', 'OC(=O)c1ccccc1');
const SOLVENT = { ...product('diethyl ether', 'CCOCC').product!, role: 'solvent' } as const;

type Technique = Exclude<EvidenceEntered['technique'], 'infrared' | 'file'>;

const JUDGES: Record<Technique, (entered: never, subjects: Subjects) => Judged> = {
  meltingRange: judgeMelting,
  boilingRange: judgeBoiling,
  refractiveIndex: judgeRefraction,
  density: judgeDensity,
  rotation: judgeRotation,
  thinLayer: judgeThinLayer,
  chromatogram: judgeChromatogram,
  titration: judgeTitration,
  chemicalTest: judgeChemicalTest,
  nmr: judgeNmr,
  mass: judgeMass,
};

const SUBJECTS: Partial<Record<Technique, Subjects>> = {
  meltingRange: ACID,
  chromatogram: { ...ALCOHOL, others: [SOLVENT] },
  titration: ACID,
  rotation: product('limonene', 'CC1=CCC(CC1)C(C)=C', { specificRotation: 100 }),
  nmr: product('paracetamol', 'CC(=O)Nc1ccc(O)cc1'),
};

function judged(base: string, change: string, subjects?: Subjects): Codes {
  const merged = { ...(JSON.parse(base) as object), ...(JSON.parse(change) as object) };
  const kept = Object.entries(merged).filter(([, value]) => value !== null);
  const entered = evidenceEnteredSchema.parse(Object.fromEntries(kept));
  const technique = entered.technique as Technique;
  const about = subjects ?? SUBJECTS[technique] ?? ALCOHOL;
  return codesOf(JUDGES[technique](entered as never, about).diagnostics);
}

interface Class {
  readonly record: InfraredSpectrum;
  readonly made: StructureFacts;
}
const { CYCLOHEXANOL, CYCLOHEXANONE, ETHYL_BENZOATE, BENZOIC_ACID } = facts;
const ALCOHOL_FILM: Class = { record: recordOf('cyclohexanol', 'film'), made: CYCLOHEXANOL };
const KETONE_FILM: Class = { record: recordOf('cyclohexanone', 'film'), made: CYCLOHEXANONE };
const ESTER_FILM: Class = { record: recordOf('ethyl benzoate', 'film'), made: ETHYL_BENZOATE };
const alcoholOf = (strength: number): Class => ({
  record: recordOf('cyclohexanol', 'film', { strength, ceiling: 10 }),
  made: CYCLOHEXANOL,
});
const X = evenly(500, 4000, 2);
/** Bands as "position/width/height", added up. */
const summed = (bands: string) =>
  bandsAt(
    X,
    bands.split(' ').map((band) => {
      const [position = 0, width = 0, height = 0] = band.split('/').map(Number);
      return { position, width, height };
    }),
  );
const filmOf = (absorbance: Float64Array): Class => ({
  record: spectrumOf(X, absorbance, { state: 'film' }),
  made: CYCLOHEXANOL,
});
const WATER = '3400/300/0.6 2925/30/0.9 1640/60/0.2';
const ALCOHOL_BANDS = '3330/240/0.7 2932/26/1 2855/18/0.7 1452/14/0.5 1068/16/0.7';
const ESTER_BANDS = '1742/22/0.6 1374/16/0.3 1241/24/0.6 1047/18/0.4';
const RING_BANDS = '3063/16/0.2 1950/24/0.06 1720/20/1 1602/10/0.3 1276/18/0.9 710/10/0.7';
/** The record that the line of the table stands beside; else that of the alcohol. */
const CLASSES: Readonly<Record<string, Class>> = {
  'faint-hydroxyl': KETONE_FILM,
  'overtone-as-hydroxyl': KETONE_FILM,
  'aldehyde-without-ch': KETONE_FILM,
  'left-over-not-mentioned': { ...KETONE_FILM, made: CYCLOHEXANOL },
  'above-3000-as-alkane': ESTER_FILM,
  'weak-1600-as-carbonyl': ESTER_FILM,
  'combination-as-carbonyl': { ...filmOf(summed(RING_BANDS)), made: ETHYL_BENZOATE },
  'acid-hydroxyl-as-ch': { record: recordOf('benzoic acid', 'disc'), made: BENZOIC_ACID },
  'water-as-alcohol': filmOf(summed(WATER)),
  'solvent-band': filmOf(summed(`${ALCOHOL_BANDS} ${ESTER_BANDS}`)),
  'saturated-band': alcoholOf(3),
  'too-thick': alcoholOf(3),
  'too-weak': alcoholOf(0.009),
};

function claimed(code: string, lines: readonly string[], more: readonly InfraredSpectrum[] = []) {
  const { record: spectrum, made } = CLASSES[code] ?? ALCOHOL_FILM;
  const start = made === CYCLOHEXANOL ? [{ name: 'cyclohexanone', facts: CYCLOHEXANONE }] : [];
  const judgement = judgeInfrared({
    spectrum,
    product: { name: 'product', facts: made },
    startingMaterials: start,
    reagents: [],
    solvents: [],
  });
  const report = checkClaims({
    spectrum,
    claims: lines.map((line) => bandClaimSchema.parse(JSON.parse(line))),
    product: made,
    startingMaterials: start.map((one) => one.facts),
    judgement,
    others: more,
  });
  return candidatesOf(report).map(({ id }) => id);
}

const bandsOf = (height: number) =>
  summed([2930, 1715, 1450].map((position) => `${position}/30/${height}`).join(' '));
function infrared(rest: Partial<MeasuredTrace>, y = bandsOf(0.6), x = X): Codes {
  const made = infraredOf(traceOf(x, y, rest));
  return made.ok ? codesOf(made.diagnostics) : [made.problem.code];
}
const onAxis = (x: Float64Array): Codes => infrared({}, bandsOf(0.6).slice(0, x.length), x);
const ofValues = (value: (y: number, i: number) => number): Codes =>
  infrared({}, bandsOf(0.6).map(value));
const FLAT = `cm-1,A\n${Array.from(X, (x) => `${x},0.02`).join('\n')}\n`;
const refused = (reading: { readonly ok: boolean; readonly problem?: { code: string } }): Codes =>
  reading.problem === undefined ? [] : [reading.problem.code];
const baseOf = (code: string) => fenceIn(written.find((one) => one.code === code)!.intro, 'json')!;
const PEAKS = '##TITLE=t\n##XUNITS=1/CM\n##YUNITS=ABSORBANCE\n##PEAK TABLE=(XY..XY)\n';

/** Examples that no page can hold, as its words describe them. */
const BUILT: Readonly<Record<string, () => Codes>> = {
  'file-too-large': () => saidOf(readInstrumentFile(new Uint8Array(MAX_BYTES + 1))),
  'file-empty': () => saidOf(read(' \n')),
  'file-blocks': () => saidOf(read(FILE + FILE)),
  'file-part-left-out': () => saidOf(read(FILE + FILE.replace('LASTX=444', 'LASTX=4440'))),
  'file-stray-text': () => saidOf(read(`xx${FILE}`)),
  'peaks-are-curve': () => {
    const places = Array.from({ length: 200 }, (_, i) => `${600 + 4 * i},${i}`).join(' ');
    return saidOf(read(`${PEAKS}${places}\n##END=\n`));
  },
  'spectrum-not-infrared': () => infrared({ technique: 'nmr' }),
  'spectrum-peaks-only': () => infrared({ kind: 'peaks' }),
  'spectrum-axis-unknown': () => infrared({ xUnit: 's' }),
  'spectrum-units-guessed': () => infrared({ xUnit: 'unknown' }),
  'spectrum-quantity-refused': () => infrared({ yUnit: 'reflectance' }),
  'spectrum-out-of-range': () => onAxis(X.map((x) => x + 3700)),
  'spectrum-too-few-points': () => onAxis(X.slice(0, 49)),
  'spectrum-points-merged': () => onAxis(X.map((x) => (x === 2002 ? 2000 : x))),
  'spectrum-points-missing': () => ofValues((y, i) => (i === 700 ? Number.NaN : y)),
  'spectrum-gap': () => onAxis(X.filter((x) => x < 2000 || x > 2400)),
  'spectrum-coarse': () => onAxis(evenly(600, 3980, 20)),
  'spectrum-upside-down': () => ofValues((y) => 0.9 - y),
  'spectrum-bands-inverted': () => infrared({}, bandsOf(-0.1)),
  'spectrum-film-assumed': () => infrared({ yUnit: 'absorptionIndex' }),
  'spectrum-without-bands': () => refused(referenceIn(new TextEncoder().encode(FLAT))),
  'crowded-fingerprint': () =>
    claimed(
      'crowded-fingerprint',
      Array.from({ length: 5 }, (_, i) => `{ "position_percm": ${800 + 99 * i}, "group": "C–H" }`),
    ),
  'same-noise': () => claimed('same-noise', [], [ALCOHOL_FILM.record]),
  'nmr-no-structure': () => judged(baseOf('nmr-no-structure'), '{}', product('resin')),
  'nmr-search-cut': () => {
    const signals = [3.1, 3.2, 3.3, 3.4, 3.5, 3.6, 3.7, 3.8].map((shift_ppm) => ({ shift_ppm }));
    const change = JSON.stringify({ signals, standard: null });
    return judged(baseOf('nmr-search-cut'), change, product('sorbitol', 'OCC(O)C(O)C(O)C(O)CO'));
  },
  'nmr-trace': () => refused(signalsOfTrace(traceOf(X, bandsOf(0.6)))),
  'mass-no-formula': () => judged(baseOf('mass-no-formula'), '{}', product('resin')),
  'mass-no-isotopes': () =>
    judged(baseOf('mass-no-isotopes'), '{}', product('tetraethyllead', 'CC[Pb](CC)(CC)CC')),
  'chromatogram-time-unit': () =>
    codesOf(peaksOfTrace(traceOf(X, bandsOf(1), { xUnit: 'unknown' })).diagnostics),
  'chromatogram-listed-areas': () =>
    codesOf(peaksOfTrace(traceOf(X, bandsOf(1), { kind: 'peaks', xUnit: 's' })).diagnostics),
  'chromatogram-no-peaks': () =>
    codesOf(peaksOfTrace(traceOf(X, bandsOf(0), { xUnit: 's' })).diagnostics),
};

/** Of whole reports, of pages and of commands: layers that come after this one. */
const ELSEWHERE = [
  'evidence-no-product',
  'evidence-no-structure',
  'file-not-worked-up',
  'spectrum-without-file',
  'file-not-here',
  'atr-not-settled',
];

function calledForth({ code, entry, intro }: (typeof written)[number]): Codes {
  const built = BUILT[code];
  if (built !== undefined) return built();
  const file = changedFile(entry);
  if (file !== undefined) return saidOf(read(file));
  const change = fenceIn(entry, 'json') ?? ticksIn(entry).find((one) => one.startsWith('{'));
  if (change === undefined) return [];
  const base = fenceIn(intro, 'json');
  return base === undefined ? claimed(code, [change]) : judged(base, change);
}

describe('the examples', () => {
  it('begin with a file and entries of which nothing is said', () => {
    expect(saidOf(read(FILE))).toEqual([]);
    const bases = groups.flatMap(({ intro }) => fenceIn(intro, 'json') ?? []);
    expect(bases.length).toBe(Object.keys(JUDGES).length);
    for (const base of bases) expect([base, judged(base, '{}')]).toEqual([base, []]);
  });

  test.each(written.filter(({ code }) => !ELSEWHERE.includes(code)))(
    'that of $code calls it forth',
    (one) => {
      expect(calledForth(one)).toContain(one.code);
    },
  );
});
