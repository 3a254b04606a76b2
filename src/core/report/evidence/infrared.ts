import type { Diagnostic } from '../../diagnostic.ts';
import type { InfraredEntered } from '../../evidence/spectrum/schema.ts';
import type { InfraredSpectrum } from '../../evidence/spectrum/infrared.ts';
import { judgeInfrared } from '../../evidence/spectrum/judge/judge.ts';
import type {
  InfraredJudgement,
  InfraredQuestion,
  NamedFacts,
} from '../../evidence/spectrum/judge/judge.ts';
import { checkClaims } from '../../evidence/spectrum/claims/check-claims.ts';
import type { ClaimReport } from '../../evidence/spectrum/claims/check-claims.ts';
import { infraredOf } from '../../evidence/spectrum/to-infrared.ts';
import type { FileReading } from '../../evidence/spectrum/trace.ts';
import { checkWavenumbers } from '../../evidence/spectrum/treat/polystyrene.ts';
import type { Statement } from '../../evidence/statement.ts';
import type { StructureFacts } from '../../evidence/structure.ts';
import type { Subject, SubjectRole, Subjects } from '../../evidence/subject.ts';
import type { RunEvidence } from '../../record/run.ts';
import type { JudgedEvidence } from './report.ts';

interface World {
  readonly subjects: Subjects;
  readonly evidence: readonly RunEvidence[];
  readonly files: ReadonlyMap<string, FileReading>;
  readonly structures: ReadonlyMap<string, StructureFacts>;
}

