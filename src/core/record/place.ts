import type { Experiment, MaterialUse, Step } from '../experiment/step.ts';
import type { BenchEntry } from './entry.ts';
import { nearNames, plainName } from './near.ts';

interface PlacedUse {
  readonly use: MaterialUse;
  readonly step: Step;
  readonly names: readonly string[];
}

/** What a record can name in an experiment. Built once for each experiment. */
export interface Places {
  readonly steps: ReadonlyMap<string, Step>;
  readonly uses: ReadonlyMap<string, PlacedUse>;
  /** By step, and for a number without a letter by all the sentences of that item. */
  readonly usesByStep: ReadonlyMap<string, readonly PlacedUse[]>;
  readonly usesByName: ReadonlyMap<string, readonly PlacedUse[]>;
  readonly vessels: ReadonlyMap<string, string>;
  /** The vessel that a step weighs or works on. */
  readonly vesselOfStep: ReadonlyMap<string, string>;
  /** Steps that weigh a vessel, in order. */
  readonly weighings: ReadonlyMap<string, readonly string[]>;
  /** The steps that weigh among the sentences of one item: "19b" for "19". */
  readonly weighingSteps: ReadonlyMap<string, readonly string[]>;
}

export type Placed<T> =
  | { readonly kind: 'found'; readonly value: T }
  | { readonly kind: 'none' }
  | { readonly kind: 'lost'; readonly message: string; readonly hint: string };

const KNOWN = new WeakMap<Experiment, Places>();

export function placesOf(experiment: Experiment): Places {
  let places = KNOWN.get(experiment);
  if (places === undefined) {
    places = findPlaces(experiment);
    KNOWN.set(experiment, places);
  }
  return places;
}

function findPlaces(experiment: Experiment): Places {
  const steps = new Map<string, Step>();
  const uses = new Map<string, PlacedUse>();
  const usesByStep = new Map<string, PlacedUse[]>();
  const usesByName = new Map<string, PlacedUse[]>();
  const vessels = new Map<string, string>();
  const vesselOfStep = new Map<string, string>();
  const weighings = new Map<string, string[]>();
  const weighingSteps = new Map<string, string[]>();
  for (const vessel of experiment.vessels) {
    vessels.set(plainName(vessel.name), vessel.id);
    vessels.set(plainName(vessel.id), vessel.id);
  }
  for (const step of experiment.steps) {
    steps.set(step.id.toLowerCase(), step);
    for (const use of step.slots.materials ?? []) {
      const placed = { use, step, names: namesOf(use) };
      uses.set(use.id.toLowerCase(), placed);
      push(usesByStep, step.id, placed);
      if (itemOf(step.id) !== step.id) push(usesByStep, itemOf(step.id), placed);
      for (const name of placed.names) push(usesByName, name, placed);
    }
    const worked = step.slots.on ?? [];
    const vessel = worked.length === 1 ? worked[0]!.vessel : undefined;
    if (vessel === undefined) continue;
    vesselOfStep.set(step.id, vessel);
    vessels.set(plainName(vessel), vessels.get(plainName(vessel)) ?? vessel);
    if (step.verb !== 'weigh') continue;
    push(weighings, vessel, step.id);
    push(weighingSteps, itemOf(step.id), step.id);
  }
  return { steps, uses, usesByStep, usesByName, vessels, vesselOfStep, weighings, weighingSteps };
}

/** The number of a step without the letter of its sentence: on paper only the number stands. */
export function itemOf(step: string): string {
  return step.replace(/(\d)[a-z]+$/, '$1');
}

function push<T>(map: Map<string, T[]>, key: string, value: T): void {
  const list = map.get(key);
  if (list === undefined) map.set(key, [value]);
  else list.push(value);
}

function namesOf(use: MaterialUse): string[] {
  const { material } = use;
  const names = [use.name];
  if (material !== undefined) {
    names.push(material.name);
    const pure = material.strength === undefined && material.solvent === undefined;
    if (pure) names.push(material.substance.name, ...material.substance.synonyms);
  }
  return [...new Set(names.map(plainName))];
}

/** "3", "3b", "step 3", "3." */
export function placeStep(places: Places, entry: BenchEntry): Placed<Step> {
  if (entry.step === undefined || entry.step.trim() === '') return { kind: 'none' };
  const wanted = plainName(entry.step).replace(/^step\s*/, '');
  const step = places.steps.get(wanted);
  if (step !== undefined) return { kind: 'found', value: step };
  const near = nearNames(wanted, [...places.steps.keys()]);
  return {
    kind: 'lost',
    message: `There is no step "${entry.step}" in this experiment.`,
    hint: near.length > 0 ? `Perhaps ${either(near)}.` : `Its steps are ${span(places)}.`,
  };
}

