import type { Diagnostic } from '../../diagnostic.ts';
import type { Judged, Statement } from '../statement.ts';
import type { Subject, Subjects } from '../subject.ts';
import {
  COVERAGE,
  degrees,
  fixed,
  implausible,
  nothingExpected,
  othersThatFit,
  sentences,
  withSource,
} from '../melting/compare.ts';
import { thermometerDiagnostics } from '../melting/thermometer.ts';
import { azeotropesOf } from './azeotrope.ts';
import { NORMAL_KPA, associationOf, toKPa } from './pressure.ts';
import type { BoilingEntered } from './schema.ts';
import type { Boiling, Expected } from './boiling-at.ts';
import {
  LEAST_KPA,
  MOST_KPA,
  boilingOf,
  distanceTo,
  expectedBoiling,
  kPaText,
  uOf,
} from './boiling-at.ts';

const LEAST_C = -100;
const MOST_C = 500;
/** A pure liquid distils over 1 to 2 °C, and over 5 °C is a mixture: common practice. */
const NARROW_C = 2;
const BROAD_C = 5;

function refused(entered: BoilingEntered): Diagnostic | undefined {
  const wrong = [entered.low_C, entered.high_C].find((t) => !(t >= LEAST_C && t <= MOST_C));
  if (wrong !== undefined)
    return implausible(
      'boiling-implausible',
      `A boiling range does not reach ${fixed(wrong, 1)} °C.`,
      `Look for a missing decimal point, or for kelvin or °F. Here ${LEAST_C} to ${MOST_C} °C can be.`,
    );
  const { pressure } = entered;
  const p_kPa = pressure === undefined ? NORMAL_KPA : toKPa(pressure.value, pressure.unit);
  if (!(p_kPa >= LEAST_KPA && p_kPa <= MOST_KPA))
    return implausible(
      'pressure-implausible',
      `A still does not work at ${fixed(p_kPa, 2)} kPa.`,
      'Look at the unit: an ordinary day has 101 kPa, 1013 mbar, 760 mmHg or 1 atm.',
    );
  return undefined;
}

function remarks({ low_C, high_C, pressure }: BoilingEntered): Diagnostic[] {
  const found: Diagnostic[] = [];
  if (low_C > high_C)
    found.push({
      code: 'range-reversed',
      severity: 'warning',
      message: `The range begins at ${degrees(low_C)} and ends lower, at ${degrees(high_C)}.`,
      hint: 'It is read the other way round. Enter the lower temperature first.',
    });
  if (pressure === undefined)
    found.push({
      code: 'pressure-not-given',
      severity: 'note',
      message: 'No pressure was written down; an ordinary day at sea level is assumed.',
      hint: 'Enter what the barometer shows, not reduced to sea level. High up a liquid boils several degrees lower.',
    });
  return found;
}

function identity(
  entered: BoilingEntered,
  boiling: Boiling,
  product: Subject,
  expected: Expected,
  fits: string,
): Statement {
  const u_C = uOf(boiling);
  const distance_C = distanceTo(expected.value_C, boiling);
  const agrees = Math.abs(distance_C) <= COVERAGE * u_C;
  const breadth_C = boiling.high.value - boiling.low.value;
  const { name } = product.substance;
  const broad = breadth_C > BROAD_C;
  // Who read no barometer may live on a mountain: there all liquids boil several degrees lower
  const high = entered.pressure === undefined && distance_C < 0;
  const rough = COVERAGE * u_C > 6 || broad;
  const away = degrees(Math.abs(distance_C));
  return {
    id: 'boiling-range',
    technique: 'boilingRange',
    about: 'identity',
    substance: name,
    what: entered.method === 'microscale' ? 'Boiling point, microscale' : 'Boiling range',
    measured: boiling.text,
    expected: withSource(
      `${degrees(expected.value_C)} at ${kPaText(expected.at_kPa)}`,
      expected.source,
    ),
    agreement: !agrees ? 'disagrees' : broad ? 'cannotTell' : 'agrees',
    weight: rough || (high && !agrees) ? 'weak' : 'moderate',
    says: agrees
      ? broad
        ? `The range holds the boiling point of ${name}, but is too wide to speak for it.`
        : `The sample boils where ${name} does.`
      : distance_C < 0
        ? `The sample boils ${away} below ${name}: another substance, a lower-boiling solvent in it, or a thermometer bulb above the side arm${high ? ', or a place high above the sea' : ''}.`
        : `The sample boils ${away} above ${name}: another substance, a higher-boiling one in it, or superheated vapour.`,
    limits: sentences(
      'Many liquids boil at the same temperature.',
      fits !== '' && `So does ${fits}.`,
      rough && `Here the comparison is only good to ±${degrees(COVERAGE * u_C)}.`,
      entered.method === 'microscale' &&
        'The inverted capillary errs by a degree or two either way.',
    ),
    derivation: [
      ...boiling.steps,
      {
        label: 'Literature against the range',
        formula: '|difference| ≤ 2·√(u² + u_literature²), u_literature = 1 °C/√3',
        value: `${fixed(distance_C, 1)} °C, allowed ±${degrees(COVERAGE * u_C)}`,
        source: 'GUM 5.1.2; spread of published values: common practice',
      },
    ],
  };
}

