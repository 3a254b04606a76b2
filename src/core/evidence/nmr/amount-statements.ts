import {
  budget,
  exact,
  expanded,
  measured,
  standardUncertainty,
} from '../../quantity/uncertain.ts';
import type { Uncertain } from '../../quantity/uncertain.ts';
import { formatNumber, formatWithUncertainty } from '../../quantity/print.ts';
import { molarMass } from '../../chemistry/molar-mass.ts';
import { looksLikeSmiles, readSmiles } from '../../chemistry/smiles.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import type { DerivationStep, Judged, Statement } from '../statement.ts';
import type { Subjects } from '../subject.ts';
import { areaPerHydrogen, conversionOf, purityByStandard } from './amounts.ts';
import { subjectNamed } from './components.ts';
import { areaOf } from './partition.ts';
import { counted, isSure, isomerAmounts, productAmount, productIntegrals } from './spectrum.ts';
import type { ReadSpectrum } from './spectrum.ts';

/** From this share on a teaching preparation counts as pure. Common practice. */
const PURE_FROM = 0.98;
/** Standard uncertainty of a weighing on a balance of 0.1 mg, by difference (docs/methods/uncertainty.md). */
const WEIGHING_U_mg = 0.22;

/** "91.4 ± 3.2 % (k = 2)". */
export function percentText(share: Uncertain): string {
  return `${formatWithUncertainty(100 * share.value, 100 * expanded(share))} % (k = 2)`;
}

const INTEGRALS_LIMITS =
  'Integrals are proportional to amounts only when the relaxation delay was long enough and no ' +
  'other signal lies under these; what holds no hydrogen is not seen.';

export function budgetSteps(value: Uncertain): DerivationStep[] {
  return budget(value)
    .filter((line) => line.share >= 0.005)
    .map((line) => ({
      label: `Share of the variance: ${line.id}`,
      value: `${formatNumber(100 * line.share, 2)} %`,
    }));
}

/** Signals said to be the starting material's, against the product's: how far the reaction went. */
export function conversionStatement(spectrum: ReadSpectrum, subjects: Subjects): Judged {
  const { entered, partition } = spectrum;
  if (partition.startingMaterial.length === 0) return { statements: [], diagnostics: [] };
  const rows = partition.startingMaterial.flatMap((i) =>
    counted(entered, i, entered.signals[i]!.assignment?.hydrogens),
  );
  const left = areaPerHydrogen(rows);
  const made = productAmount(spectrum);
  if (left === undefined || made === undefined) {
    const diagnostic: Diagnostic = {
      code: 'nmr-conversion-hydrogens',
      severity: 'warning',
      message: 'The conversion is not worked out: integrals or numbers of hydrogens are missing.',
      hint: 'Give a signal of the starting material and one of the product, each with its integral and hydrogens.',
    };
    return { statements: [], diagnostics: [diagnostic] };
  }
  const share = conversionOf(made, left);
  const name =
    subjects.others.find((one) => one.role === 'startingMaterial')?.substance.name ??
    'the starting material';
  const statement: Statement = {
    id: 'nmr-conversion',
    technique: 'nmr',
    about: 'startingMaterial',
    substance: name,
    what: 'Conversion by integrals',
    measured: percentText(share),
    expected: '100 %',
    agreement: 1 - share.value > 2 * standardUncertainty(share) ? 'disagrees' : 'cannotTell',
    weight: 'moderate',
    says: `${percentText(share)} of what is left of ${name} and made from it is product.`,
    limits: `${INTEGRALS_LIMITS} By-products and losses are not in it: a conversion is no yield.`,
    derivation: [
      {
        label: 'Product, area per hydrogen',
        formula: 'Σ I / Σ N',
        value: formatNumber(made.value),
      },
      {
        label: `${name}, area per hydrogen`,
        formula: 'Σ I / Σ N',
        value: formatNumber(left.value),
      },
      { label: 'Conversion', formula: 'n(P) / (n(P) + n(S))', value: percentText(share) },
      ...budgetSteps(share),
    ],
  };
  return { statements: [statement], diagnostics: [] };
}