function span(places: Places): string {
  const ids = [...places.steps.keys()];
  return ids.length === 0 ? 'none' : `${ids[0]!} to ${ids.at(-1)!}`;
}

function either(names: readonly string[]): string {
  return names.map((name) => `"${name}"`).join(' or ');
}

/** The use that an entry names by id, or by step and material, or by a name that occurs once. */
export function placeUse(places: Places, entry: BenchEntry, step?: Step): Placed<PlacedUse> {
  if (entry.use !== undefined) {
    const found = places.uses.get(plainName(entry.use));
    if (found !== undefined) return { kind: 'found', value: found };
    const near = nearNames(entry.use, [...places.uses.keys()]);
    const hint = near.length > 0 ? `Perhaps ${either(near)}.` : 'Name its step and material.';
    return { kind: 'lost', message: `There is no use "${entry.use}" of a material.`, hint };
  }
  const name = plainName(entry.item ?? '');
  const here = step === undefined ? undefined : (places.usesByStep.get(step.id) ?? []);
  if (name === '') return unnamed(entry, here, step);
  const named = places.usesByName.get(name) ?? [];
  const fitting = here === undefined ? named : here.filter((each) => each.names.includes(name));
  if (fitting.length === 1) return { kind: 'found', value: fitting[0]! };
  return fitting.length === 0
    ? noSuchItem(places, entry, named, here, step)
    : severalItems(entry, fitting, step);
}

function unnamed(
  entry: BenchEntry,
  here: readonly PlacedUse[] | undefined,
  step?: Step,
): Placed<PlacedUse> {
  if (entry.kind !== 'charge' && entry.kind !== 'lot') return { kind: 'none' };
  if (here?.length === 1) return { kind: 'found', value: here[0]! };
  const about = step === undefined ? 'names no material' : `names no material of step ${step.id}`;
  const names = [...new Set((here ?? []).map((each) => each.use.name))];
  const hint = names.length > 0 ? `Say which: ${either(names)}.` : 'Say which material it was.';
  return { kind: 'lost', message: `This ${entry.kind} ${about}.`, hint };
}

function noSuchItem(
  places: Places,
  entry: BenchEntry,
  named: readonly PlacedUse[],
  here: readonly PlacedUse[] | undefined,
  step?: Step,
): Placed<PlacedUse> {
  const where = step === undefined ? 'in this experiment' : `in step ${step.id}`;
  const message = `No "${entry.item}" is taken ${where}.`;
  if (named.length > 0) {
    const steps = [...new Set(named.map((each) => each.step.id))];
    return { kind: 'lost', message, hint: `It is taken in step ${steps.join(', ')}.` };
  }
  const local = (here ?? []).map((each) => each.use.name);
  const all = [...places.uses.values()].map((each) => each.use.name);
  const near = nearNames(entry.item!, local);
  const names = near.length > 0 ? near : nearNames(entry.item!, all);
  if (names.length > 0) return { kind: 'lost', message, hint: `Perhaps ${either(names)}.` };
  const hint = local.length > 0 ? `That step takes ${either(local)}.` : 'Look up its name there.';
  return { kind: 'lost', message, hint };
}

function severalItems(
  entry: BenchEntry,
  fitting: readonly PlacedUse[],
  step?: Step,
): Placed<PlacedUse> {
  if (step !== undefined) {
    const ids = fitting.map((each) => each.use.id);
    const message = `"${entry.item}" is taken more than once in step ${step.id}.`;
    return { kind: 'lost', message, hint: `Say which by its use: ${either(ids)}.` };
  }
  const steps = [...new Set(fitting.map((each) => each.step.id))];
  const message = `"${entry.item}" is taken more than once.`;
  return { kind: 'lost', message, hint: `Say in which step: ${steps.join(', ')}.` };
}

/** A vessel by its name, with or without "the". */
export function placeVessel(places: Places, entry: BenchEntry): Placed<string> {
  if (entry.vessel === undefined || entry.vessel.trim() === '') return { kind: 'none' };
  const wanted = plainName(entry.vessel).replace(/^the /, '');
  const vessel = places.vessels.get(wanted);
  if (vessel !== undefined) return { kind: 'found', value: vessel };
  const near = nearNames(wanted, [...places.vessels.keys()]);
  const names = near.length > 0 ? near : [...new Set(places.vessels.values())].slice(0, 8);
  const hint = names.length === 0 ? 'It has no vessels yet.' : `Perhaps ${either(names)}.`;
  return {
    kind: 'lost',
    message: `There is no vessel "${entry.vessel}" in this experiment.`,
    hint,
  };
}
