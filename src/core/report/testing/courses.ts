import * as f from '../../enact/fixture.ts';
import type { Experiment, MaterialUse } from '../../experiment/step.ts';
import { experiment, step } from '../../record/testing/toy.ts';
import { course } from './course.ts';
import type { Course } from './course.ts';

function use(id: string, name: string, ...amounts: string[]): MaterialUse {
  return { ...f.use(name, amounts), id };
}

/**
 * Sodium benzoate 1.44 g and 2 M hydrochloric acid: benzoic acid, in the beaker, filtered into the
 * dish and weighed there (step 4). `more` changes the document, `acid_mL` the acid.
 */
export function benzoicAcid(acid = '6.0 mL', more: Partial<Experiment> = {}): Course {
  const benzoate = use('1.1', 'sodium benzoate', '1.44 g');
  const water = use('1.2', 'water', '20 mL');
  const hydrochloric = use('2.1', '2 M hydrochloric acid', acid);
  const made = f.reaction('sodium benzoate + HCl -> benzoic acid + NaCl');
  const document = experiment(
    [made],
    [
      step('1', 'charge', { materials: [benzoate, water], into: 'beaker' }, 'Charge the beaker.'),
      step('2', 'add', { materials: [hydrochloric], into: 'beaker' }, 'Add the acid.'),
      step('3', 'filter', { on: 'beaker', into: 'dish' }, 'Filter; keep the solid.'),
      step('4', 'weigh', { on: 'dish' }, 'Weigh the dish.'),
    ],
    [f.substance('benzoic acid')],
    more,
  );
  return course(document, {
    '1': [f.charge(benzoate, 'beaker'), f.charge(water, 'beaker')],
    '2': [f.charge(hydrochloric, 'beaker'), f.stir('beaker'), f.react('beaker')],
    '3': [
      f.split('beaker', { rule: 'filter', keep: 'solid' }),
      f.pour('beaker', 'dish', 'solid'),
      f.discard('beaker', 'aqueous', 'liquid'),
    ],
    '4': [f.weigh('dish')],
  });
}

/**
 * Benzoic acid as above, weighed in the flask (step 4), then turned there into methyl benzoate and
 * weighed again in the same flask (step 6): two stages on one tare.
 */
export function twoStages(): Course {
  const benzoate = use('1.1', 'sodium benzoate', '1.44 g');
  const water = use('1.2', 'water', '20 mL');
  const hydrochloric = use('2.1', '2 M hydrochloric acid', '6.0 mL');
  const methanol = use('5.1', 'methanol', '10 mL');
  const document = experiment(
    [
      f.reaction('sodium benzoate + HCl -> benzoic acid + NaCl', { id: 'acid' }),
      f.reaction('benzoic acid + methanol -> methyl benzoate + water', { id: 'ester' }),
    ],
    [
      step('1', 'charge', { materials: [benzoate, water], into: 'beaker' }),
      step('2', 'add', { materials: [hydrochloric], into: 'beaker' }),
      step('3', 'filter', { on: 'beaker', into: 'flask' }),
      step('4', 'weigh', { on: 'flask' }),
      step('5', 'charge', { materials: [methanol], into: 'flask' }),
      step('6', 'weigh', { on: 'flask' }),
    ],
    [f.substance('methyl benzoate')],
  );
  return course(document, {
    '1': [f.charge(benzoate, 'beaker'), f.charge(water, 'beaker')],
    '2': [f.charge(hydrochloric, 'beaker'), f.stir('beaker'), f.react('beaker')],
    '3': [
      f.split('beaker', { rule: 'filter', keep: 'solid' }),
      f.pour('beaker', 'flask', 'solid'),
      f.discard('beaker', 'aqueous', 'liquid'),
    ],
    '4': [f.weigh('flask')],
    '5': [f.charge(methanol, 'flask'), f.reflux('flask'), f.react('flask')],
    '6': [f.weigh('flask')],
  });
}

