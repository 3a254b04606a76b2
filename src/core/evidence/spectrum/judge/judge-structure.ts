import type { StructureFacts } from '../../structure.ts';
import type { InfraredSpectrum } from '../infrared.ts';
import { contextOf } from './context.ts';
import type { GroupJudgement } from './group-judgement.ts';
import { verdictOf } from './group-judgement.ts';
import { thresholdsOf } from './group.ts';
import { groupsIn } from './groups-seen.ts';
import { elementsOf, holds, isChelated } from './structure-groups.ts';
import { moved } from './weigh.ts';

/** What a structure on paper does to the odds of a group that it has, and of any other. */
const IF_HELD = 3;
const IF_NOT = 1 / 2;

/**
 * Every group with the structure in mind: its elements rule out groups, its groups are expected a
 * little, and an X–H bonded inside the molecule is not called absent because it is not seen.
 */
export function judgeStructure(
  spectrum: InfraredSpectrum,
  facts: StructureFacts,
): readonly GroupJudgement[] {
  const elements = elementsOf([facts]);
  const context = contextOf(spectrum, elements === undefined ? {} : { elements });
  return groupsIn(context).map((judged) => {
    const held = holds(facts, judged.group);
    const probability = moved(judged.probability, held ? IF_HELD : IF_NOT);
    const verdict = verdictOf(probability, thresholdsOf(judged.group, context));
    const isHidden = judged.evidence.length === 0 && judged.verdict === 'cannotTell';
    if (isHidden) return judged;
    const faint =
      held &&
      verdict === 'absent' &&
      (judged.group === 'oh' || judged.group === 'nh') &&
      isChelated(facts);
    if (!faint) return { ...judged, probability, verdict };
    return {
      ...judged,
      probability: Math.max(probability, 0.3),
      verdict: 'cannotTell',
      reasons: [
        ...judged.reasons,
        'The structure bonds this X–H inside the molecule: its band can be too faint and wide to see.',
      ],
    };
  });
}