/** Forms of the product that have a signal of their own: their ratio. */
export function isomerStatements(spectrum: ReadSpectrum): Statement[] {
  const isomers = isomerAmounts(spectrum);
  const [first] = isomers;
  if (first === undefined || isomers.length < 2) return [];
  const all = isomers.map(({ amount }) => amount);
  const total = all.reduce((sum, amount) => sum + amount.value, 0);
  const ratio = all.map((amount) => formatNumber((100 * amount.value) / total, 3)).join(' : ');
  const names = isomers.map(({ name }) => name).join(' : ');
  const [a, b] = all;
  const share = conversionOf(a!, b!);
  const pair = isomers.length === 2 ? `; ${first.name} ${percentText(share)}` : '';
  return [
    {
      id: 'nmr-isomers',
      technique: 'nmr',
      about: 'change',
      what: `Ratio ${names}`,
      measured: `${ratio}${pair}`,
      expected: '',
      agreement: 'cannotTell',
      weight: 'moderate',
      says: `The integrals give ${names} as ${ratio}.`,
      limits: `${INTEGRALS_LIMITS} Which signal is which isomer was entered, not found.`,
      derivation: isomers.map(({ name, amount }) => ({
        label: `${name}, area per hydrogen`,
        formula: 'Σ I / Σ N',
        value: `${formatNumber(amount.value)}, u = ${formatNumber(standardUncertainty(amount), 2)}`,
      })),
    },
  ];
}

function molarMassOf(
  subjects: Subjects,
  name: string,
  smiles: string | undefined,
): Uncertain | undefined {
  const id = `molar mass of ${name}`;
  // Where only a structure is at hand, people write it in the place of the name
  const drawn = smiles ?? (looksLikeSmiles(name) ? name : undefined);
  const reading = drawn === undefined ? undefined : readSmiles(drawn);
  if (reading?.ok === true) {
    const mass = molarMass(reading.composition);
    return Number.isFinite(mass.value_g_mol)
      ? measured(id, mass.value_g_mol, mass.u_g_mol)
      : undefined;
  }
  const subject = subjectNamed(subjects, name);
  const value = subject?.substance.molarMass_g_mol;
  if (value === undefined) return undefined;
  return measured(id, value, subject?.substance.molarMassU_g_mol ?? 0);
}

const refused = (code: string, message: string, hint: string): Judged => ({
  statements: [],
  diagnostics: [{ code, severity: 'warning', message, hint }],
});

/** Signals that nobody assigned, where only that of the standard may be. */
function crowdOf({ entered, partition }: ReadSpectrum): Judged | undefined {
  const crowd = partition.standard.filter((i) => {
    const signal = entered.signals[i]!;
    return signal.assignment === undefined && areaOf(signal) !== undefined;
  });
  if (crowd.length < 2) return undefined;
  return refused(
    'nmr-standard-crowded',
    `The purity is not worked out: ${crowd.length} signals lie where that of the internal standard is looked for.`,
    'Assign the one of the standard, and the others to what they are. If they overlap, take another standard.',
  );
}

