import { canHold } from './context.ts';
import { at, evidenceOf, shareText } from './evidence.ts';
import { maximaWithin, mostProminent } from './maxima.ts';
import type { BandEvidence } from './group-judgement.ts';
import type { Finding } from './finding.ts';
import type { Readings } from './readings.ts';
import { sharesOf } from './readings.ts';
import { isChelate, isEnol, isPhenolicAmide, isSalicylic } from './signatures.ts';
import { moved } from './weigh.ts';
import { meanHeight, uAt } from './view.ts';
import type { XhCause } from './xh-condensed.ts';

const HYDROXYL: readonly XhCause[] = [
  'alcohol',
  'phenol',
  'crystalHydroxyl',
  'hiddenHydroxyl',
  'hydroxylAndNh',
  'hydroxylAndAcid',
];

const NH: readonly XhCause[] = [
  'alkylNh2',
  'arylNh2',
  'alkylNh',
  'arylNh',
  'pyrroleNh',
  'imideNh',
  'conjugatedNh',
  'amideNh',
  'amideNh2',
  'azole',
  'ammonium',
  'hydroxylAndNh',
  'acidAndNh',
];

/** What each cause is called in a sentence. */
const CAUSE_WORDS: Readonly<Record<XhCause, string>> = {
  nothing: 'no X–H bond',
  alcohol: 'an alcohol O–H',
  phenol: 'a phenol O–H',
  crystalHydroxyl: 'an O–H that bonds little in the crystal',
  hiddenHydroxyl: 'an O–H bonded inside the molecule',
  hydroxylAndNh: 'O–H and N–H together',
  hydroxylAndAcid: 'an O–H beside a carboxylic acid',
  acid: 'a carboxylic acid',
  acidAndNh: 'an N–H beside a carboxylic acid',
  alkylNh2: 'an alkyl NH₂',
  arylNh2: 'an aryl NH₂',
  alkylNh: 'the N–H of an alkyl amine',
  arylNh: 'the N–H of an aryl amine',
  pyrroleNh: 'the N–H of a pyrrole or indole',
  imideNh: 'the N–H of an imide',
  conjugatedNh: 'the N–H of a urea, hydrazide or amidine',
  amideNh: 'the N–H of an amide',
  amideNh2: 'the NH₂ of an amide',
  azole: 'the N–H of a ring',
  ammonium: 'an ammonium salt',
  water: 'water',
  muchWater: 'water',
  overtone: 'the overtone of the C=O',
  alkyne: 'the C–H of a terminal alkyne',
};

/** An alcohol's or a phenol's O–H; that of an acid is not counted. */
export function hydroxyl(readings: Readings): Finding {
  const { context, xh, gas } = readings;
  if (gas !== undefined) return gasHydroxyl(readings);
  let probability = sharesOf(readings.causes, HYDROXYL);
  const evidence: BandEvidence[] = [];
  const reasons: string[] = [];
  if (xh.main !== undefined && xh.share > 0.02) {
    evidence.push(evidenceOf(context, 'maximum of the O–H and N–H window', xh.main));
    reasons.push(mainSentence(readings));
  } else reasons.push('Nothing stands out between 3100 and 3570 cm⁻¹.');
  if (ridesOnHydroxyl(readings)) {
    probability = Math.max(probability, canHold(context, 'N') ? 0.5 : 0.85);
    reasons.push(
      'Beside the narrow band the curve stays up to 3450 cm⁻¹: a broad band of bonded O–H lies under it.',
    );
  }
  if (xh.free !== undefined) {
    const share = xh.free.height / context.view.tallest;
    const firm = xh.free.prominence > 6 * context.view.noise;
    if (firm && share > 0.02) {
      evidence.push(evidenceOf(context, 'O–H stretch, not bonded', xh.free));
      reasons.push(
        `A narrow band at ${at(xh.free.position_percm)} is where an unbonded O–H absorbs.`,
      );
      probability = moved(probability, freeRatio(readings, share));
    }
  } else if (context.state === 'solution') probability = moved(probability, 0.6);
  if (probability > 0.5 && xh.carbonOxygen === 'low' && xh.free === undefined)
    return {
      probability: Math.min(probability, 0.64),
      evidence,
      reasons: [
        ...reasons,
        'An alcohol would show a strong C–O between 1000 and 1260 cm⁻¹, which is missing: this may be water.',
      ],
    };
  if (probability < HIDDEN && isHidden(readings))
    return {
      probability: HIDDEN,
      evidence,
      reasons,
      hidden:
        'The low double bond near 1620 fits an O–H bonded to it inside the molecule: such an O–H has a faint band from 2500 to 3300 cm⁻¹, or none.',
    };
  const unclear = unclearReason(readings);
  if (unclear !== undefined)
    return {
      probability: Math.min(0.5, Math.max(probability, HIDDEN)),
      evidence,
      reasons,
      hidden: unclear,
    };
  const [first] = [...readings.causes].sort((a, b) => b[1] - a[1]);
  const other = first !== undefined && first[0] !== 'nothing' && !HYDROXYL.includes(first[0]);
  return { probability, evidence, reasons, ...(other && { rather: CAUSE_WORDS[first[0]] }) };
}

/** What is left of an O–H where its band would not show. */
const HIDDEN = 0.35;

/** Double bonds as a chelate, an enol or a salicylic acid has, and no band of a bonded O–H. */
function isHidden({ context, xh }: Readings): boolean {
  if (isSalicylic(context)) return true;
  if (xh.share < 0.15) return isChelate(context) || isEnol(context);
  // Above 3480 stands an O–H or N–H that is not the chelated one.
  const high = xh.main !== undefined && xh.main.position_percm > 3480;
  return high && xh.share < 0.5 && isChelate(context, 1622);
}

