import type { Statement } from '../../statement.ts';
import type { InfraredQuestion } from './judge.ts';
import { GENERAL_LIMITS } from './limits.ts';
import { GROUP_WORDS, capital } from './group-words.ts';
import type { Parts } from './statements.ts';

/** The whole in a few plain sentences: what fits, changed, is left, and cannot be told. */
export function storyOf(
  parts: Parts,
  statements: readonly Statement[],
  { product }: InfraredQuestion,
): readonly string[] {
  const told = (about: Statement['about']) =>
    statements.filter((one) => one.about === about).map(({ says }) => says);
  const firm = parts.groups.filter(({ verdict }) => verdict === 'present');
  const blind =
    product?.facts !== undefined || firm.length === 0
      ? []
      : [`Seen without any structure: ${firm.map(({ group }) => GROUP_WORDS[group]).join(', ')}.`];
  const found = parts.contaminants.filter(({ verdict }) => verdict === 'present');
  return [
    ...parts.quality,
    ...blind,
    ...told('identity'),
    ...told('change'),
    ...told('startingMaterial'),
    ...found.map(({ name }) => `${capital(name)} is likely in the sample.`),
    ...told('purity'),
    GENERAL_LIMITS,
  ];
}