function purity(boiling: Boiling, name: string): Statement {
  const breadth_C = boiling.high.value - boiling.low.value;
  const narrow = breadth_C <= NARROW_C + 0.05;
  const broad = breadth_C > BROAD_C;
  return {
    id: 'boiling-purity',
    technique: 'boilingRange',
    about: 'purity',
    substance: name,
    what: 'Width of the boiling range',
    measured: `${degrees(breadth_C)} wide`,
    expected: '1 to 2 °C (common practice)',
    agreement: narrow ? 'agrees' : broad ? 'disagrees' : 'cannotTell',
    weight: 'weak',
    says: narrow
      ? 'The sample distilled within a narrow range.'
      : broad
        ? 'The sample distilled over a wide range: it was a mixture, or the heating was uneven.'
        : 'The range is a little wide for a pure liquid; it decides nothing.',
    limits:
      'An azeotrope boils as sharply as a pure liquid, and liquids of nearly the same boiling point come over together. What boils much higher stays in the flask.',
  };
}

function together(boiling: Boiling, subjects: Subjects): Statement[] {
  const margin_C = COVERAGE * uOf(boiling);
  return azeotropesOf(subjects)
    .filter(({ boiling_C }) => Math.abs(distanceTo(boiling_C, boiling)) <= margin_C)
    .slice(0, 4)
    .map((one): Statement => ({
      id: `boiling-azeotrope-${one.first}-${one.second}`,
      technique: 'boilingRange',
      about: 'contaminant',
      what: 'Azeotrope',
      measured: boiling.text,
      expected: withSource(degrees(one.boiling_C), one.source),
      agreement: 'cannotTell',
      weight: 'weak',
      says: `The azeotrope of ${one.first} and ${one.second} (${fixed(one.massPercentFirst, 1)} % ${one.first} by mass) boils there too.`,
      limits:
        'The temperature does not tell an azeotrope from a pure liquid. A density, a refractive index or a test for water does.',
    }));
}

/**
 * A boiling range judged: brought to the pressure of the literature value, compared with it, its
 * width, and the azeotropes that boil at the same temperature.
 */
export function judgeBoiling(entered: BoilingEntered, subjects: Subjects): Judged {
  const refusal = refused(entered);
  if (refusal !== undefined) return { statements: [], diagnostics: [refusal] };
  const high_C = Math.max(entered.low_C, entered.high_C);
  const diagnostics = [...remarks(entered), ...thermometerDiagnostics(entered.thermometer, high_C)];
  const { product, others } = subjects;
  const association =
    entered.hydrogenBonded === undefined
      ? product === undefined
        ? 'unknown'
        : associationOf(product.substance)
      : entered.hydrogenBonded
        ? 'hydrogenBonded'
        : 'plain';
  const expected = product && expectedBoiling(product);
  const normal = boilingOf(entered, NORMAL_KPA, association);
  const azeotropes = together(normal, subjects);
  if (product === undefined || expected === undefined) {
    const base = {
      id: 'boiling-range',
      technique: 'boilingRange',
      about: 'identity',
      what: 'Boiling range',
      measured: normal.text,
      derivation: normal.steps,
    } as const;
    const nothing = nothingExpected(base, product?.substance.name, 'boiling point');
    return { statements: [nothing, ...azeotropes], diagnostics };
  }
  const boiling = boilingOf(entered, expected.at_kPa, association);
  const fits = othersThatFit(others, (other) => {
    const theirs = expectedBoiling(other);
    if (theirs === undefined) return false;
    const there = boilingOf(entered, theirs.at_kPa, associationOf(other.substance));
    return Math.abs(distanceTo(theirs.value_C, there)) <= COVERAGE * uOf(there);
  });
  const single = entered.method === 'microscale' || entered.low_C === entered.high_C;
  return {
    statements: [
      identity(entered, boiling, product, expected, fits),
      ...(single ? [] : [purity(boiling, product.substance.name)]),
      ...azeotropes,
    ],
    diagnostics,
  };
}
