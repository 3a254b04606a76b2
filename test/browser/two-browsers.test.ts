import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ALDOL, BENCH } from './aldol.ts';
import {
  beginAt,
  enterNumber,
  keptIn,
  lineWith,
  nextUntil,
  observe,
  status,
} from './at-the-bench.ts';
import {
  cursorBehind,
  editor,
  keptText,
  putText,
  startExperiment,
  startRecord,
  textIn,
  untilKept,
  versionsOf,
} from './at-the-desk.ts';
import { openWorld, picture } from './world.ts';
import type { World } from './world.ts';

describe('two browsers', () => {
  let world: World;
  let hers: Page;
  let his: Page;
  let experiment: string;
  beforeAll(async () => {
    world = await openWorld();
    ({ page: hers } = await world.signedIn());
    ({ page: his } = await world.signedIn());
    experiment = await startExperiment(hers);
    await putText(hers, ALDOL);
    await untilKept(hers);
  });
  afterAll(() => world.close());

  it('on one bench record see each other’s lines without being asked', async () => {
    const run = await startRecord(hers, 'Bench 4');
    await his.goto(hers.url());
    for (const [page, initials] of [
      [hers, 'M.K.'],
      [his, 'T.O.'],
    ] as const) {
      await beginAt(page, initials);
      await nextUntil(page, 3);
    }
    await enterNumber(hers, 'benzaldehyde', BENCH.benzaldehyde_g);
    await lineWith(his, BENCH.benzaldehyde_g, 'M.K.').waitFor();
    await enterNumber(his, 'acetone', BENCH.acetone_g);
    await lineWith(hers, BENCH.acetone_g, 'T.O.').waitFor();
    // The result, open somewhere else, is worked out again as they write.
    const { page: result } = await world.signedIn();
    await result.goto(`/runs/${run}`);
    await result.getByText('2 entries').waitFor();
    await observe(hers, 'turned yellow');
    await result.getByText('3 entries').waitFor();
    const kept = await keptIn(hers.request, run);
    expect(kept.map(({ by }) => by)).toEqual(['M.K.', 'T.O.', 'M.K.']);
    await result.context().close();
  });

  it('on one experiment: the second to save is told, and keeps what was written', async () => {
    for (const page of [hers, his]) {
      await page.goto(`/experiments/${experiment}`);
      await untilKept(page);
    }
    const { length } = await versionsOf(hers.request, experiment);
    await cursorBehind(hers, 'over 5 min');
    await hers.keyboard.type(' with stirring');
    await untilKept(hers);
    await cursorBehind(his, 'in air for 60 min');
    await his.keyboard.type(' until the next period');
    await his.getByText(`saved version ${length + 1}`).waitFor();
    await his.getByText('Kept on this device', { exact: true }).waitFor();
    await picture(his, 'version-moved');
    expect(await textIn(his)).toContain('until the next period');

    // Still so after a reload: the question is asked again, and the text is there.
    await his.reload();
    await his.getByText(`saved version ${length + 1}`).waitFor();
    expect(await textIn(his)).toContain('until the next period');
    await his.getByRole('button', { name: `Keep mine as version ${length + 2}` }).click();
    await untilKept(his);
    expect(await keptText(his.request, experiment)).toContain('until the next period');
    const theirs = await his.request.get(`/api/experiments/${experiment}/versions/${length + 1}`);
    expect(((await theirs.json()) as { text: string }).text).toContain('over 5 min with stirring');
  });

  it('goes on from theirs when asked to, and undo brings one’s own text back', async () => {
    await hers.goto(`/experiments/${experiment}`);
    await untilKept(hers);
    await cursorBehind(his, 'benzaldehyde 2.12');
    await his.keyboard.press('Backspace');
    await his.keyboard.type('4');
    await untilKept(his);
    await cursorBehind(hers, 'acetone 0.58');
    await hers.keyboard.press('Backspace');
    await hers.keyboard.type('9');
    await hers.getByRole('button', { name: 'Go on from theirs' }).click();
    await untilKept(hers);
    expect(await textIn(hers)).toContain('benzaldehyde 2.14 g and acetone 0.58 g');
    await editor(hers).press('ControlOrMeta+z');
    await expect.poll(() => textIn(hers)).toContain('acetone 0.59 g');
    await untilKept(hers);
  });

  it('lose nothing that was acknowledged when the server dies, and recover by themselves', async () => {
    const { page: bench } = await world.signedIn();
    await bench.goto(`/experiments/${experiment}`);
    await untilKept(bench);
    const run = await startRecord(bench, 'Bench 7');
    await beginAt(bench, 'A.R.');
    const words = Array.from({ length: 12 }, (_, i) => `drop number ${i + 1}`);
    // The server dies somewhere between these lines; whatever was acknowledged has to be there after.
    const acknowledged = new Set<string>();
    bench.on('response', (answer) => {
      if (answer.request().method() !== 'POST' || !answer.url().endsWith('/entries')) return;
      void answer
        .json()
        .then((body: { acknowledged: { id: string }[] }) =>
          body.acknowledged.forEach(({ id }) => acknowledged.add(id)),
        )
        // Lost with the server: not acknowledged then.
        .catch(() => undefined);
    });
    const crash = (async () => {
      await status(bench, 'All kept');
      await lineWith(bench, 'drop number 4').waitFor();
      await world.crashAndRestart();
    })();
    for (const each of words) await observe(bench, each);
    await crash;
    expect(acknowledged.size).toBeGreaterThan(0);
    const ids = new Set((await keptIn(bench.request, run)).map(({ id }) => id));
    expect([...acknowledged].filter((id) => !ids.has(id))).toEqual([]);
    await status(bench, 'All kept');
    await expect
      .poll(async () => (await keptIn(bench.request, run)).map(({ text }) => text))
      .toEqual(words);

    // The page of the experiment, open all the while, saves as before.
    await cursorBehind(hers, 'for 30 min');
    await hers.keyboard.type(' or longer');
    await untilKept(hers);
    expect(await keptText(hers.request, experiment)).toContain('for 30 min or longer');
  });
});
