import type { VesselDeclaration } from '../step.ts';
import { findVessel, looksLikeVessel, readVesselPhrase } from '../vessels.ts';

/**
 * What sentences are read with, as the questions that are asked of it. A reading follows from its
 * text and the answers alone, so that it can be kept as long as the answers stay what they were.
 */
const QUESTIONS = ['knows', 'canBeVessel', 'hasVessel', 'isVesselName', 'isProduct'] as const;

type Question = (typeof QUESTIONS)[number];
type Answer = (text: string) => boolean;

/**
 * `knows`: a name of a material that can be looked up. `canBeVessel`: a phrase that can only be a
 * vessel. `hasVessel`: it is one that there is. `isVesselName`: the whole name of one, in lower
 * case. `isProduct`: the name of a declared product, in lower case.
 */
export interface Vocabulary extends Readonly<Record<Question, Answer>> {
  /** Whether a sentence may begin with a word: no name of a material does. */
  readonly begins?: Answer;
}

export interface Words {
  readonly vessels: readonly VesselDeclaration[];
  readonly products: readonly string[];
  readonly knows: Answer;
}

/** A question that was asked while a sentence was read, and its answer. */
export interface Asked {
  readonly question: Question;
  readonly text: string;
  readonly answer: boolean;
}

export function vocabularyOf({ vessels, products, knows }: Words): Vocabulary {
  const names = new Set(vessels.map(({ name }) => name.toLowerCase()));
  return {
    knows,
    canBeVessel: remembered((text) => looksLikeVessel(text, vessels)),
    hasVessel: remembered((text) => findVessel(readVesselPhrase(text), vessels) !== undefined),
    isVesselName: (text) => names.has(text),
    isProduct: (text) => products.includes(text),
  };
}

function remembered(answer: Answer): Answer {
  const answers = new Map<string, boolean>();
  return (text) => {
    const before = answers.get(text);
    if (before !== undefined) return before;
    const given = answer(text);
    answers.set(text, given);
    return given;
  };
}

/** The same vocabulary, writing down what it is asked, each question once. */
export function listening(to: Vocabulary): { vocabulary: Vocabulary; asked: readonly Asked[] } {
  const asked: Asked[] = [];
  const hear = (question: Question): Answer => {
    const heard = new Set<string>();
    return (text) => {
      const answer = to[question](text);
      if (!heard.has(text)) asked.push({ question, text, answer });
      heard.add(text);
      return answer;
    };
  };
  const answers = Object.fromEntries(QUESTIONS.map((each) => [each, hear(each)]));
  return { vocabulary: { ...to, ...(answers as Record<Question, Answer>) }, asked };
}

export function answersAlike(vocabulary: Vocabulary, asked: readonly Asked[]): boolean {
  return asked.every(({ question, text, answer }) => vocabulary[question](text) === answer);
}
