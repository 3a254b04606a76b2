/** Every page that there is, with something on it: on the demonstration course. */
import { createHash } from 'node:crypto';
import type { APIRequestContext } from 'playwright-core';
import { expect } from 'vitest';
import type { EvidenceEntered } from '../../src/core/evidence/schema.ts';
import type { BenchEntry } from '../../src/core/record/entry.ts';
import type { NewVersion, Version } from '../../src/wire/experiment.ts';
import type { Run } from '../../src/wire/run.ts';
import { ALCOHOL_WITH_KETONE, KETONE } from '../made-up-spectra.ts';
import { experimentNamed, keptText } from './at-the-desk.ts';

export interface Place {
  readonly name: string;
  readonly path: string;
  /** What is there when the page is. */
  readonly shows: RegExp;
  readonly bench?: true;
}

/** A starting material, a product with some of it left, and a refractive index. */
async function measured(request: APIRequestContext, origin: string, run: string): Promise<void> {
  const headers = { origin };
  const entries: BenchEntry[] = [];
  const enter = (evidence: EvidenceEntered, attachments: string[]) =>
    entries.push({
      id: `measured ${entries.length}`,
      at: `2026-02-03T15:0${entries.length}:00Z`,
      by: 'R. Thorne',
      kind: 'evidence',
      evidence,
      ...(attachments.length > 0 && { attachments }),
    });
  for (const [of, text] of [
    ['startingMaterial', KETONE],
    ['product', ALCOHOL_WITH_KETONE],
  ] as const) {
    const hash = createHash('sha256').update(text).digest('hex');
    const type = { ...headers, 'content-type': 'application/octet-stream' };
    await request.put(`/api/attachments/${hash}`, { data: Buffer.from(text), headers: type });
    enter({ technique: 'infrared', of, state: 'film', file: `${of}.csv` }, [hash]);
  }
  enter({ technique: 'refractiveIndex', index: 1.4573, T_C: 21 }, []);
  const posted = await request.post(`/api/runs/${run}/entries`, { data: { entries }, headers });
  expect(posted.status()).toBe(201);
}

/** One experiment has a second version, so that there is something to compare. */
export async function placesIn(request: APIRequestContext, origin: string): Promise<Place[]> {
  const { id, title } = await experimentNamed(request, '4-Methylcyclohexanol');
  const text = await keptText(request, id);
  const data: NewVersion = {
    text: text.replace('(1.12 g, 10.0 mmol)', '(1.40 g, 12.5 mmol)'),
    base: 1,
  };
  const saved = await request.post(`/api/experiments/${id}/versions`, {
    data,
    headers: { origin },
  });
  expect(((await saved.json()) as Version).number).toBe(2);
  const runs = (await (await request.get(`/api/runs?experiment=${id}`)).json()) as Run[];
  const struck = runs.find(({ bench }) => bench === 'Bench 3')!;
  const named = new RegExp(title.slice(0, 20));
  await measured(request, origin, struck.id);
  const bench = { bench: true } as const;
  return [
    { name: 'shelf', path: '/', shows: /6 experiments/ },
    { name: 'experiment', path: `/experiments/${id}`, shows: named },
    {
      name: 'compare',
      path: `/experiments/${id}/compare?from=1&to=2`,
      shows: /[Tt]heory|g →|→|at most/,
    },
    { name: 'result', path: `/runs/${struck.id}`, shows: /%/ },
    { name: 'evidence', path: `/runs/${struck.id}/evidence`, shows: /methylcyclohexanol/ },
    { name: 'sentences', path: '/help', shows: /operations/ },
    { name: 'laboratory', path: '/settings', shows: /of your own/ },
    { name: 'sign-in', path: '/sign-in', shows: /link/ },
    { name: 'nowhere', path: '/nowhere', shows: /nothing at this address/ },
    { name: 'bench begin', path: `/bench/${struck.id}#begin`, shows: named, ...bench },
    { name: 'bench step', path: `/bench/${struck.id}#step-1`, shows: /Charge/, ...bench },
    { name: 'bench steps', path: `/bench/${struck.id}#steps`, shows: /All steps/, ...bench },
    { name: 'bench end', path: `/bench/${struck.id}#entered`, shows: /What was entered/, ...bench },
  ];
}
