import { describe, expect, it } from 'vitest';
import { exampleFolders, openBenchOf, openExample } from '../../../test/example-folder.ts';
import { enact } from '../../core/enact/enact.ts';
import { DEFAULT_POLICY } from '../../core/enact/policy.ts';
import type { FlowSheet, FlowState } from '../../core/report/flow/flow.ts';
import { flowSheet } from '../../core/report/flow/flow.ts';
import { actualsOf } from '../../core/record/actuals.ts';
import { flowSheetPicture } from './flow-sheet.ts';
import { THINNEST_px, glassesOf, layersOf, roomOf } from './glass.ts';
import type { Glass } from './glass.ts';
import { boxOf } from './items.ts';
import type { Box, Words } from './items.ts';
import { layoutOf } from './layout.ts';
import type { Layout } from './layout.ts';
import { narrowLayoutOf } from './narrow.ts';
import { levelAt, volumeBelow, volumeOf } from './profile.ts';
import { livesOf, slotsOf } from './slots.ts';
import { THEMES } from './theme.ts';
import type { ThemeName } from './theme.ts';
import { flowWords } from './words.ts';

const EXAMPLES = exampleFolders().map((folder) => {
  const { experiment, plan } = openExample(folder);
  return { folder, sheet: flowSheet(experiment, plan), words: flowWords(plan, experiment) };
});

