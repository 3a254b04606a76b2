import type { AnyAmount } from '../../quantity/amount.ts';
import type { MaterialUse, Ref, Step } from '../step.ts';

/** What a step says, its wording and its places apart: for tests that two sentences mean the same. */
export function meaningOf(step: Step): unknown {
  const {
    materials,
    on,
    into,
    otherInto,
    time,
    over,
    temperature,
    until,
    leaves,
    manner,
    detail,
    ...rest
  } = step.slots;
  return {
    verb: step.verb,
    materials: (materials ?? []).map(useMeaning),
    on: (on ?? []).map(refMeaning),
    into: into?.toLowerCase(),
    otherInto: otherInto?.toLowerCase(),
    amounts: [time, over, temperature, until, leaves].map(
      (amount) => amount && amountMeaning(amount),
    ),
    manner: [...manner].sort(),
    detail: detail?.toLowerCase(),
    ...rest,
  };
}

export function amountMeaning(amount: AnyAmount): unknown {
  if (amount.kind === 'unquantified')
    return { kind: amount.kind, word: amount.word, sense: amount.sense };
  // How often a material is taken stands beside its amounts
  const { text: _text, assumed: _assumed, repeat: _repeat, ...rest } = amount;
  return rest;
}

function useMeaning({ name, material, amounts, repeat }: MaterialUse): unknown {
  return {
    name: name.toLowerCase(),
    substance: material?.substance.id,
    strength: material?.strength,
    purity: material?.purity_percent,
    density: material?.density_g_mL,
    amounts: amounts.map(amountMeaning),
    repeat,
  };
}

function refMeaning({ vessel, portion }: Ref): unknown {
  const meant =
    portion.kind === 'amount'
      ? { kind: portion.kind, amount: amountMeaning(portion.amount) }
      : portion;
  return { vessel: vessel.toLowerCase(), portion: meant };
}
