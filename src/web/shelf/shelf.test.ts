import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { outline } from '../../core/experiment/outline.ts';
import { readExperiment } from '../../core/experiment/read.ts';
import type { ExperimentSummary } from '../../wire/experiment.ts';
import { BLANK_DOCUMENT, copyOf, copyTitle } from './documents.ts';
import { readIncoming } from './incoming-file.ts';
import { countText, matching, newestFirst } from './order.ts';

const summary = (title: string, savedAt: string, more: Partial<ExperimentSummary> = {}) => ({
  id: `id-${title}`,
  title,
  course: null,
  head: { number: 1, document: '', savedAt, savedBy: '', name: null },
  runs: 0,
  putAway: false,
  ...more,
});

describe('the list', () => {
  const list = [
    summary('Aspirin', '2026-01-01T00:00:00.000Z', { runs: 1 }),
    summary('Éther de Williamson', '2026-03-01T00:00:00.000Z', { course: 'Practical 2' }),
  ];

  it('has the newest change first', () => {
    expect(newestFirst(list).map(({ title }) => title)).toEqual(['Éther de Williamson', 'Aspirin']);
  });

  it.each([
    ['', 2],
    ['ether PRACTICAL', 1],
    ['ether 3', 0],
  ])('finds for "%s" %d', (question, found) => {
    expect(matching(list, question)).toHaveLength(found);
  });

  it('counts in words', () => {
    expect(countText(list)).toBe('2 experiments with 1 bench record');
    expect(countText(list.slice(1))).toBe('1 experiment');
  });
});

describe('documents that the shelf makes', () => {
  it('a blank one is read without a mistake, and its hint is no step', () => {
    const { diagnostics, steps, vessels } = readExperiment(BLANK_DOCUMENT);
    expect(diagnostics.filter(({ severity }) => severity !== 'note')).toEqual([]);
    expect(steps).toEqual([]);
    expect(vessels).toHaveLength(1);
  });

  it('a copy differs in its title alone', () => {
    const line = fc.stringMatching(/^[a-z $#&-]{0,12}$/);
    fc.assert(
      fc.property(fc.array(line), fc.stringMatching(/^[a-z$&]{1,12}$/), (lines, title) => {
        const before = `\n# ${title}\n${lines.join('\n')}`;
        const after = copyOf(before, title);
        expect(outline(after).title).toBe(`Copy of ${title}`);
        expect(after.split('\n').slice(2)).toEqual(before.split('\n').slice(2));
      }),
    );
  });

  it('a copy of a document without a title gets one', () => {
    expect(copyOf('1. Stir.\n', 'Untitled')).toBe('# Copy of Untitled\n\n1. Stir.\n');
    expect(copyTitle('Copy of X')).toBe('Copy 2 of X');
    expect(copyTitle('Copy 2 of X')).toBe('Copy 3 of X');
  });
});

describe('a file that comes in', () => {
  const of = (bytes: BlobPart) => readIncoming(new File([bytes], 'a.md'));

  it('is taken with its text, without the mark of its encoding', async () => {
    expect(await of('\uFEFF# Ester\n')).toMatchObject({ ok: true, text: '# Ester\n' });
    const utf16 = new Uint8Array([0xff, 0xfe, 0x23, 0, 0xe9, 0]);
    expect(await of(utf16)).toMatchObject({ ok: true, text: '#é' });
  });

  it.each([
    ['bytes that are no text', new Uint8Array([0x50, 0x4b, 3, 4, 0, 0, 0xff]), /plain text/],
    ['a text with noughts', 'a\0b', /plain text/],
    ['nothing', ' \n', /is empty/],
    ['far too much', 'a'.repeat(2_000_001), /two million/],
    ['a huge file', new Uint8Array(8_000_001), /8 MB/],
  ])('is refused kindly where it is %s', async (_, bytes, why) => {
    const read = await of(bytes);
    expect(read.ok).toBe(false);
    expect(!read.ok && read.why).toMatch(why);
  });
});
