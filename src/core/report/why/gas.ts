import type { Enactment } from '../../enact/enactment.ts';
import { nameOf } from '../common/name.ts';
import { derivation, lineOf } from './derivation.ts';
import type { Derivation } from './derivation.ts';
import { postingsOf } from './postings.ts';

const CODATA = 'CODATA 2018: Tiesinga et al., Rev. Mod. Phys. 2021, 93, 025010 (from memory)';
const R_J_mol_K = 8.314462618;
const T_K = 293.15;
const p_kPa = 101.325;

/** V = n·R·T/p of a gas that leaves, over all steps, or in one. */
export function whyGas(
  enactment: Enactment,
  substance: string,
  step?: string,
): Derivation | undefined {
  const left = enactment.gases.filter(
    (gas) => gas.substance === substance && (step === undefined || gas.step === step),
  );
  if (left.length === 0) return undefined;
  const name = nameOf(enactment, substance);
  const volume_L = left.reduce((sum, gas) => sum + gas.volume_L, 0);
  const condition = 'where the gas is taken to be measured';
  return derivation({
    title: `Volume of ${name}`,
    formula: left.length > 1 ? 'V = Σ n · R · T / p' : 'V = n · R · T / p',
    lines: [
      ...left.map((gas) =>
        lineOf(
          'n',
          `${name} from the ${gas.vessel}, step ${gas.step}`,
          gas.amount_mmol,
          'mmol',
          'assumed',
        ),
      ),
      lineOf('R', 'gas constant', R_J_mol_K, 'J/(mol K)', 'table', CODATA),
      lineOf('T', `temperature ${condition}`, T_K, 'K', 'assumed'),
      lineOf('p', `pressure ${condition}`, p_kPa, 'kPa', 'assumed'),
    ],
    result: lineOf('V', `volume of ${name}`, volume_L * 1000, 'mL', 'assumed'),
    said: ['The gas is taken to be ideal, and to leave at once.'],
    postings: postingsOf(
      enactment,
      (posting) =>
        posting.substance === substance &&
        posting.to === 'air' &&
        left.some((gas) => gas.step === posting.step),
    ),
  });
}
