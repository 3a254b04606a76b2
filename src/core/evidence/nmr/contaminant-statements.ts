import { standardUncertainty, expanded } from '../../quantity/uncertain.ts';
import { formatNumber } from '../../quantity/print.ts';
import type { DerivationStep, Statement } from '../statement.ts';
import type { Subjects } from '../subject.ts';
import { sharesOf } from './amounts.ts';
import { budgetSteps, percentText } from './amount-statements.ts';
import { isSure } from './spectrum.ts';
import { compositionOf } from './components.ts';
import { formsOf } from './forms.ts';
import { areaOf } from './partition.ts';
import type { NamedResidual } from './residuals.ts';
import { signalText } from './signal.ts';
import { outweighedBy } from './outweighed.ts';
import type { ReadSpectrum } from './spectrum.ts';

const WATER_LIMITS =
  'Water also comes with the deuterated solvent and from the air, so the amount is not that of the sample.';
const SOLVENT_LIMITS =
  'It may also come from a tube that was rinsed with it. A shift alone names no substance for certain: several contaminants lie close together, and concentration moves them.';

/** Under this share of all area an unnamed signal may be an artefact as well (common practice). */
const SMALL_SHARE = 0.01;

function sentence(one: NamedResidual): string {
  if (one.kind === 'water') return 'Water is seen, from the sample or from the deuterated solvent.';
  if (one.kind === 'grease')
    return `${one.substance.charAt(0).toUpperCase()}${one.substance.slice(1)} is seen: from joints, tubing or gloves.`;
  return `The signals are those of ${one.substance}: the sample is not free of it.`;
}

function residualStatement(spectrum: ReadSpectrum, one: NamedResidual): Statement {
  const { signals } = spectrum.entered;
  const seen = one.signals.map(({ signal }) => `${signalText(signals[signal]!)} ppm`);
  const known = one.signals.map(({ row }) => `${row.shift_ppm.toFixed(2)} (${row.multiplicity})`);
  const also =
    one.alternatives.length === 0 ? '' : ` It could also be ${one.alternatives.join(' or ')}.`;
  const alone = one.kind === 'residual' && one.signals.length === 1;
  // With the product not found in full, a single signal may be its own
  const open = one.kind === 'water' || (alone && !isSure(spectrum));
  return {
    id: `nmr-residual-${one.substance.replace(/[^a-z0-9]+/gi, '-')}`,
    technique: 'nmr',
    about: 'contaminant',
    substance: one.substance,
    what: 'Signals beside the product',
    measured: seen.join(', '),
    expected: `${known.join(', ')} ppm in ${spectrum.entered.solvent}`,
    agreement: open ? 'cannotTell' : 'disagrees',
    weight: alone || also !== '' ? 'weak' : 'moderate',
    says:
      open && one.kind !== 'water'
        ? `The signal can be that of ${one.substance}, or one of the product.${also}`
        : `${sentence(one)}${also}`,
    limits: one.kind === 'water' ? WATER_LIMITS : SOLVENT_LIMITS,
    derivation: [
      {
        label: `Shifts of ${one.substance}`,
        value: `${known.join(', ')} ppm`,
        source: one.signals[0]!.row.source,
      },
    ],
  };
}

function unexplainedStatement({ entered, unexplained, environments }: ReadSpectrum): Statement[] {
  if (unexplained.length === 0) return [];
  const areas = (list: readonly number[]) =>
    list.reduce((sum, i) => sum + (areaOf(entered.signals[i]!) ?? 0), 0);
  const all = areas(entered.signals.map((_, i) => i));
  const part = all > 0 ? areas(unexplained) / all : undefined;
  const share = part === undefined ? '' : `, ${formatNumber(100 * part, 2)} % of all area`;
  const small = part !== undefined && part < SMALL_SHARE;
  const forms = environments === undefined ? undefined : formsOf(environments.skeleton);
  const open = small || forms !== undefined;
  const places = unexplained.map((i) => `${signalText(entered.signals[i]!)} ppm`).join(', ');
  return [
    {
      id: 'nmr-unexplained',
      technique: 'nmr',
      about: 'contaminant',
      what: 'Signals without an explanation',
      measured: `${places}${share}`,
      expected: '',
      agreement: open ? 'cannotTell' : 'disagrees',
      weight: open ? 'weak' : 'moderate',
      says:
        forms === undefined
          ? `Neither the product nor a usual solvent explains ${places}: something else is in the sample.`
          : `Neither one form of the product nor a usual solvent explains ${places}. ${forms}`,
      limits:
        'Spinning side bands, carbon-13 satellites and an outsize shift of the product itself look the same.',
    },
  ];
}

/** What the sample is made of as far as its hydrogens show, in mass shares. */
function compositionStatement(spectrum: ReadSpectrum, subjects: Subjects): Statement[] {
  const { components, uncounted } = compositionOf(spectrum, subjects);
  const [product] = components;
  if (product === undefined || (components.length === 1 && uncounted.length === 0)) return [];
  // Whose few signals are the product's is not known then
  if (outweighedBy(spectrum) !== undefined) return [];
  const shares = sharesOf(components);
  const own = shares[0]!;
  const others = shares.slice(1);
  const spread = expanded(own.mass);
  const sure = isSure(spectrum);
  const steps = shares.map((one, i): DerivationStep => {
    const { amount, molarMass_g_mol } = components[i]!;
    return {
      label: one.name,
      formula: '(I/N)·M / Σ (I/N)·M',
      value:
        `${formatNumber(amount.value)} × ${formatNumber(molarMass_g_mol, 5)} g/mol: ` +
        `mass ${percentText(one.mass)}, mole ${percentText(one.mole)}`,
    };
  });
  const rest = uncounted.length === 0 ? '' : ` Not counted: ${uncounted.join(', ')}.`;
  const list = others.map((one) => `${one.name} ${percentText(one.mass)}`).join(', ');
  return [
    {
      id: 'nmr-composition',
      technique: 'nmr',
      about: 'purity',
      substance: product.name,
      what: 'Composition by integrals, mass shares',
      measured: `${product.name} at most ${percentText(own.mass)}${list === '' ? '' : `; ${list}`}`,
      expected: '',
      agreement: sure && 1 - own.mass.value > spread ? 'disagrees' : 'cannotTell',
      weight: sure ? 'moderate' : 'weak',
      says: sure
        ? `Of what the spectrum shows, ${percentText(own.mass)} of the mass is ${product.name}; what shows no signal makes it less, never more.${rest}`
        : `Not all of the structure of ${product.name} was found, so that its share is not to be trusted.${rest}`,
      limits:
        'Salts, silica, drying agent and all else without hydrogen are not seen, so the share is an upper bound. Water is not counted: it may come from the deuterated solvent.',
      ...(sure && {
        purity: {
          basis: 'mass',
          kind: 'atMost',
          // The bound is measured, too
          share: Math.min(1, own.mass.value + (spread > 0 ? spread : 0)),
          u: 0,
          of: product.name,
        } as const,
      }),
      derivation: [
        ...steps,
        {
          label: 'Standard uncertainty of the share',
          value: `${formatNumber(100 * standardUncertainty(own.mass), 2)} %`,
        },
        ...budgetSteps(own.mass),
      ],
    },
  ];
}

export function contaminantStatements(spectrum: ReadSpectrum, subjects: Subjects): Statement[] {
  return [
    ...spectrum.residuals.map((one) => residualStatement(spectrum, one)),
    ...unexplainedStatement(spectrum),
    ...compositionStatement(spectrum, subjects),
  ];
}
