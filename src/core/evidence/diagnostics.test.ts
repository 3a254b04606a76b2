import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it, test } from 'vitest';
import type { Substance } from '../chemistry/substance.ts';
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

function substance(name: string, smiles?: string): Substance {
  const made = makeSubstance({ name, ...(smiles !== undefined && { smiles }) });
  if (!made.ok) throw new Error(made.message);
  return made.substance;
}

const product = (
  name: string,
  smiles?: string,
  literature: Subject['literature'] = {},
): Subjects => ({
  product: { role: 'product', substance: substance(name, smiles), literature },
  others: [
    {
      role: 'startingMaterial',
      substance: substance('cyclohexanone', 'O=C1CCCCC1'),
      literature: {},
    },
  ],
});
const ALCOHOL = product('cyclohexanol', 'OC1CCCCC1');
const ACID = product('benzoic acid', 'OC(=O)c1ccccc1');

type Technique = Exclude<EvidenceEntered['technique'], 'infrared' | 'file'>;
type Entered<K extends Technique> = Extract<EvidenceEntered, { readonly technique: K }>;

const JUDGES: { readonly [K in Technique]: (entered: Entered<K>, subjects: Subjects) => Judged } = {
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
  titration: ACID,
  rotation: product('limonene', 'CC1=CCC(CC1)C(C)=C', { specificRotation: 100 }),
  nmr: product('paracetamol', 'CC(=O)Nc1ccc(O)cc1'),
};

