import type { Move } from '../experiment/move.ts';
import type { PlannedUse } from './charge.ts';
import { measuredUse } from './charge.ts';
import type { Charge } from './enactment.ts';
import type { Run, Writable } from './run.ts';
import { ASSUMED, BASES, post, say, vesselOf } from './run.ts';
import { checkWaterIntoAcid } from './checks/acid.ts';
import { loosen } from './transfer.ts';
import type { Supply, Vessel } from './vessel.ts';
import { isLiquid } from './shelf.ts';

type StockMove = Extract<Move, { kind: 'move'; from: 'stock' }>;

/** Takes a material from the stock: once, or one of the times that its sentence asks for. */
export function takeFromStock(run: Run, move: StockMove): void {
  const planned = run.compiled.uses.get(move.use.id);
  const v = move.to.kind === 'vessel' ? vesselOf(run, move.to.vessel) : undefined;
  if (planned === undefined) {
    // The reader has said that the name is not known; what is in the vessel is now not wholly known.
    if (v !== undefined) v.unknown = true;
    return;
  }
  const taken = actualOf(run, planned);
  const share = move.turn === undefined ? 1 : 1 / taken.takings;
  const first = !run.charges.has(move.use.id);
  if (first) record(run, taken, move);
  if (v !== undefined) v.touchedInLine = run.lineNumber;
  if (taken.standing !== 'no' && v !== undefined) addSupply(run, v, taken);
  if (taken.uncounted !== undefined && v !== undefined) v.unknown = true;
  if (taken.mass_g <= 0) return;
  if (v !== undefined && first) checkWaterIntoAcid(run, v, taken);
  const basis = BASES.indexOf(taken.basis);
  const to = move.to;
  for (const part of taken.components) {
    const { substance } = part;
    const quantity = part.quantity * share;
    if (quantity <= 0) continue;
    run.charged[substance]! += quantity;
    if (v !== undefined) v.incoming.push({ from: taken.account, substance, quantity, basis });
    else
      post(
        run,
        taken.account,
        to.kind === 'waste' ? `waste/${to.stream}` : 'air',
        substance,
        quantity,
        basis,
      );
  }
  if (v !== undefined) arrive(run, v, taken, move.asGas === true);
  if (run.policy.trace) {
    const volume = taken.volume_mL === undefined ? {} : { volume_mL: taken.volume_mL * share };
    run.passages.push({
      step: run.line.stepId,
      from: 'stock',
      to: v?.plan.id ?? (to.kind === 'waste' ? `waste/${to.stream}` : 'air'),
      label: taken.use.name,
      mass_g: taken.mass_g * share,
      ...volume,
      basis: taken.basis,
      ...(move.asGas === true && { gas: true }),
    });
  }
}

/** The use as the bench took it, or as it is planned. */
function actualOf(run: Run, planned: PlannedUse): PlannedUse {
  const actual = run.actuals?.charges.get(planned.use.id);
  if (actual === undefined) return planned;
  const measured = measuredUse(run.compiled.shelf, planned, actual);
  if (measured !== undefined) return measured;
  say(
    run,
    'record-unusable',
    'warning',
    `What was recorded for ${planned.use.name} cannot be turned into a mass: the plan is counted.`,
    'Record a mass, or give the material a density under Substances.',
  );
  return planned;
}

function record(run: Run, taken: PlannedUse, move: StockMove): void {
  for (const diagnostic of taken.diagnostics) run.diagnostics.push(diagnostic);
  const charge: Writable<Charge> = {
    step: run.line.stepId,
    use: taken.use.id,
    name: taken.use.name,
    material: taken.material,
    vessel:
      move.to.kind === 'vessel'
        ? move.to.vessel
        : move.to.kind === 'waste'
          ? move.to.stream
          : 'air',
    repeat: taken.takings,
    mass_g: taken.mass_g,
    measuredAs: taken.measuredAs,
    basis: taken.basis,
    assumed: taken.assumed,
  };
  if (taken.lastDigit !== undefined) charge.lastDigit = taken.lastDigit;
  if (taken.volume_mL !== undefined) charge.volume_mL = taken.volume_mL;
  if (taken.amount_mmol !== undefined) charge.amount_mmol = taken.amount_mmol;
  run.charges.set(taken.use.id, charge);
  if (taken.uncounted !== undefined)
    run.unquantified.push({ step: run.line.stepId, name: taken.use.name, text: taken.uncounted });
}

function addSupply(run: Run, v: Vessel, taken: PlannedUse): void {
  if (v.supplies.some((supply) => supply.planned === taken)) return;
  const supply: Supply = {
    planned: taken,
    substance: taken.substance,
    sideLine: run.lineNumber,
  };
  v.supplies.push(supply);
  clearRan(run, v, taken.substance);
}

/** A reactant has come: the reactions that use it may run again. */
export function clearRan(run: Run, v: Vessel, substance: number): void {
  run.compiled.declared.forEach((reaction, n) => {
    if (v.ran[n] && reaction.reactants.some((side) => side.substance === substance)) v.ran[n] = 0;
  });
}

function arrive(run: Run, v: Vessel, taken: PlannedUse, asGas: boolean): void {
  const { shelf, declared } = run.compiled;
  v.closed = false;
  v.dirty = true;
  v.everHeld = true;
  const solid = /\b(?:dry ice|solid)\b/i.test(taken.use.name);
  let liquid = false;
  let water = false;
  for (const { substance } of taken.components) {
    clearRan(run, v, substance);
    liquid ||= isLiquid(shelf, substance, v.temperature_C);
    water ||= shelf.hint[substance] === 'water';
    const wanted = declared.some((r) => r.reactants.some((side) => side.substance === substance));
    // Bubbled in, or as dry ice: it stays for the reaction that it is brought for
    if ((asGas || solid) && shelf.gaseous[substance] && wanted) v.gasWaits[substance] = 1;
  }
  if (liquid) loosen(run, v, water);
}

/**
 * Brings in as much of a standing supply as makes up a shortage of its own substance, with what
 * else the material holds.
 */
export function drawSupply(run: Run, v: Vessel, supply: Supply, shortage: number): void {
  const { planned, substance } = supply;
  const { shelf } = run.compiled;
  const parts = planned.material.composition;
  const own = parts.find((part) => part.substance.id === planned.material.substance.id);
  const mass_g = (shortage * shelf.g[substance]!) / (own?.massFraction || 1);
  const alone = [{ substance: planned.material.substance, massFraction: 1 }];
  for (const part of parts.length > 0 ? parts : alone) {
    const i = shelf.byId.get(part.substance.id);
    if (i === undefined) continue;
    const quantity = (mass_g * part.massFraction) / (shelf.g[i]! || 1);
    run.charged[i]! += quantity;
    if (shelf.gaseous[i]) v.gasWaits[i] = 1;
    v.incoming.push({ from: planned.account, substance: i, quantity, basis: ASSUMED });
  }
  v.dirty = true;
  v.everHeld = true;
  const charge = run.charges.get(planned.use.id);
  if (charge !== undefined) {
    charge.mass_g += mass_g;
    if (shelf.counted[substance]) charge.amount_mmol = (charge.amount_mmol ?? 0) + shortage;
    const density = planned.material.density_g_mL;
    if (density !== undefined) charge.volume_mL = charge.mass_g / density;
    charge.basis = 'assumed';
  }
  if (run.policy.trace)
    run.passages.push({
      step: run.line.stepId,
      from: 'stock',
      to: v.plan.id,
      label: planned.use.name,
      mass_g,
      basis: 'assumed',
    });
}
