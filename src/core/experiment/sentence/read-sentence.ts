import { readAmount } from '../../quantity/amount.ts';
import type { Piece } from '../text.ts';
import type { Verb } from '../verbs/verb.ts';
import type { RawSentence } from '../verbs/verb.ts';
import { ClauseReader, UNEXPLAINED_COST } from './clause.ts';
import type { Parting, ReadyVerb } from './clause.ts';
import type { MaterialTrouble } from './materials.ts';
import { orders } from './order.ts';
import type { Grammar } from './grammar.ts';
import { tokenise } from './token.ts';
import type { Vocabulary } from './vocabulary.ts';

export interface SentenceReading {
  readonly sentence: RawSentence;
  readonly trouble: readonly MaterialTrouble[];
  /** How much speaks against the reading; a word that nothing explains counts 10. */
  readonly cost: number;
}

const SENTENCE_WORDS_LIMIT = 160;
/** More than unknown names and asides come to in a sentence that is worth reading. */
const OTHER_COSTS = 40;

/** Reads one sentence, or says that no verb explains it. */
export function readSentence(
  document: string,
  piece: Piece,
  grammar: Grammar,
  vocabulary: Vocabulary,
): SentenceReading | undefined {
  const tokens = tokenise(piece);
  if (tokens.length === 0 || tokens.length > SENTENCE_WORDS_LIMIT) return undefined;
  const reader = new ClauseReader(document, vocabulary);
  const unexplainedLimit = Math.max(2, 0.34 * tokens.length);
  const dearest = UNEXPLAINED_COST * unexplainedLimit + OTHER_COSTS;
  let best:
    { cost: number; parting: Parting; ready: ReadyVerb; head: readonly string[] } | undefined;
  for (const order of orders(tokens, grammar)) {
    for (const head of grammar.heads.get(order.tokens[order.headAt]!.word) ?? []) {
      if (!head.words.every((word, k) => order.tokens[k]?.word === word)) continue;
      const rest = order.tokens.slice(head.words.length);
      const breaks = new Set(
        [...order.breaks].map((b) => b - head.words.length).filter((b) => b > 0),
      );
      const { verb } = head.ready;
      const own = order.penalty - 0.1 * head.words.length;
      const parting = reader.part(
        head.ready,
        rest,
        breaks,
        (found) => verb.fits?.(sentenceOf(verb, head.words, found)) ?? true,
        (best?.cost ?? dearest) - own,
      );
      if (!parting) continue;
      const cost = parting.cost + own;
      best = { cost, parting, ready: head.ready, head: head.words };
    }
  }
  if (!best) return undefined;
  const { parting } = best;
  if (parting.unexplained.length > unexplainedLimit) return undefined;
  return {
    sentence: sentenceOf(best.ready.verb, best.head, parting),
    trouble: parting.trouble,
    cost: best.cost,
  };
}

/** "Acidify with hydrochloric acid until pH 1 (about 8 mL)": how much it takes stands at the end. */
function lateAmount(slots: Parting['slots']): Parting['slots'] {
  const { materials: list, with: second, until } = slots;
  if (list?.kind !== 'materials' || second !== undefined || until?.kind !== 'amount') return slots;
  const bracket = /\(([^()]+)\)\s*$/.exec(until.amount.text);
  const last = list.materials.at(-1);
  if (!bracket || !last || last.amounts.length > 0) return slots;
  const amount = readAmount(bracket[1]!.trim());
  if (amount.kind !== 'volume' && amount.kind !== 'mass' && amount.kind !== 'amount') return slots;
  return {
    ...slots,
    materials: {
      kind: 'materials',
      materials: [
        ...list.materials.slice(0, -1),
        { ...last, amounts: [amount], repeat: amount.repeat ?? 1 },
      ],
    },
  };
}

function sentenceOf(verb: Verb, head: readonly string[], parting: Parting): RawSentence {
  return {
    verb: verb.kind,
    head: head.join(' '),
    arguments: lateAmount(parting.slots),
    manner: parting.manner,
    unexplained: parting.unexplained,
  };
}