/** Two groups at one place, of which the trace does not tell whether both are there. */
function unclearReason({ context, xh }: Readings): string | undefined {
  const { main, shelf, share } = xh;
  const isMoist =
    context.state === 'disc' &&
    main !== undefined &&
    main.position_percm > 3380 &&
    main.position_percm < 3470 &&
    main.width_percm > 90;
  // Where the tallest bands are cut off, every other comes nearer to them.
  const { isClipped } = context.view;
  if (isMoist && shelf > 0.06 && share < (isClipped ? 0.9 : 0.6))
    return 'On the wide band of the acid, moisture of the disc looks like an O–H.';
  if (isPhenolicAmide(context))
    return 'Beside the N–H of an amide the wide O–H of a phenol does not stand apart.';
  return undefined;
}

/** The narrow band of ≡C–H on top of the broad one of an O–H, with a C–O. */
function ridesOnHydroxyl({ context: { view }, xh }: Readings): boolean {
  const { main } = xh;
  if (main === undefined || main.width_percm > 90 || xh.carbonOxygen === 'low') return false;
  const isNear3300 = main.position_percm > 3272 && main.position_percm < 3328;
  return isNear3300 && meanHeight(view, 3380, 3450) > 0.12 * view.tallest;
}

/** How much more often a narrow band at 3572–3680 comes with an O–H than without one. */
function freeRatio({ context, xh }: Readings, share: number): number {
  const solution = context.state === 'solution';
  // Nothing else gives a narrow band of that height: the O–H of a hindered phenol or alcohol.
  const hindered = share > 0.25 && (xh.free?.width_percm ?? 99) < 45;
  if (hindered) return 400;
  if (share > 0.2) return 50;
  if (share > 0.1) return solution ? 20 : 12;
  const trace = (xh.free?.position_percm ?? 0) > 3665 ? 0.4 : 1;
  // In a film a trace of water in the beam or the sample gives as much.
  if (!solution && share < 0.05) return 1;
  return trace * (solution ? 6 : 2.5);
}

function mainSentence({ xh, causes }: Readings): string {
  const main = xh.main!;
  const named = [...causes].sort((a, b) => b[1] - a[1]).slice(0, 2);
  const words = named
    .filter(([, share]) => share > 0.12)
    .map(([cause, share]) => `${CAUSE_WORDS[cause]} (${Math.round(share * 100)} %)`);
  return (
    `A band at ${at(main.position_percm)}, ${Math.round(main.width_percm)} cm⁻¹ wide, ` +
    `${shareText(xh.share)}, fits ${words.join(' or ')}.`
  );
}

function gasHydroxyl({ context, gas }: Readings): Finding {
  const band = gas!.band;
  const probability = sharesOf(gas!.causes, [
    'hydroxyl',
    'bondedHydroxyl',
    'ketoneHydroxyl',
    'chelate',
  ]);
  if (band === undefined)
    return {
      probability,
      evidence: [],
      reasons: ['No narrow band stands between 3550 and 3700 cm⁻¹, where a vapour shows its O–H.'],
    };
  return {
    probability,
    evidence: [evidenceOf(context, 'maximum of the O–H and N–H window', band)],
    reasons: [
      `In the vapour an O–H is narrow and weak; here the band is at ${at(band.position_percm)}, ` +
        `${shareText(band.height / context.view.tallest)}.`,
    ],
  };
}

export function nh(readings: Readings): Finding {
  const { context, xh, gas } = readings;
  const band = gas === undefined ? xh.main : gas.band;
  const probability =
    gas === undefined
      ? sharesOf(readings.causes, NH)
      : sharesOf(gas.causes, ['amineNh', 'arylNh', 'amideNh', 'azoleNh']);
  return {
    probability,
    evidence:
      band === undefined ? [] : [evidenceOf(context, 'maximum of the O–H and N–H window', band)],
    reasons:
      band === undefined
        ? ['Nothing stands out where an N–H would absorb.']
        : [
            gas === undefined
              ? mainSentence(readings)
              : `The band is at ${at(band.position_percm)}.`,
          ],
  };
}

/** ≡C–H: narrow, near 3300, also on top of an O–H; C≡C near 2120 beside it, if it shows. */
export function terminalAlkyne({ context, causes, gas }: Readings): Finding {
  const { view, maxima } = context;
  const [low, high] = context.state === 'gas' ? [3312, 3345] : [3272, 3328];
  const spread = uAt(view, 3300);
  const band = mostProminent(
    maximaWithin(maxima, low - spread, high + spread).filter(
      ({ width_percm, prominence }) => width_percm < 75 && prominence > 0.08 * view.tallest,
    ),
  );
  const triple = maximaWithin(maxima, 2095, 2150).some(
    ({ width_percm, prominence }) => width_percm < 40 && prominence > 0.008 * view.tallest,
  );
  const named = (gas === undefined ? causes.get('alkyne') : gas.causes.get('alkyne')) ?? 0;
  // An N–H is as narrow; without nitrogen little else is.
  const narrow = canHold(context, 'N') ? 6 : 25;
  const direct = band === undefined ? 0.002 : moved(moved(0.02, narrow), triple ? 14 : 0.6);
  return {
    probability: Math.max(band === undefined ? 0 : named, direct),
    evidence: band === undefined ? [] : [evidenceOf(context, '≡C–H stretch', band)],
    reasons: [
      band === undefined
        ? 'No narrow band stands near 3300 cm⁻¹.'
        : `A narrow band at ${at(band.position_percm)} is where a terminal alkyne absorbs.` +
          (triple ? ' A C≡C stands near 2120 cm⁻¹.' : ''),
    ],
  };
}