/** Mass fraction against a weighed internal standard. */
export function purityStatement(spectrum: ReadSpectrum, subjects: Subjects): Judged {
  const { entered, partition } = spectrum;
  const { standard, sampleMass_mg } = entered;
  const product = subjects.product?.substance;
  if (standard === undefined || product === undefined) return { statements: [], diagnostics: [] };
  if (sampleMass_mg === undefined)
    return refused(
      'nmr-sample-mass',
      'The purity is not worked out: the mass of the sample in the tube is missing.',
      'Weigh the sample and the internal standard into the same tube and write down both masses.',
    );
  const standardMolarMass = molarMassOf(subjects, standard.substance, standard.smiles);
  if (standardMolarMass === undefined || product.molarMass_g_mol === undefined)
    return refused(
      'nmr-standard-molar-mass',
      `The purity is not worked out: the molar mass of ${standardMolarMass === undefined ? standard.substance : product.name} is not known.`,
      'Give the structure as SMILES.',
    );
  const crowd = crowdOf(spectrum);
  if (crowd !== undefined) return crowd;
  const rows = partition.standard.flatMap((i) =>
    // One signal of the standard is entered with its hydrogens; more would each need their own.
    counted(entered, i, entered.signals[i]!.assignment?.hydrogens ?? standard.hydrogens),
  );
  const reference = areaPerHydrogen(rows);
  const analyte = productAmount(spectrum);
  if (reference === undefined || analyte === undefined)
    return refused(
      'nmr-standard-signal',
      `The purity is not worked out: no integrated signal of ${reference === undefined ? standard.substance : product.name} is found.`,
      'Assign a signal to the standard and one to the product, each with its integral and hydrogens.',
    );
  const share = purityByStandard({
    analyte,
    standard: reference,
    analyteMolarMass_g_mol: measured(
      `molar mass of ${product.name}`,
      product.molarMass_g_mol,
      product.molarMassU_g_mol ?? 0,
    ),
    standardMolarMass_g_mol: standardMolarMass,
    sampleMass_mg: measured(
      'mass of the sample',
      sampleMass_mg,
      entered.sampleMassU_mg ?? WEIGHING_U_mg,
    ),
    standardMass_mg: measured(
      'mass of the standard',
      standard.mass_mg,
      standard.massU_mg ?? WEIGHING_U_mg,
    ),
    standardPurity:
      standard.purityU_percent === undefined
        ? exact(standard.purity_percent / 100)
        : measured(
            'purity of the standard',
            standard.purity_percent / 100,
            standard.purityU_percent / 100,
          ),
  });
  return {
    statements: [purityOf(spectrum, product.name, share, analyte, reference)],
    diagnostics: overHundred(share),
  };
}

function overHundred(share: Uncertain): Diagnostic[] {
  if (share.value - expanded(share) <= 1) return [];
  return [
    {
      code: 'nmr-purity-over-100',
      severity: 'warning',
      message: `The purity by internal standard is ${percentText(share)}, more than there can be.`,
      hint: 'Check the masses, the hydrogens of both signals, the relaxation delay, and what lies under the signal of the product.',
    },
  ];
}

function purityOf(
  spectrum: ReadSpectrum,
  name: string,
  share: Uncertain,
  analyte: Uncertain,
  reference: Uncertain,
): Statement {
  const { standard, sampleMass_mg } = spectrum.entered;
  const u = standardUncertainty(share);
  const used = productIntegrals(spectrum);
  const sure = isSure(spectrum);
  const tooMuch = share.value - 2 * u > 1;
  return {
    id: 'nmr-purity',
    technique: 'nmr',
    about: 'purity',
    substance: name,
    what: `Mass fraction against ${standard!.substance}`,
    measured: percentText(share),
    expected: `${100 * PURE_FROM} % or more`,
    agreement:
      tooMuch || !sure ? 'cannotTell' : share.value + 2 * u >= PURE_FROM ? 'agrees' : 'disagrees',
    weight: tooMuch || !sure ? 'weak' : 'strong',
    says:
      `By internal standard ${percentText(share)} of the mass of the sample is ${name}` +
      (sure
        ? '.'
        : ', if the signals taken for it are its own: not all of its structure was found.'),
    limits: `${INTEGRALS_LIMITS} It does not say what the rest is.`,
    ...(sure &&
      !tooMuch && {
        purity: {
          basis: 'mass',
          kind: 'measured',
          share: Math.min(1, share.value),
          u,
          of: name,
        } as const,
      }),
    derivation: [
      {
        label: `${name}, area per hydrogen`,
        formula: 'Iₐ/Nₐ',
        value: `${formatNumber(analyte.value)} from ${used.length} ${used.length === 1 ? 'signal' : 'signals'}`,
      },
      {
        label: `${standard!.substance}, area per hydrogen`,
        formula: 'Iₛ/Nₛ',
        value: formatNumber(reference.value),
      },
      {
        label: 'Masses',
        formula: 'mₐ, mₛ',
        value: `${formatNumber(sampleMass_mg!)} mg of sample, ${formatNumber(standard!.mass_mg)} mg of standard`,
      },
      {
        label: 'Mass fraction',
        formula: '(Iₐ/Nₐ)/(Iₛ/Nₛ) · (Mₐ/Mₛ) · (mₛ/mₐ) · Pₛ',
        value: percentText(share),
        source: 'Bharti and Roy, Trends Anal. Chem. 2012, 35, 5',
      },
      ...budgetSteps(share),
    ],
  };
}