interface Opened {
  readonly one: RunEvidence;
  readonly entered: InfraredEntered;
  readonly spectrum?: InfraredSpectrum;
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Every infrared spectrum of a record by its entry's id. Those of the starting material and of a
 * known sample serve the judging of the product's; the polystyrene film checks the instrument.
 */
export function judgeInfraredFiles(world: World): ReadonlyMap<string, JudgedEvidence> {
  const opened = world.evidence.flatMap((one) => openedOf(one, world.files));
  const last = (of: InfraredEntered['of']) =>
    opened.findLast(({ entered, spectrum }) => entered.of === of && spectrum !== undefined)
      ?.spectrum;
  const all = opened.flatMap(({ spectrum }) => spectrum ?? []);
  const references = { startingMaterial: last('startingMaterial'), product: last('reference') };
  return new Map(
    opened.map((one) => [one.one.entry.id, judgedOf(one, world, references, all)] as const),
  );
}

function openedOf(one: RunEvidence, files: World['files']): Opened[] {
  const { evidence: entered, entry } = one;
  const hash = entry.attachments?.[0];
  if (entered.technique !== 'infrared' || hash === undefined) return [];
  const reading = files.get(hash);
  if (reading === undefined) return [{ one, entered, diagnostics: [] }];
  if (!reading.ok) return [{ one, entered, diagnostics: [reading.problem] }];
  const asked = entered.state === undefined ? {} : { state: entered.state };
  // Of several blocks the first that is an infrared absorption spectrum
  const tried = reading.traces.map((trace) => ({ trace, made: infraredOf(trace, asked) }));
  const first = tried.find(({ made }) => made.ok) ?? tried[0];
  if (first === undefined) return [{ one, entered, diagnostics: [] }];
  const { trace, made } = first;
  if (!made.ok) return [{ one, entered, diagnostics: [...trace.warnings, made.problem] }];
  const diagnostics = [...trace.warnings, ...made.diagnostics];
  return [{ one, entered, spectrum: made.spectrum, diagnostics }];
}

/** The person's own assignments, tested against the trace. */
function claimsOf(
  { claims = [], conclusion }: InfraredEntered,
  { spectrum, product, startingMaterials }: InfraredQuestion,
  judgement: InfraredJudgement,
  others: readonly InfraredSpectrum[],
): ClaimReport | undefined {
  if (claims.length === 0) return undefined;
  return checkClaims({
    spectrum,
    claims,
    judgement,
    startingMaterials: startingMaterials.flatMap(({ facts }) => facts ?? []),
    others: others.filter((one) => one !== spectrum),
    ...(product?.facts !== undefined && { product: product.facts }),
    ...(conclusion !== undefined && { conclusion }),
  });
}

interface References {
  readonly startingMaterial: InfraredSpectrum | undefined;
  readonly product: InfraredSpectrum | undefined;
}

function judgedOf(
  opened: Opened,
  world: World,
  references: References,
  others: readonly InfraredSpectrum[],
): JudgedEvidence {
  const { one, entered, spectrum, diagnostics } = opened;
  if (spectrum === undefined) return { ...one, statements: [], diagnostics };
  if (entered.of === 'polystyrene')
    return { ...one, statements: [filmStatement(spectrum)], diagnostics, infrared: { spectrum } };
  const question = questionFor(entered, spectrum, world, references);
  const judgement = judgeInfrared(question);
  const statements = entered.of === 'product' ? judgement.statements : [];
  const claims = claimsOf(entered, question, judgement, others);
  return {
    ...one,
    statements,
    diagnostics,
    infrared: { spectrum, judgement, ...(claims !== undefined && { claims }) },
  };
}

function questionFor(
  { of, substance }: InfraredEntered,
  spectrum: InfraredSpectrum,
  { subjects, structures }: World,
  references: References,
): InfraredQuestion {
  const named = ({ substance: { name, smiles } }: Subject): NamedFacts => {
    const facts = smiles === undefined ? undefined : structures.get(smiles);
    return facts === undefined ? { name } : { name, facts };
  };
  const all = (role: SubjectRole) =>
    subjects.others.filter((each) => each.role === role).map(named);
  const product = subjects.product === undefined ? undefined : named(subjects.product);
  const startingMaterials = all('startingMaterial');
  if (of !== 'product') {
    // Judged for what it is itself, so that the trace shows its own bands.
    const itself =
      of === 'startingMaterial'
        ? (startingMaterials.find(({ name }) => name === substance) ?? startingMaterials[0])
        : of === 'reference'
          ? product
          : undefined;
    const rest = { startingMaterials: [], reagents: [], solvents: all('solvent') };
    return itself === undefined ? { spectrum, ...rest } : { spectrum, product: itself, ...rest };
  }
  const { startingMaterial, product: known } = references;
  return {
    spectrum,
    ...(product !== undefined && { product }),
    startingMaterials,
    reagents: [...all('reagent'), ...all('byProduct')],
    solvents: all('solvent'),
    reference: {
      ...(startingMaterial !== undefined && { startingMaterial }),
      ...(known !== undefined && { product: known }),
    },
  };
}

/** Whether the wavenumbers of the instrument are right, by the bands of the film. */
function filmStatement(spectrum: InfraredSpectrum): Statement {
  const { polystyrene, checks, verdict, offset_percm } = checkWavenumbers(spectrum);
  const found = checks.filter(({ found_percm }) => found_percm !== undefined);
  const bare = {
    id: 'wavenumbers',
    technique: 'infrared',
    about: 'instrument',
    what: 'Bands of the polystyrene film',
    expected: checks.map(({ expected_percm }) => expected_percm.toFixed(1)).join(', '),
    weight: 'strong',
    limits:
      'It tells of positions, not of heights; a check in a film holds for the instrument as it was then.',
  } as const;
  if (!polystyrene)
    return {
      ...bare,
      measured: '',
      agreement: 'cannotTell',
      says: 'This does not look like a polystyrene film, so it says nothing of the instrument.',
    };
  const measured = found.map((check) => check.found_percm!.toFixed(1)).join(', ');
  const off = `${offset_percm > 0 ? '+' : '−'}${Math.abs(offset_percm).toFixed(1)} cm⁻¹`;
  const says = {
    passes: `The wavenumbers are right: on average they are off by ${off}.`,
    fails: `The wavenumbers are off by more than they may, on average by ${off}.`,
    cannotTell: 'Too few bands of the film could be read to judge the wavenumbers.',
  }[verdict];
  const agreement = ({ passes: 'agrees', fails: 'disagrees', cannotTell: 'cannotTell' } as const)[
    verdict
  ];
  return {
    ...bare,
    measured,
    agreement,
    says,
    derivation: checks.map(({ expected_percm, found_percm, tolerance_percm, source }) => ({
      label: `${expected_percm.toFixed(1)} ± ${tolerance_percm} cm⁻¹`,
      value: found_percm === undefined ? 'not found' : `${found_percm.toFixed(1)} cm⁻¹`,
      source,
    })),
  };
}