function judged(base: string, change: string, subjects?: Subjects): Codes {
  const merged = { ...(JSON.parse(base) as object), ...(JSON.parse(change) as object) };
  const kept = Object.entries(merged).filter(([, value]) => value !== null);
  const entered = evidenceEnteredSchema.parse(Object.fromEntries(kept));
  const technique = entered.technique as Technique;
  const judge = JUDGES[technique] as (entered: EvidenceEntered, subjects: Subjects) => Judged;
  return codesOf(judge(entered, subjects ?? SUBJECTS[technique] ?? ALCOHOL).diagnostics);
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
const wet = bandsAt(X, [
  { position: 3400, width: 300, height: 0.6 },
  { position: 2925, width: 30, height: 0.9 },
  { position: 1640, width: 60, height: 0.2 },
]);
/** The record that the line of the table stands beside; else that of the alcohol. */
const CLASSES: Readonly<Record<string, Class>> = {
  'faint-hydroxyl': KETONE_FILM,
  'overtone-as-hydroxyl': KETONE_FILM,
  'aldehyde-without-ch': KETONE_FILM,
  'left-over-not-mentioned': { ...KETONE_FILM, made: CYCLOHEXANOL },
  'above-3000-as-alkane': ESTER_FILM,
  'weak-1600-as-carbonyl': ESTER_FILM,
  'combination-as-carbonyl': ESTER_FILM,
  'acid-hydroxyl-as-ch': { record: recordOf('benzoic acid', 'disc'), made: BENZOIC_ACID },
  'water-as-alcohol': { record: spectrumOf(X, wet, { state: 'film' }), made: CYCLOHEXANOL },
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

const flat = (height: number) => X.map(() => height);
const bandsOf = (height: number) =>
  bandsAt(
    X,
    [2930, 1715, 1450].map((position) => ({ position, width: 30, height })),
  );
function infrared(rest: Partial<MeasuredTrace>, y = bandsOf(0.6), x = X): Codes {
  const made = infraredOf(traceOf(x, y, rest));
  return made.ok ? codesOf(made.diagnostics) : [made.problem.code];
}
const onAxis = (x: Float64Array, rest: Partial<MeasuredTrace> = {}): Codes =>
  infrared(rest, bandsOf(0.6).slice(0, x.length), x);
const ofValues = (value: (y: number, i: number) => number): Codes =>
  infrared({}, bandsOf(0.6).map(value));
const cells = (x: Float64Array, y: Float64Array) =>
  `cm-1,A\n${Array.from(x, (each, i) => `${each},${y[i]}`).join('\n')}\n`;
const refused = (reading: { readonly ok: boolean; readonly problem?: { code: string } }): Codes =>
  reading.problem === undefined ? [] : [reading.problem.code];
const baseOf = (code: string) => fenceIn(written.find((one) => one.code === code)!.intro, 'json')!;
const peakTable = FILE.replace(
  /^##(?:FIRST[XY]|LASTX|NPOINTS|XYDATA)[\s\S]*/m,
  '##PEAK TABLE=(XY..XY)\n',
);

/** Examples that no page can hold, as its words describe them. */
const BUILT: Readonly<Record<string, () => Codes>> = {
  'file-too-large': () => saidOf(readInstrumentFile(new Uint8Array(MAX_BYTES + 1))),
  'file-empty': () => saidOf(read(' \n')),
  'file-blocks': () => saidOf(read(FILE + FILE)),
  'file-part-left-out': () => saidOf(read(FILE + FILE.replace('LASTX=444', 'LASTX=4440'))),
  'file-stray-text': () => saidOf(read(`xx${FILE}`)),
  'peaks-are-curve': () => {
    const places = Array.from({ length: 200 }, (_, i) => `${600 + 4 * i},${i}`).join(' ');
    return saidOf(read(`${peakTable}${places}\n##END=\n`));
  },
  'spectrum-not-infrared': () => infrared({ technique: 'nmr' }),
  'spectrum-peaks-only': () => infrared({ kind: 'peaks' }),
  'spectrum-axis-unknown': () =>
    onAxis(
      X.map((x) => x / 4000),
      { xUnit: 'unknown' },
    ),
  'spectrum-units-guessed': () => infrared({ xUnit: 'unknown' }),
  'spectrum-quantity-refused': () => infrared({ yUnit: 'reflectance' }),
  'spectrum-out-of-range': () => onAxis(X.map((x) => x + 3700)),
  'spectrum-too-few-points': () => {
    const reading = read(FILE);
    return reading.ok ? refused(infraredOf(reading.traces[0]!)) : [];
  },
  'spectrum-points-merged': () => onAxis(X.map((x) => (x === 2002 ? 2000 : x))),
  'spectrum-points-missing': () => ofValues((y, i) => (i === 700 ? Number.NaN : y)),
  'spectrum-gap': () => onAxis(X.filter((x) => x < 2000 || x > 2400)),
  'spectrum-coarse': () => onAxis(evenly(600, 3980, 20)),
  'spectrum-upside-down': () => ofValues((y) => 0.9 - y),
  'spectrum-bands-inverted': () => infrared({}, bandsOf(-0.1)),
  'spectrum-film-assumed': () => infrared({ yUnit: 'absorptionIndex' }),
  'spectrum-without-bands': () =>
    refused(referenceIn(new TextEncoder().encode(cells(X, flat(0.02))))),
  'crowded-fingerprint': () =>
    claimed(
      'crowded-fingerprint',
      Array.from({ length: 12 }, (_, i) => `{ "position_percm": ${700 + 60 * i}, "group": "C–H" }`),
    ),
  'same-noise': () => claimed('same-noise', [], [ALCOHOL_FILM.record]),
  'nmr-no-structure': () => judged(baseOf('nmr-no-structure'), '{}', product('resin')),
  'nmr-trace': () => refused(signalsOfTrace(traceOf(X, bandsOf(0.6)))),
  'mass-no-formula': () => judged(baseOf('mass-no-formula'), '{}', product('resin')),
  'mass-no-isotopes': () =>
    judged(baseOf('mass-no-isotopes'), '{}', product('tetraethyllead', 'CC[Pb](CC)(CC)CC')),
  'chromatogram-time-unit': () =>
    codesOf(peaksOfTrace(traceOf(X, bandsOf(1), { xUnit: 'unknown' })).diagnostics),
  'chromatogram-listed-areas': () =>
    codesOf(peaksOfTrace(traceOf(X, bandsOf(1), { kind: 'peaks', xUnit: 's' })).diagnostics),
  'chromatogram-no-peaks': () =>
    codesOf(peaksOfTrace(traceOf(X, flat(1), { xUnit: 's' })).diagnostics),
};

/** Those that only a longer scene calls forth; the tests beside their sources do, or those of the report. */
const ELSEWHERE = [
  'solvent-band',
  'nmr-search-cut',
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
