import { describe, expect, it } from 'vitest';
import { exampleFolders, openExample } from '../../../../test/example-folder.ts';
import { duration_min } from '../../enact/trace.ts';
import { benzoicAcid } from '../testing/courses.ts';
import { planAnswer } from './answer.ts';
import { aboutHowLong, durationSentences, saysHowLong } from './duration.ts';

describe('the answer', () => {
  it('says what is made and what limits, in words and in numbers', () => {
    const { experiment, plan } = benzoicAcid();
    const answer = planAnswer(experiment, plan);
    expect(answer.sentences[0]).toBe(
      'Makes at most 1.22\u202fg (9.99\u202fmmol) of benzoic acid; sodium benzoate limits (9.99\u202fmmol).',
    );
    expect(answer.makes).toMatchObject({ name: 'benzoic acid', recovered: false });
    expect(answer.makes?.mass_g).toBeCloseTo(1.2203, 3);
    expect(answer.limits).toMatchObject({ name: 'sodium benzoate' });
  });

  it('has a sentence for each product that is only got back, and none of what limits', () => {
    const { experiment, plan } = openExample('separation');
    const answer = planAnswer(experiment, plan);
    const back = answer.sentences.filter((each) => each.startsWith('Gives back at most'));
    expect(back).toHaveLength(3);
    expect(answer.makes?.recovered).toBe(true);
    expect(answer.limits).toBeUndefined();
  });

  it('adds the gas of one kind over the steps', () => {
    const { experiment, plan } = openExample('ester');
    const answer = planAnswer(experiment, plan);
    expect(answer.gases.map((gas) => gas.name)).toEqual(['carbon dioxide']);
    expect(answer.matter.at(-1)).toMatch(/^Gives off 600\u202fmL of carbon dioxide in step 9 /);
  });

  it('says what is missing where nothing is made', () => {
    const { experiment, plan } = benzoicAcid();
    const none = { ...experiment, reactions: [], products: [] };
    expect(planAnswer(none, plan).matter[0]).toMatch(/^No reaction is written/);
    expect(planAnswer({ ...experiment, products: [] }, plan).matter[0]).toMatch(
      /^No product is named/,
    );
  });

  it.each(exampleFolders())('%s: every assumed wait is the usual time of its operation', (name) => {
    const { experiment, plan, program } = openExample(name);
    const { duration_min: total, assumedWaits } = planAnswer(experiment, plan);
    const said = new Set(experiment.steps.filter(saysHowLong).map((step) => step.id));
    const usual = new Map(
      program.lines.map((line) => [line.stepId, duration_min({ ...line, moves: [] })]),
    );
    let written_min = 0;
    for (const line of program.lines) if (said.has(line.stepId)) written_min += duration_min(line);
    const assumed_min = assumedWaits.reduce((sum, each) => sum + each.duration_min, 0);
    for (const each of assumedWaits) expect(each.duration_min).toBe(usual.get(each.step));
    expect(written_min + assumed_min).toBeCloseTo(total, 9);
  });
});

describe('a duration in words', () => {
  it.each([
    [0.4, 'about 1 min'],
    [7, 'about 7 min'],
    [63, 'about 1 h 5 min'],
    [60, 'about 1 h'],
    [127, 'about 2 h 10 min'],
    [599, 'about 10 h'],
    [1005, 'about 17 h'],
    [3000, 'about 2 days 2 h'],
  ])('%s min', (minutes, words) => {
    expect(aboutHowLong(minutes)).toBe(words);
  });

  it('names the steps that do not say how long while they are few', () => {
    const one = { duration_min: 60, assumedWaits: [{ step: '3', duration_min: 5 }] };
    expect(durationSentences(one)).toEqual([
      'Takes about 1 h, of which about 5 min is assumed: step 3 does not say how long.',
    ]);
    const waits = ['1', '2', '4b', '6'].map((step) => ({ step, duration_min: 5 }));
    expect(durationSentences({ duration_min: 60, assumedWaits: waits })[0]).toMatch(
      /, of which about 20 min is assumed: 4 steps do not say how long\.$/,
    );
    expect(durationSentences({ duration_min: 60, assumedWaits: [] })).toEqual(['Takes about 1 h.']);
    expect(durationSentences({ duration_min: 0, assumedWaits: [] })).toEqual([]);
  });
});
