import { infraredOf } from '../../core/evidence/spectrum/to-infrared.ts';
import { SAMPLE_STATES } from '../../core/evidence/spectrum/infrared.ts';
import type { InfraredSpectrum, SampleState } from '../../core/evidence/spectrum/infrared.ts';
import { judgeInfrared } from '../../core/evidence/spectrum/judge/judge.ts';
import type { InfraredJudgement, NamedFacts } from '../../core/evidence/spectrum/judge/judge.ts';
import type { Diagnostic } from '../../core/diagnostic.ts';
import { spectrumPicture } from '../../picture/spectrum/spectrum-picture.ts';
import { spectrumViewOf, tracesShown } from '../../picture/spectrum/judged-view.ts';
import { EXIT, optionText, refusal } from '../command.ts';
import type { Answer, Call, Command } from '../command.ts';
import { troubleSentence } from '../flow-file.ts';
import { paintSpectrum } from '../paint/spectrum.ts';
import { harmless, listed } from '../paint/text.ts';
import { openSpectrum } from '../spectrum-file.ts';

interface Judged {
  readonly spectrum: InfraredSpectrum;
  readonly judgement: InfraredJudgement;
  readonly diagnostics: readonly Diagnostic[];
}

type Reading<T> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly answer: Answer };

function stateOf(call: Call): Reading<SampleState | undefined> {
  const asked = optionText(call, 'state');
  if (asked === undefined || (SAMPLE_STATES as readonly string[]).includes(asked))
    return { ok: true, value: asked as SampleState | undefined };
  const hint = `It is one of ${listed([...SAMPLE_STATES], 'or')}.`;
  return { ok: false, answer: refusal(`There is no state ${harmless(asked)}.`, hint) };
}

/** What a single structure is called in the sentences; several go by their SMILES. */
const CALLED: Readonly<Record<string, string>> = {
  product: 'the product',
  from: 'the starting material',
};

/** The structures of an option, parted by a space or a full stop; none where it was not given. */
async function structuresOf(call: Call, option: string): Promise<Reading<readonly NamedFacts[]>> {
  const written = optionText(call, option)?.trim() ?? '';
  if (written === '') return { ok: true, value: [] };
  // Loaded only where it is asked for: it takes longer than most commands
  const [{ loadStructureKit }, { structureFacts }] = await Promise.all([
    import('../../structures/rdkit.ts'),
    import('../../structures/facts.ts'),
  ]);
  const kit = await loadStructureKit();
  const named: NamedFacts[] = [];
  for (const smiles of written.split(/[\s.]+/)) {
    const found = structureFacts(kit, smiles);
    if (!found.ok)
      return {
        ok: false,
        answer: refusal(
          `--${option} ${harmless(smiles)}: ${found.message}`,
          'It takes SMILES, as in CC(=O)C for acetone.',
        ),
      };
    named.push({ name: smiles, facts: found.facts });
  }
  const [only, ...more] = named;
  const called = CALLED[option];
  if (only === undefined || more.length > 0 || called === undefined)
    return { ok: true, value: named };
  return { ok: true, value: [{ ...only, name: called }] };
}

async function judge(call: Call): Promise<Reading<Judged>> {
  const [path = ''] = call.args;
  const state = stateOf(call);
  if (!state.ok) return state;
  const opened = await openSpectrum(path, call.io);
  if (!opened.ok) return { ok: false, answer: refusal(opened.message, opened.hint) };
  const asked = state.value === undefined ? {} : { state: state.value };
  const tried = opened.traces.map((trace) => ({ trace, made: infraredOf(trace, asked) }));
  const best = tried.find(({ made }) => made.ok) ?? tried[0];
  if (best === undefined || !best.made.ok) {
    const problem = best !== undefined && !best.made.ok ? best.made.problem : undefined;
    const message = problem?.message ?? 'The file holds no spectrum.';
    return { ok: false, answer: refusal(`${harmless(path)}: ${harmless(message)}`, problem?.hint) };
  }
  const product = await structuresOf(call, 'product');
  if (!product.ok) return product;
  const from = await structuresOf(call, 'from');
  if (!from.ok) return from;
  const solvents = await structuresOf(call, 'solvents');
  if (!solvents.ok) return solvents;
  const { spectrum, diagnostics } = best.made;
  const [first] = product.value;
  const judgement = judgeInfrared({
    spectrum,
    ...(first !== undefined && { product: first }),
    startingMaterials: from.value,
    reagents: [],
    solvents: solvents.value,
  });
  const said = [...best.trace.warnings, ...diagnostics];
  return { ok: true, value: { spectrum, judgement, diagnostics: said } };
}

async function run(call: Call): Promise<Answer> {
  const svg = optionText(call, 'svg');
  if (svg !== undefined && !/\.svg$/i.test(svg))
    return refusal('--svg takes a name that ends in .svg.', 'Write: --svg OUT.svg');
  const judged = await judge(call);
  if (!judged.ok) return judged.answer;
  const { spectrum, judgement, diagnostics } = judged.value;
  const name = optionText(call, 'product') ?? spectrum.title;
  if (svg !== undefined) {
    const traces = tracesShown(name, spectrum, []);
    const view = spectrumViewOf(traces, spectrum, judgement, undefined);
    const { state } = spectrum;
    const caption = { name, ...(state !== undefined && { state }) };
    const trouble = await call.io.write(svg, spectrumPicture(view, { caption }));
    if (trouble !== undefined) return refusal(troubleSentence(trouble, svg));
  }
  const contradicted = judgement.statements.some(({ agreement }) => agreement === 'disagrees');
  return {
    kind: 'answer',
    exit: contradicted ? EXIT.findings : EXIT.fine,
    data: {
      title: spectrum.title,
      state: spectrum.state ?? null,
      points: spectrum.wavenumber_percm.length,
      diagnostics,
      ...judgement,
      ...(svg !== undefined && { picture: svg }),
    },
    paint: (paper) => paintSpectrum(spectrum, judgement, svg, paper),
    remarks: diagnostics.map(({ message }) => harmless(message)),
  };
}

export const spectrumCommand: Command = {
  name: 'spectrum',
  summary: 'what an infrared spectrum says of a product, and what it cannot tell',
  takes: 'FILE',
  about:
    'Reads an infrared spectrum (JCAMP-DX or a table) and judges it: which groups it shows, which bands of ' +
    'the product are there, whether the change that the reaction should make is seen, what is left of the ' +
    'starting material, what does not belong. Without a product it says what groups are seen.',
  options: {
    product: { type: 'string', value: 'SMILES', about: 'The structure that the sample should be.' },
    from: {
      type: 'string',
      value: 'SMILES',
      about: 'What it was made from; several are parted by a full stop.',
    },
    solvents: {
      type: 'string',
      value: 'SMILES',
      about: 'Solvents that were used; several are parted by a full stop.',
    },
    state: {
      type: 'string',
      value: 'STATE',
      about: 'How it was measured: film, solution, atr, disc, mull or gas.',
    },
    svg: { type: 'string', value: 'OUT.svg', about: 'Writes the trace as a picture.' },
  },
  examples: [
    'spectrum product.jdx --product OC1CCCCC1 --from O=C1CCCCC1 --state atr',
    'spectrum product.csv --product CC(=O)OCC --svg product.svg',
  ],
  arity: [1, 1],
  run,
};
