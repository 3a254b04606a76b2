import type { Environments } from '../../chemistry/environments.ts';
import { formatNumber } from '../../quantity/print.ts';
import type { Agreement, DerivationStep, Statement } from '../statement.ts';
import { expectationsOf } from './match-signals.ts';
import type { Identification } from './identify.ts';
import { areaOf } from './partition.ts';
import type { NmrSignal } from './schema.ts';
import { formsOf } from './forms.ts';
import { distanceTo, signalText } from './signal.ts';
import { outweighedBy } from './outweighed.ts';
import type { ReadSpectrum } from './spectrum.ts';

const LIMITS =
  'It cannot tell enantiomers or salts, sees only what holds hydrogen, and isomers with the same ' +
  'environments look alike; overlap and exchange hide signals. Patterns are first order.';

function environmentText({ list }: Environments, index: number, hydrogens: number): string {
  const { label } = list[index]!;
  return hydrogens === list[index]!.hydrogens ? label : `half of ${label}`;
}

/** A line a signal: what it is taken for, its hydrogens seen and expected, its pattern. */
function derivationOf(
  environments: Environments,
  found: Identification,
  signals: readonly NmrSignal[],
): DerivationStep[] {
  const expected = expectationsOf(environments);
  const lines = found.matches.map((match): DerivationStep => {
    const signal = signals[match.signal]!;
    const area = areaOf(signal);
    const what = match.parts.map((p) => environmentText(environments, p.environment, p.hydrogens));
    const seen =
      area === undefined || found.scale === undefined
        ? ''
        : `${formatNumber(area / found.scale, 3)} H of `;
    const { window, pattern } = expected[match.parts[0]!.environment]!;
    const range = `${window.low_ppm.toFixed(1)}–${window.high_ppm.toFixed(1)} ppm`;
    return {
      label: `${signalText(signal)} ppm`,
      value: `${what.join(' + ')}: ${seen}${match.hydrogens} H; expected ${range}, ${pattern}`,
      source: window.source,
    };
  });
  const missing = found.missing.map((index): DerivationStep => {
    const { window, pattern } = expected[index]!;
    const range = `${window.low_ppm.toFixed(1)}–${window.high_ppm.toFixed(1)} ppm`;
    return {
      label: environments.list[index]!.label,
      value: `no signal; expected ${range} (${window.because}), ${pattern}`,
      source: window.source,
    };
  });
  return [...lines, ...missing];
}

interface Verdict {
  /** Why a misfit decides nothing: what is not seen may be elsewhere. */
  readonly excuse: string | undefined;
  readonly missing: readonly string[];
  /** On O, N or S, and without a signal. */
  readonly unseen: readonly string[];
  readonly miscounted: readonly string[];
  readonly misshapen: readonly string[];
}

function verdictOf(
  spectrum: ReadSpectrum,
  { list }: Environments,
  found: Identification,
  signals: readonly NmrSignal[],
): Verdict {
  const missing = found.missing.filter((i) => !list[i]!.exchangeable);
  const exchanges = (match: Identification['matches'][number]) =>
    match.parts.some((part) => list[part.environment]!.exchangeable);
  return {
    excuse: excuseFor(spectrum, found, missing),
    missing: missing.map((i) => list[i]!.label),
    unseen: found.missing.filter((i) => list[i]!.exchangeable).map((i) => list[i]!.label),
    miscounted: found.matches
      .filter((match) => !match.counted && !exchanges(match))
      .map((match) => signalText(signals[match.signal]!)),
    misshapen: found.matches
      .filter((match) => !match.patternFits)
      .map((match) => signalText(signals[match.signal]!)),
  };
}

/** Signals that are taken for something else and lie where a missing environment may be. */
function hidingPlaces(spectrum: ReadSpectrum, missing: readonly number[]): readonly number[] {
  const { environments, partition, entered } = spectrum;
  if (environments === undefined) return [];
  const expected = expectationsOf(environments);
  const { solvent, standard, startingMaterial, impurities, isomers } = partition;
  const taken = [...solvent, ...standard, ...startingMaterial, ...impurities, ...isomers];
  const near = (signal: number, { window }: (typeof expected)[number]) =>
    distanceTo(entered.signals[signal]!, window.low_ppm, window.high_ppm) === 0;
  return missing.every((i) => taken.some((signal) => near(signal, expected[i]!)))
    ? taken.filter((signal) => missing.some((i) => near(signal, expected[i]!)))
    : [];
}

/** What a misfit may come from that is no fault of the sample; undefined where it counts. */
function excuseFor(
  spectrum: ReadSpectrum,
  found: Identification,
  missing: readonly number[],
): string | undefined {
  const { environments, partition, entered } = spectrum;
  const said = partition.open.every((i) => entered.signals[i]!.assignment?.hydrogens !== undefined);
  if (said && missing.length > 0)
    return 'Only some of its signals were written down, so that the structure is not compared.';
  const hiding = missing.length === 0 ? [] : hidingPlaces(spectrum, missing);
  if (hiding.length > 0) {
    const at = hiding.map((i) => `${signalText(entered.signals[i]!)} ppm`).join(' and ');
    return `It may lie under ${at}, taken for something else. If that is the product, assign it so.`;
  }
  const misfit = missing.length > 0 || found.matches.some((match) => !match.counted);
  if (!misfit) return undefined;
  const unsaid = partition.standard.filter((i) => entered.signals[i]!.assignment === undefined);
  if (unsaid.length > 1)
    return 'Several signals lie where the internal standard is looked for: one of them may be the product.';
  return environments === undefined ? undefined : formsOf(environments.skeleton);
}