/** Tags that open and close in turn, attributes in quotes and none twice, no loose `&` or `<`. */
function problemsOf(xml: string): string[] {
  const problems: string[] = [];
  const open: string[] = [];
  const rest = xml.replace(/<(\/?)([\w:-]+)((?:\s+[\w:-]+="[^"<]*")*)\s*(\/?)>/g, (...parts) => {
    const [, end, name, attributes, alone] = parts as string[];
    const names = [...attributes!.matchAll(/([\w:-]+)="/g)].map((match) => match[1]);
    if (new Set(names).size !== names.length) problems.push(`an attribute twice in ${name}`);
    if (end === '/') {
      if (open.pop() !== name) problems.push(`${name} closes what is not open`);
    } else if (alone !== '/') open.push(name!);
    if (/&(?!(?:amp|lt|gt|quot|#39);)/.test(attributes!)) problems.push(`loose & in ${name}`);
    return '';
  });
  if (open.length > 0) problems.push(`left open: ${open.join(', ')}`);
  if (/[<>]|&(?!(?:amp|lt|gt|quot|#39);)/.test(rest)) problems.push('a loose character in a text');
  return problems;
}

/** Everything that is said on the sheet, each where it stands. */
function wordsOf({ head, rows, foot }: Layout): Words[] {
  const moved = (words: readonly Words[], by: number) =>
    words.map((each) => ({ ...each, y: each.y + by }));
  return [
    ...head.words,
    ...rows.flatMap((row) => moved([...row.heading, ...row.words], row.y)),
    ...moved(foot.legend.words, foot.y),
  ];
}

function overlaps(a: Box, b: Box): boolean {
  const slack = 0.5;
  const across = a.left < b.right - slack && b.left < a.right - slack;
  return across && a.top < b.bottom - slack && b.top < a.bottom - slack;
}

/** Pairs of texts that stand on one another, and texts on glass or on an arrow. */
function collisions(layout: Layout): string[] {
  const words = wordsOf(layout);
  const boxes = words.map(boxOf);
  const found: string[] = [];
  boxes.forEach((box, i) => {
    for (let j = i + 1; j < boxes.length; j++)
      if (overlaps(box, boxes[j]!)) found.push(`${words[i]!.text} | ${words[j]!.text}`);
    for (const row of layout.rows) {
      for (const { state, x, ...standing } of row.standings) {
        const { halfWidth_px: half, height_px } = layout.sheet.glasses.get(state.vessel)!;
        const bottom = row.y + standing.bottom;
        const glass = { left: x - half, right: x + half, top: bottom - height_px, bottom };
        if (overlaps(box, glass)) found.push(`${words[i]!.text} | ${state.vessel}`);
      }
      for (const { x1, x2, ...line } of row.lines) {
        const y = row.y + line.y;
        const stroke = {
          left: Math.min(x1, x2),
          right: Math.max(x1, x2),
          top: y - 1,
          bottom: y + 1,
        };
        if (overlaps(box, stroke)) found.push(`${words[i]!.text} | arrow at ${Math.round(y)}`);
      }
    }
  });
  return found;
}

function outside(layout: Layout): string[] {
  const { sheet, height } = layout;
  return wordsOf(layout)
    .filter((words) => {
      const { left, right, top, bottom } = boxOf(words);
      return left < 0 || right > sheet.edges.width || top < 0 || bottom > height;
    })
    .map(({ text }) => text);
}

it('sees a collision where there is one', () => {
  const { sheet, words } = EXAMPLES[0]!;
  const layout = layoutOf(sheet, { width: 1200, words });
  const moved = layout.head.words.map((each) => ({ ...each, x: each.x + 3 }));
  const head = { ...layout.head, words: [...layout.head.words, ...moved] };
  expect(collisions({ ...layout, head })).not.toEqual([]);
});

const FORMS = [
  ['wide', layoutOf],
  ['narrow', narrowLayoutOf],
] as const;

describe.each(EXAMPLES)('the picture of $folder', ({ sheet, words }) => {
  it.each(Object.keys(THEMES) as ThemeName[])('is well-formed in the %s theme', (theme) => {
    const svg = flowSheetPicture(sheet, { theme, words, selected: sheet.rows[2]!.step });
    expect(problemsOf(svg)).toEqual([]);
    expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg"[^>]* role="img"/);
    expect(svg.match(/role="listitem"/g)).toHaveLength(sheet.rows.length);
    expect(svg).not.toMatch(/NaN|Infinity|undefined| style=|<style/);
  });

  it.each([320, 800, 1200, 1600])('keeps its words apart, %d px wide', (width) => {
    for (const told of [words, undefined]) {
      const layout = layoutOf(sheet, { width, words: told });
      expect(collisions(layout)).toEqual([]);
      expect(outside(layout)).toEqual([]);
    }
  });

  it.each([320, 390, 820])('keeps its words apart in one column, %d px wide', (width) => {
    for (const told of [words, undefined]) {
      const layout = narrowLayoutOf(sheet, { width, words: told });
      expect(collisions(layout)).toEqual([]);
      expect(outside(layout)).toEqual([]);
      expect(wordsOf(layout).filter(({ size }) => size < 14)).toEqual([]);
      expect(layout.sheet.edges.width).toBe(width);
    }
  });

  it.each(FORMS)('holds in every vessel what is in it, to scale, %s', (_, layOut) => {
    const { rows, sheet: placed } = layOut(sheet, { width: 1200, words });
    for (const { state } of rows.flatMap((row) => row.standings)) {
      const glass = placed.glasses.get(state.vessel)!;
      if (!glass.toScale || state.fill === null) continue;
      const layers = layersOf(state, glass);
      const { to: top } = layers.at(-1)!;
      const volume = state.fill * volumeOf(glass.shape.body);
      // Each layer may be drawn a little thicker than it is, so that it can be seen
      const extra_px = (top - levelAt(roomOf(glass.shape), volume)) * glass.unit_px;
      expect(extra_px).toBeGreaterThan(-1e-6);
      expect(extra_px).toBeLessThanOrEqual(THINNEST_px * layers.length);
      if (extra_px > 1e-6) continue;
      expect(volumeBelow(roomOf(glass.shape), top)).toBeCloseTo(volume, 6);
    }
  });
});

describe('a picture of a bench', () => {
  it('underlines what was measured', () => {
    const example = openExample('cyclohexanol');
    const { run } = openBenchOf(example, example.records[0]!);
    const { experiment, program, table } = example;
    const bench = enact(program, table, { ...DEFAULT_POLICY, trace: true }, actualsOf(run));
    const words = flowWords(bench, experiment);
    const svg = flowSheetPicture(flowSheet(experiment, bench), { words });
    const weighed = [...words.weighings.values()].flat().filter((one) => one.basis === 'measured');
    expect(weighed.length).toBeGreaterThan(0);
    for (const { text } of weighed)
      expect(svg.includes(`font-weight="700" text-decoration="underline">${text}<`)).toBe(true);
    expect(collisions(layoutOf(flowSheet(experiment, bench), { width: 1200, words }))).toEqual([]);
  });
});

const state = (fill: number, volume_mL: number, ...phases: FlowState['phases']): FlowState => ({
  vessel: 'v',
  fill,
  volume_mL,
  mass_g: volume_mL,
  temperature_C: 20,
  phases,
});
const phase = (name: 'organic' | 'aqueous' | 'solid', volume_mL: number) => ({
  phase: name,
  volume_mL,
  mass_g: volume_mL,
  share: null,
  contents: [],
});

function glassOf(shape: 'round-bottom flask' | 'beaker', capacity_mL: number | null): Glass {
  const column = { name: 'v', tared: false, firstStep: '1', lastStep: '1' };
  const place = { vessel: 'v', shape, capacity_mL, firstRow: 0, lastRow: 0 };
  return glassesOf([{ ...column, ...place }], 120).get('v')!;
}

describe('levels in a glass', () => {
  it('stand as high in a beaker as their share, and a layer on the other', () => {
    const layers = layersOf(
      state(0.5, 50, phase('aqueous', 30), phase('organic', 20)),
      glassOf('beaker', 100),
    );
    // A beaker's body is 2.2 of its lengths high: half of it, parted three to two
    expect(layers.map(({ phase: name }) => name)).toEqual(['aqueous', 'organic']);
    expect(layers[0]!.to).toBeCloseTo(2.2 * 0.3, 6);
    expect(layers[1]!.to).toBeCloseTo(2.2 * 0.5, 6);
  });

  it('stand in the neck when there is more than the vessel holds, and never over the brim', () => {
    const glass = glassOf('round-bottom flask', 100);
    const [layer] = layersOf(state(1.02, 102, phase('organic', 102)), glass);
    expect(layer!.to).toBeGreaterThan(1 + Math.sqrt(1 - 0.36 ** 2));
    const [flood] = layersOf(state(40, 4000, phase('organic', 4000)), glass);
    expect(flood!.to).toBeCloseTo(1 + Math.sqrt(1 - 0.36 ** 2) + 0.85, 9);
  });

  it('show a trace of solid as a line that can be seen', () => {
    const glass = glassOf('beaker', 100);
    const [solid] = layersOf(state(0.5, 50, phase('solid', 0.001), phase('aqueous', 50)), glass);
    expect(solid!.to * glass.unit_px).toBeCloseTo(THINNEST_px, 6);
  });

  it('are not claimed to be to scale where the capacity is not known', () => {
    expect(glassOf('beaker', null).toScale).toBe(false);
  });

  it('belong to vessels at one scale: eight times the capacity is twice as wide', () => {
    const column = {
      name: '',
      tared: false,
      firstStep: '1',
      lastStep: '1',
      firstRow: 0,
      lastRow: 0,
    };
    const shape = 'round-bottom flask' as const;
    const glasses = glassesOf(
      [
        { ...column, vessel: 'small', shape, capacity_mL: 50 },
        { ...column, vessel: 'large', shape, capacity_mL: 400 },
      ],
      140,
    );
    const ratio = glasses.get('large')!.halfWidth_px / glasses.get('small')!.halfWidth_px;
    expect(ratio).toBeCloseTo(2, 9);
  });
});

describe('columns', () => {
  const { sheet } = EXAMPLES.find(({ folder }) => folder === 'grignard')!;

  it('are used again where there are many vessels, but never by two at once', () => {
    const { slotOf, lives, count } = slotsOf(sheet, 5);
    expect(count).toBeLessThanOrEqual(5);
    expect(slotOf.size).toBeGreaterThan(5);
    for (const a of lives)
      for (const b of lives) {
        if (a.vessel >= b.vessel || slotOf.get(a.vessel) !== slotOf.get(b.vessel)) continue;
        expect(a.last < b.first || b.last < a.first).toBe(true);
      }
  });

  it('live only while they hold something', () => {
    for (const { vessel, last, ends } of livesOf(sheet)) {
      if (ends !== 'emptied') continue;
      const after = sheet.rows[last]!.states.find((one) => one.vessel === vessel);
      expect(after!.mass_g).toBeLessThan(1e-3);
    }
  });
});

describe('what is asked for', () => {
  const { sheet, words } = EXAMPLES[0]!;

  it('uses the accent for the selected step only', () => {
    const { accent } = THEMES.paper.colours;
    expect(flowSheetPicture(sheet, { words })).not.toContain(accent);
    const svg = flowSheetPicture(sheet, { words, selected: '3' });
    // The frame, and the number of the step
    expect(svg.split(accent)).toHaveLength(3);
  });

  it('has only grey, black and white in print', () => {
    const svg = flowSheetPicture(sheet, { words, theme: 'print', selected: '3' });
    for (const [, r, g, b] of svg.matchAll(/"#(..)(..)(..)"/g)) expect([g, b]).toEqual([r, r]);
  });

  it('begins every id with the prefix that it is given', () => {
    const svg = flowSheetPicture(sheet, { words, idPrefix: 'one' });
    for (const [, id] of svg.matchAll(/ id="([^"]+)"/g)) expect(id).toMatch(/^one-/);
    const targets = [...svg.matchAll(/url\(#([^)]+)\)/g)].map((match) => match[1]!);
    for (const id of new Set(targets)) expect(svg).toContain(`<pattern id="${id}"`);
  });

  it('tells the answer in its description, and harmless text in any case', () => {
    const nasty: FlowSheet = { ...sheet, title: `</title><script>"a" & 'b'\u0000` };
    const svg = flowSheetPicture(nasty, { answer: '1 < 2 & 3', words });
    expect(problemsOf(svg)).toEqual([]);
    expect(svg).toContain('>1 &lt; 2 &amp; 3</desc>');
    expect(svg).not.toContain('<script');
  });

  it('says so where there is nothing to draw', () => {
    const empty: FlowSheet = { title: '', columns: [], rows: [], total_min: 0 };
    const svg = flowSheetPicture(empty);
    expect(problemsOf(svg)).toEqual([]);
    expect(svg).toContain('nothing to draw');
  });

  it.each([Number.NaN, -5, 0, 1e9])(
    'draws at a sane size when asked for a width of %d',
    (width) => {
      const svg = flowSheetPicture(sheet, { width });
      const shown = Number(/ width="([\d.]+)"/.exec(svg)![1]);
      expect(shown).toBeGreaterThanOrEqual(320);
      expect(shown).toBeLessThanOrEqual(4000);
    },
  );

  it('grows with its steps', () => {
    const heightOf = (of: FlowSheet) => layoutOf(of, { width: 1200 }).height;
    const shorter = { ...sheet, rows: sheet.rows.slice(0, 5) };
    expect(heightOf(sheet)).toBeGreaterThan(heightOf(shorter) + 400);
  });
});
