// @vitest-environment jsdom
import { cleanup, fireEvent, screen, within } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { judgeThinLayer } from '../../../../core/evidence/thin-layer/judge.ts';
import { openForm, subjectsFor, worth } from '../testing.tsx';
import { thinLayerForm } from './form.tsx';
import { laneChoices } from './lane-choice.ts';

afterEach(cleanup);

const KETONE = subjectsFor('4-methylcyclohexanone', {
  '4-methylcyclohexanol': 'startingMaterial',
  'acetic acid': 'reagent',
  'diethyl ether': 'solvent',
});
const START = 'startingMaterial:4-methylcyclohexanol';

const RULER = {
  eluent: 'hexane/ethyl acetate 4:1',
  start_mm: '10',
  front_mm: '60',
  way_uv254: true,
};

describe('with a ruler', () => {
  it('a plate is typed from the left to the right, and Rf stands beside each spot', () => {
    const form = openForm(thinLayerForm, KETONE, ',');
    form.type('Eluent', 'hexane/ethyl acetate 4:1');
    form.tick('permanganate dip');
    form.type('Start line', '10');
    form.type('Solvent front', '60');
    const addTo = (lane: string) =>
      fireEvent.click(
        within(screen.getByRole('group', { name: lane })).getByRole('button', {
          name: 'Add a spot',
        }),
      );
    addTo('Lane 1');
    form.type('Middle of the spot', '25,5', 'Lane 1');
    addTo('Lane 2');
    form.type('Middle of the spot', '35', 'Lane 2');
    form.type('Strength', 'strong', 'Lane 2');
    form.tick('It has a tail', 'Lane 2');
    const rfs = [...document.querySelectorAll('output')].map(({ textContent }) => textContent);
    expect(rfs[0]).toMatch(/^Rf 0,31\d ± 0,01\d$/);
    expect(rfs[1]).toMatch(/^Rf 0,50/);
    form.keep();
    expect(form.kept).toEqual([
      {
        technique: 'thinLayer',
        stationaryPhase: 'silica',
        eluent: 'hexane/ethyl acetate 4:1',
        measure: { by: 'ruler', start_mm: 10, front_mm: 60 },
        visualisations: ['permanganate'],
        lanes: [
          {
            kind: 'startingMaterial',
            substance: '4-methylcyclohexanol',
            spots: [{ position_mm: 25.5, seenBy: ['permanganate'] }],
          },
          {
            kind: 'product',
            spots: [
              { position_mm: 35, seenBy: ['permanganate'], intensity: 'strong', tailing: true },
            ],
          },
        ],
      },
    ]);
    expect(form.attached).toEqual([undefined]);
  });

  it('a plate with everything that may be known of it', () => {
    const entered = worth(
      thinLayerForm,
      {
        ...RULER,
        stationaryPhase: 'alumina',
        way_iodine: true,
        note: 'cut by hand',
        lanes: [
          { what: START, front_mm: '58.5', spots: [{ position_mm: '20', unseen_uv254: true }] },
          {
            what: 'both:4-methylcyclohexanol',
            spots: [{ position_mm: '20' }, { position_mm: '40' }],
          },
          {
            what: 'product',
            spots: [{ position_mm: '40', colour: 'brown', substance: '4-methylcyclohexanone' }, {}],
          },
          { what: 'authentic', spots: [] },
          { what: 'other', whatOther: 'mother liquor', spots: [{ position_mm: '12' }] },
          { what: 'other:acetic acid' },
        ],
      },
      KETONE,
    );
    expect(entered).toEqual({
      technique: 'thinLayer',
      stationaryPhase: 'alumina',
      eluent: RULER.eluent,
      measure: { by: 'ruler', start_mm: 10, front_mm: 60 },
      visualisations: ['uv254', 'iodine'],
      lanes: [
        {
          kind: 'startingMaterial',
          substance: '4-methylcyclohexanol',
          front_mm: 58.5,
          spots: [{ position_mm: 20, seenBy: ['iodine'] }],
        },
        {
          kind: 'coSpot',
          of: ['product', 'startingMaterial'],
          substance: '4-methylcyclohexanol',
          spots: [
            { position_mm: 20, seenBy: ['uv254', 'iodine'] },
            { position_mm: 40, seenBy: ['uv254', 'iodine'] },
          ],
        },
        {
          kind: 'product',
          spots: [
            {
              position_mm: 40,
              seenBy: ['uv254', 'iodine'],
              colour: 'brown',
              substance: '4-methylcyclohexanone',
            },
          ],
        },
        { kind: 'authentic', substance: '4-methylcyclohexanone', spots: [] },
        {
          kind: 'other',
          substance: 'mother liquor',
          spots: [{ position_mm: 12, seenBy: ['uv254', 'iodine'] }],
        },
        { kind: 'other', substance: 'acetic acid', spots: [] },
      ],
      note: 'cut by hand',
    });
    if (!('technique' in entered) || entered.technique !== 'thinLayer') throw new Error('no plate');
    expect(judgeThinLayer(entered as never, KETONE).statements.map(({ id }) => id)).toEqual([
      'spots',
      'starting-material-1',
    ]);
  });

  it.each([
    ['nothing typed', { lanes: [] }, ['eluent', 'front_mm', 'lanes', 'start_mm']],
    ['the front below the start line', { ...RULER, front_mm: '5' }, ['front_mm']],
    ['a place off the ruler', { ...RULER, start_mm: '-900' }, ['start_mm']],
    [
      'a spot with a strength and no place',
      { ...RULER, lanes: [{ what: 'product', spots: [{ intensity: 'faint' }] }] },
      ['lanes.0.spots.0.position_mm'],
    ],
    [
      'a word for a place',
      { ...RULER, lanes: [{ spots: [{ position_mm: 'high' }] }] },
      ['lanes.0.spots.0.position_mm'],
    ],
    [
      'nothing that showed the spots',
      { ...RULER, way_uv254: false, lanes: [{ spots: [{ position_mm: '30' }] }] },
      ['ways'],
    ],
    [
      'a spot that nothing shows',
      {
        ...RULER,
        way_iodine: true,
        lanes: [{ spots: [{ position_mm: '30', unseen_uv254: true, unseen_iodine: true }] }],
      },
      ['lanes.0.spots.0.seen'],
    ],
    [
      'a substance without its name',
      { ...RULER, lanes: [{ spots: [{ position_mm: '30', substance: '(other)' }] }] },
      ['lanes.0.spots.0.substanceOther'],
    ],
    ['too many lanes', { ...RULER, lanes: Array.from({ length: 21 }, () => ({})) }, ['lanes']],
    [
      'too many spots',
      { ...RULER, lanes: [{ spots: Array.from({ length: 21 }, () => ({ position_mm: '30' })) }] },
      ['lanes.0.spots'],
    ],
  ])('%s is said at its field', (_, draft, fields) => {
    expect(Object.keys(worth(thinLayerForm, draft, KETONE)).sort()).toEqual(fields);
  });

  it('what was typed stays when something is wrong, and the first wrong field takes the focus', async () => {
    const form = openForm(thinLayerForm, KETONE);
    form.type('Start line', '10');
    form.type('Solvent front', '5');
    form.keep();
    expect(form.kept).toEqual([]);
    expect(form.wrong('Solvent front')).toMatch(/above the start line/);
    expect(form.field('Start line').value).toBe('10');
    await new Promise((done) => requestAnimationFrame(done));
    expect(document.activeElement).toBe(form.field('Eluent'));
  });
});

describe('what is on a lane', () => {
  it('comes from the experiment, without solvents, and pairs of it', () => {
    expect(laneChoices(KETONE).map(({ value }) => value)).toEqual([
      'product',
      START,
      'authentic',
      'other:acetic acid',
      'other',
      'both:4-methylcyclohexanol',
      'bothKnown',
    ]);
  });

  it('is there without an experiment too', () => {
    const lanes = laneChoices({ others: [] }).map(({ lane }) => lane);
    expect(lanes).toContainEqual({ kind: 'startingMaterial' });
    expect(lanes).toContainEqual({ kind: 'coSpot', of: ['product', 'authentic'] });
  });
});
