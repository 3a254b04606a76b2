import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import published from './spectrum-library.json' with { type: 'json' };
import { referenceIn } from '../../src/core/evidence/spectrum/library/reference.ts';
import type { Fingerprint } from '../../src/core/evidence/spectrum/library/fingerprint.ts';
import { similarityOf } from '../../src/core/evidence/spectrum/library/similarity.ts';
import { withBands } from '../../src/core/evidence/spectrum/library/search.ts';

const folder = new URL('../../../shared/spectra/', import.meta.url);
const here = published.spectra.every(({ file }) => existsSync(new URL(file, folder)));
const said = here
  ? 'measured spectra'
  : 'measured spectra: SKIPPED, the folder shared/spectra is not here';

function read() {
  return published.spectra.map(({ compound, atr, file }) => {
    const bytes = readFileSync(new URL(file, folder));
    const got = referenceIn(bytes, atr ? { state: 'atr' } : {});
    if (!got.ok) throw new Error(`${file}: ${got.problem.message}`);
    return { id: file, compound, atr, fingerprint: got.fingerprint, bands: got.bands };
  });
}

const alike = (a: Fingerprint, b: Fingerprint): number => similarityOf(a, b)?.similarity ?? 0;

describe.skipIf(!here)(said, () => {
  const all = here ? read() : [];
  const pairs = all.flatMap((a, i) =>
    all.slice(i + 1).map((b) => ({ a, b, similarity: alike(a.fingerprint, b.fingerprint) })),
  );

  it('each has another of its compound as the most alike, where there is one', () => {
    for (const own of all) {
      const others = all.filter((other) => other !== own);
      if (others.every(({ compound }) => compound !== own.compound)) continue;
      const best = others.reduce((a, b) =>
        alike(own.fingerprint, b.fingerprint) > alike(own.fingerprint, a.fingerprint) ? b : a,
      );
      expect([own.id, best.compound]).toEqual([own.id, own.compound]);
    }
  });

  it('are as alike as docs/methods/spectrum-library.md says', () => {
    const { limits } = published;
    const same = pairs.filter(({ a, b }) => a.compound === b.compound);
    const different = pairs.filter(({ a, b }) => a.compound !== b.compound);
    expect(same.length).toBeGreaterThan(25);
    expect(different.length).toBeGreaterThan(500);
    const computed = same.filter(
      ({ a, b }) => a.atr !== b.atr && [a, b].every(({ id }) => id.includes('liquid-nk')),
    );
    expect(computed.length).toBe(11);
    for (const { similarity } of computed)
      expect(similarity).toBeGreaterThan(limits.computedAtrAtLeast);
    for (const { similarity } of same) expect(similarity).toBeGreaterThan(limits.sameAtLeast);
    for (const { similarity } of different) expect(similarity).toBeLessThan(limits.differentAtMost);
    const sorted = different.map(({ similarity }) => similarity).sort((a, b) => a - b);
    expect(sorted[Math.floor(0.99 * sorted.length)]).toBeLessThan(limits.differentUsually);
  });

  it.each(published.bands)('$compound is found by $asked_percm', ({ compound, asked_percm }) => {
    const found = withBands(all, asked_percm, published.tolerance_percm);
    const names = found.map(({ id }) => all.find((each) => each.id === id)!.compound);
    expect(names).toContain(compound);
    expect(new Set(names).size).toBeLessThan(10);
  });
});
