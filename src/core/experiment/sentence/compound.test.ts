import { describe, expect, it } from 'vitest';
import { readExperiment } from '../read.ts';
import type { Experiment } from '../step.ts';

/** Sentences as preparations are printed: passive, several deeds in one, what is acted on left out. */
function read(procedure: string): Experiment {
  return readExperiment(
    `# T\n\n## Reaction\nbenzoic acid + methanol -> methyl benzoate + water\n\n## Procedure\n${procedure}\n\n## Product\nmethyl benzoate\n`,
  );
}

const verbs = (experiment: Experiment): string =>
  experiment.steps.map((step) => step.verb).join(' ');
const BAD = ['words-not-understood', 'sentence-not-understood', 'material-unknown'];
const bad = (experiment: Experiment): string[] =>
  experiment.diagnostics.filter((each) => BAD.includes(each.code)).map((each) => each.message);

const PARTED: readonly (readonly [string, string])[] = [
  [
    'Benzoic acid (1.22 g) was dissolved in methanol (20 mL) and concentrated sulfuric acid (5 drops) was added.',
    'add add',
  ],
  ['Methanol 20 mL was added, and the mixture was heated under reflux for 1 h.', 'add reflux'],
  [
    'Add methanol 20 mL to the flask. It was cooled in ice and poured into water (50 mL).',
    'add cool transfer',
  ],
  [
    'Add methanol 20 mL to the flask. The mixture was stirred for 2 h, then poured into water (50 mL).',
    'add stir transfer',
  ],
  [
    'Add ether 20 mL to the flask. The solution was dried (MgSO4), filtered and concentrated under reduced pressure.',
    'add dry filter evaporate',
  ],
  [
    'Add methanol 20 mL to the flask. The flask was allowed to cool to room temperature and left overnight.',
    'add cool hold',
  ],
  ['Add water 20 mL to the flask. Stirring was continued for 1 h.', 'add stir'],
  [
    'Add water 20 mL to the flask. The solid was filtered off, washed with water (2 × 5 mL), dried in air and weighed.',
    'add filter washSolid airDry weigh',
  ],
  [
    'Add water 20 mL to the flask. The crystals were collected by suction, rinsed with cold ethanol (5 mL) and dried.',
    'add filter washSolid airDry',
  ],
  [
    'Add water 20 mL to the flask. After stirring for 2 h at 50 °C, the mixture was filtered.',
    'add stir filter',
  ],
  ['I added 20 mL of methanol to a beaker and mixed well.', 'add stir'],
  ['With good stirring, methanol (20 mL) was added, the flask being cooled in ice.', 'add cool'],
  ['To prepare the ester, benzoic acid (1.22 g) was placed in a 100 mL flask.', 'charge'],
  [
    'A 250-mL, two-necked, round-bottomed flask equipped with a stir bar and a condenser is charged with methanol (20 mL).',
    'charge',
  ],
  [
    'A mixture of 12.2 g (0.100 mol) of benzoic acid, 40 mL of methanol and 3 g of concentrated sulfuric acid was heated at reflux for 1 h in a 100 mL flask.',
    'add',
  ],
  [
    'Add water 20 mL to the funnel. The lower layer was drawn off and discarded.',
    'add separate discard',
  ],
  [
    'Add water 20 mL to the flask. The flask was swirled until the solid had dissolved and was then cooled in ice.',
    'add stir cool',
  ],
];

describe('a sentence of several deeds', () => {
  it.each(PARTED)('%s', (procedure, expected) => {
    const experiment = read(procedure);
    expect(bad(experiment)).toEqual([]);
    expect(verbs(experiment)).toBe(expected);
  });

  it('keeps a list of materials whole, however long', () => {
    const experiment = read(
      'Benzoic acid (1.22 g, 10.0 mmol, 1.00 equiv), methanol (10 mL, 247 mmol), toluene (5 mL), concentrated sulfuric acid (5 drops), and sodium chloride (0.5 g) were added to a 50 mL flask.',
    );
    expect(bad(experiment)).toEqual([]);
    expect(experiment.steps.map((step) => step.slots.materials?.length)).toEqual([5]);
  });

  it('counts what is done twice twice, unless the amounts say so', () => {
    const repeats = (text: string) =>
      read(`Add ether 20 mL to the funnel. ${text}`)
        .steps.at(-1)!
        .slots.materials!.map((use) => use.repeat);
    expect(repeats('Wash the organic layer twice with water (10 mL).')).toEqual([2]);
    expect(
      repeats('The organic layer was washed three times with water (10 mL) and brine (5 mL).'),
    ).toEqual([3, 1]);
    expect(repeats('The organic layer was washed with two 10-mL portions of water.')).toEqual([2]);
    expect(repeats('The organic layer was washed with two portions of water (10 mL).')).toEqual([
      2,
    ]);
    expect(
      repeats('The organic layer was washed with a further two portions of water (2 × 10 mL).'),
    ).toEqual([2]);
  });

  it('combines what is said to be combined', () => {
    const experiment = read(
      'Add water 20 mL and ether 20 mL to the funnel. The ether layer was separated and the aqueous layer was extracted with ether (2 × 10 mL). The combined ether layers were washed with brine (10 mL).',
    );
    expect(verbs(experiment)).toBe('add separate extract combine washLayer');
  });

  it('looks for no verb in what is seen', () => {
    const experiment = read(
      'Add water 20 mL to the flask, and a white precipitate forms. In about 2 minutes a yellow cloud appeared.',
    );
    expect(verbs(experiment)).toBe('add');
    expect(bad(experiment)).toEqual([]);
    expect(experiment.notes.map((note) => note.text)).toHaveLength(2);
  });

  it('reads the part of a sentence that it can, and says which it cannot', () => {
    const experiment = read(
      'Add water 20 mL to the flask. The mixture was cooled in ice and frobnicated with vim.',
    );
    expect(verbs(experiment)).toContain('cool');
    expect(bad(experiment)).toHaveLength(1);
  });
});