function saying(name: string, { missing, unseen, miscounted, misshapen, excuse }: Verdict): string {
  if (excuse !== undefined)
    return missing.length > 0
      ? `No signal is left for ${missing.join(' and ')} of ${name}. ${excuse}`
      : `The integrals are not those of one form of ${name}. ${excuse}`;
  if (missing.length > 0)
    return `No signal is found for ${missing.join(' and ')} of ${name}, so the spectrum does not show its structure.`;
  if (miscounted.length > 0)
    return `The integral at ${miscounted.join(' and ')} ppm is not that of ${name}: another substance or an overlap.`;
  if (misshapen.length > 0)
    return `Shifts and integrals fit ${name}, but the pattern at ${misshapen.join(' and ')} ppm is not the one expected.`;
  const but = unseen.length === 0 ? '' : ` but ${unseen.join(' and ')}, which need not show,`;
  return `Every environment of ${name}${but} is found with its shift, hydrogens and pattern: consistent with the structure.`;
}

function agreementOf(verdict: Verdict): Agreement {
  if (verdict.excuse !== undefined) return 'cannotTell';
  if (verdict.missing.length > 0 || verdict.miscounted.length > 0) return 'disagrees';
  return verdict.misshapen.length > 0 ? 'cannotTell' : 'agrees';
}

/** Above this share of the area, what is left over is too much to speak of the product alone. */
const MUCH_LEFT = 0.2;
/** Above this one, most of the sample is something else. */
const MOST_LEFT = 0.5;

/** Share of the open area that neither the product nor a usual solvent explains. */
function shareLeft({ partition, unexplained, entered }: ReadSpectrum): number {
  const area = (list: readonly number[]) =>
    list.reduce((sum, i) => sum + (areaOf(entered.signals[i]!) ?? 0), 0);
  const all = area(partition.open);
  return all > 0 ? area(unexplained) / all : 0;
}

/** A structure that is found among much else is not shown to be that of the sample. */
function besideOthers(
  name: string,
  left: number,
  cutOff: boolean,
  agreement: Agreement,
  says: string,
): { readonly agreement: Agreement; readonly says: string } {
  // With untried assignments left, a misfit is no finding.
  if (cutOff && agreement === 'disagrees')
    return {
      agreement: 'cannotTell',
      says: `Of the assignments that were tried none fits ${name} in full, and there may be a better one.`,
    };
  if (left <= MUCH_LEFT || agreement === 'disagrees') return { agreement, says };
  const percent = `${formatNumber(100 * left, 2)} % of the area`;
  return {
    agreement: left > MOST_LEFT ? 'disagrees' : 'cannotTell',
    says: `${says} But ${percent} belongs to other signals.`,
  };
}

/** So many signals of the product make a spectrum its own, with integrals and patterns: judgement. */
const TELLING_SIGNALS = 3;

function hydrogensSeen(found: Identification, signals: readonly NmrSignal[]): number | undefined {
  const { scale } = found;
  if (scale === undefined) return undefined;
  return found.matches.reduce((sum, m) => sum + (areaOf(signals[m.signal]!) ?? 0) / scale, 0);
}

/** The signals against the structure of the product. */
export function structureStatements(spectrum: ReadSpectrum, name: string): Statement[] {
  const { environments, identification, partition, entered } = spectrum;
  if (environments === undefined || identification === undefined) return [];
  const signals = partition.open.map((i) => entered.signals[i]!);
  const verdict = verdictOf(spectrum, environments, identification, signals);
  const judged = besideOthers(
    name,
    shareLeft(spectrum),
    identification.cutOff,
    agreementOf(verdict),
    saying(name, verdict),
  );
  const outweighed = outweighedBy(spectrum);
  const { agreement, says } =
    outweighed === undefined || judged.agreement !== 'agrees'
      ? judged
      : {
          agreement: 'cannotTell' as const,
          says: `Most of the area is of ${outweighed}. What is left could be of ${name}, and shows too little of it.`,
        };
  const seen = hydrogensSeen(identification, signals);
  const total = environments.list.reduce((sum, env) => sum + env.hydrogens, 0);
  const exchangeable = environments.list
    .filter((env) => env.exchangeable)
    .reduce((sum, env) => sum + env.hydrogens, 0);
  const count = identification.matches.length;
  const complete = seen !== undefined && signals.every((one) => one.multiplicity !== undefined);
  // One or two signals are soon found in another spectrum, too
  const telling = agreement === 'agrees' && count >= TELLING_SIGNALS;
  const loose = exchangeable === 0 ? '' : `, ${exchangeable} of them on O, N or S`;
  return [
    {
      id: 'nmr-structure',
      technique: 'nmr',
      about: 'identity',
      substance: name,
      what: '1H NMR signals',
      measured:
        `${count} ${count === 1 ? 'signal' : 'signals'} taken for the product` +
        (seen === undefined ? ', not integrated' : `, ${formatNumber(seen, 3)} hydrogens`),
      expected: `${environments.list.length} ${environments.list.length === 1 ? 'environment' : 'environments'}, ${total} hydrogens${loose}`,
      agreement,
      weight: complete && (agreement === 'disagrees' || telling) ? 'strong' : 'moderate',
      says,
      limits: LIMITS,
      derivation: derivationOf(environments, identification, signals),
    },
  ];
}