/** Benzoic acid weighed in the dish at step 3, left to dry, and weighed there again at step 5. */
export function weighedTwice(): Course {
  const benzoate = use('1.1', 'sodium benzoate', '1.44 g');
  const hydrochloric = use('1.2', '2 M hydrochloric acid', '6.0 mL');
  const document = experiment(
    [f.reaction('sodium benzoate + HCl -> benzoic acid + NaCl')],
    [
      step('1', 'charge', { materials: [benzoate, hydrochloric], into: 'beaker' }),
      step('2', 'filter', { on: 'beaker', into: 'dish' }),
      step('3', 'weigh', { on: 'dish' }),
      step('4', 'airDry', { on: 'dish' }),
      step('4b', 'weigh', { on: 'dish' }),
    ],
    [f.substance('benzoic acid')],
  );
  return course(document, {
    '1': [
      f.charge(benzoate, 'beaker'),
      f.charge(hydrochloric, 'beaker'),
      f.stir('beaker'),
      f.react('beaker'),
    ],
    '2': [
      f.split('beaker', { rule: 'filter', keep: 'solid' }),
      f.pour('beaker', 'dish', 'solid'),
      f.discard('beaker', 'aqueous', 'liquid'),
    ],
    '3': [f.weigh('dish')],
    '4b': [f.weigh('dish')],
  });
}

/** Benzoic acid weighed crude (3), a fifth of it kept aside as a second crop (dish 2), and both weighed. */
export function crops(): Course {
  const benzoate = use('1.1', 'sodium benzoate', '1.44 g');
  const hydrochloric = use('1.2', '2 M hydrochloric acid', '6.0 mL');
  const document = experiment(
    [f.reaction('sodium benzoate + HCl -> benzoic acid + NaCl')],
    [
      step('1', 'charge', { materials: [benzoate, hydrochloric], into: 'beaker' }),
      step('2', 'filter', { on: 'beaker', into: 'dish' }),
      step('3', 'weigh', { on: 'dish' }),
      step('4', 'transfer', { on: 'dish', into: 'dish 1' }),
      step('5', 'weigh', { on: 'dish 1' }),
      step('6', 'weigh', { on: 'dish 2' }),
    ],
    [f.substance('benzoic acid')],
  );
  return course(document, {
    '1': [
      f.charge(benzoate, 'beaker'),
      f.charge(hydrochloric, 'beaker'),
      f.stir('beaker'),
      f.react('beaker'),
    ],
    '2': [
      f.split('beaker', { rule: 'filter', keep: 'solid' }),
      f.pour('beaker', 'dish', 'solid'),
      f.discard('beaker', 'aqueous', 'liquid'),
    ],
    '3': [f.weigh('dish')],
    '4': [f.pour('dish', 'dish 1', { kind: 'fraction', fraction: 0.8 }), f.pour('dish', 'dish 2')],
    '5': [f.weigh('dish 1')],
    '6': [f.weigh('dish 2')],
  });
}

/** Benzoic acid 1.00 g, dissolved as its salt, set free again, filtered off and weighed (step 4). */
export function gotBack(): Course {
  const acid = use('1.1', 'benzoic acid', '1.00 g');
  const alkali = use('1.2', '2 M sodium hydroxide', '5.0 mL');
  const hydrochloric = use('2.1', '2 M hydrochloric acid', '6.0 mL');
  const document = experiment(
    [
      f.reaction('benzoic acid + NaOH -> sodium benzoate + H2O', { id: 'salt' }),
      f.reaction('sodium benzoate + HCl -> benzoic acid + NaCl', { id: 'set free' }),
    ],
    [
      step('1', 'charge', { materials: [acid, alkali], into: 'beaker' }),
      step('2', 'add', { materials: [hydrochloric], into: 'beaker' }),
      step('3', 'filter', { on: 'beaker', into: 'dish' }),
      step('4', 'weigh', { on: 'dish' }),
    ],
    [f.substance('benzoic acid')],
  );
  return course(document, {
    '1': [
      f.charge(acid, 'beaker'),
      f.charge(alkali, 'beaker'),
      f.stir('beaker'),
      f.react('beaker'),
    ],
    '2': [f.charge(hydrochloric, 'beaker'), f.stir('beaker'), f.react('beaker')],
    '3': [
      f.split('beaker', { rule: 'filter', keep: 'solid' }),
      f.pour('beaker', 'dish', 'solid'),
      f.discard('beaker', 'aqueous', 'liquid'),
    ],
    '4': [f.weigh('dish')],
  });
}
