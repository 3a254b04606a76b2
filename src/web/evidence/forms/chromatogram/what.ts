import type { PeakRole } from '../../../../core/evidence/chromatogram/schema.ts';
import type { Subjects } from '../../../../core/evidence/subject.ts';
import { readChoiceOrOther } from '../choice-or-other.tsx';
import { readDraft } from '../draft.ts';
import type { Draft, DraftReader } from '../draft.ts';
import type { Option } from '../fields.tsx';
import { substanceOptions } from '../substances.ts';

/** What is no substance of the sample, by what the choice holds. */
const ROLES: Readonly<Record<string, PeakRole>> = {
  '@solvent': 'solvent',
  '@internalStandard': 'internalStandard',
  '@blank': 'blank',
};

/** What a peak may be: a substance of the experiment, or something that is not counted. */
export function whatOf(subjects: Subjects) {
  const options: readonly Option[] = [
    ['', 'not known'],
    ...substanceOptions(subjects),
    ['@solvent', 'what the sample was dissolved in'],
    ['@internalStandard', 'the internal standard'],
    ['@blank', 'there without a sample too'],
  ];
  return { name: 'what', options };
}

/** Who the peak is, as the entry holds it. */
export function readWhat(
  row: DraftReader,
  subjects: Subjects,
): { readonly name: string | undefined; readonly role: PeakRole | undefined } {
  const chosen = readChoiceOrOther(row, whatOf(subjects));
  const role = chosen === undefined ? undefined : ROLES[chosen];
  return { name: role === undefined ? chosen : undefined, role };
}

/** The names that peaks have so far: what ratios and factors are about. */
export function namesIn(draft: Draft, subjects: Subjects): readonly Option[] {
  return nameOptions(
    readDraft(draft, '.')
      .rows('peaks')
      .map((row) => readWhat(row, subjects).name),
  );
}

export function nameOptions(names: readonly (string | undefined)[]): readonly Option[] {
  const known = names.filter((name) => name !== undefined && name !== '');
  return [...new Set(known)].map((name) => [name!, name!]);
}
