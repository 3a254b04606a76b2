import type { Token } from './token.ts';

/**
 * Words that say how something is done. Every verb takes these; those that matter to one verb alone
 * stand in its file. The value is the name by which verb files ask for it.
 */
export const MANNERS: Readonly<Record<string, string>> = {
  dropwise: 'dropwise',
  'drop by drop': 'dropwise',
  'several times': 'repeatedly',
  'a few times': 'repeatedly',
  'two or three times': 'repeatedly',
  repeatedly: 'repeatedly',
  often: 'repeatedly',
  frequently: 'repeatedly',
  'from time to time': 'occasionally',
  throughout: 'continuously',
  continuously: 'continuously',
  constantly: 'continuously',
  quantitatively: 'completely',
  'as completely as possible': 'completely',
  'with heating': 'with warming',
  'by heating': 'with warming',
  'by warming': 'with warming',
  'to a fine powder': 'to a powder',
  'to a powder': 'to a powder',
  'with a glass rod': 'with a rod',
  'with a stirring rod': 'with a rod',
  'with a spatula': 'with a spatula',
  'with a measuring cylinder': 'by cylinder',
  'with a graduated cylinder': 'by cylinder',
  'on top': 'on top',

  'drop wise': 'dropwise',
  'a little at a time': 'in portions',
  'bit by bit': 'in portions',
  'in small amounts': 'in portions',
  'without the stopper': 'open',
  'when dry': 'dry',
  'once dry': 'dry',
  'with your hand': 'gently',
  'to dry': 'to dry',
  'as much liquid as possible': 'dry',
  'as much of the liquid as possible': 'dry',
  'at atmospheric pressure': 'atmospheric',
  slowly: 'slowly',
  'very slowly': 'slowly',
  cautiously: 'carefully',
  carefully: 'carefully',
  'with care': 'carefully',
  gently: 'gently',
  'very gently': 'gently',
  vigorously: 'vigorously',
  briskly: 'vigorously',
  thoroughly: 'thoroughly',
  well: 'thoroughly',
  completely: 'completely',
  quickly: 'quickly',
  rapidly: 'quickly',
  immediately: 'quickly',
  'at once': 'quickly',
  'all at once': 'at once',
  'in one portion': 'at once',
  'in a single portion': 'at once',
  gradually: 'slowly',
  'in portions': 'in portions',
  'in small portions': 'in portions',
  portionwise: 'in portions',
  'portion by portion': 'in portions',
  'with stirring': 'with stirring',
  'with vigorous stirring': 'with stirring',
  'with good stirring': 'with stirring',
  'with rapid stirring': 'with stirring',
  'with gentle stirring': 'with stirring',
  'with constant stirring': 'with stirring',
  'with magnetic stirring': 'with stirring',
  'while stirring': 'with stirring',
  stirring: 'with stirring',
  magnetically: 'with stirring',
  'with swirling': 'with swirling',
  'while swirling': 'with swirling',
  swirling: 'with swirling',
  'with shaking': 'with shaking',
  'with cooling': 'with cooling',
  'with ice cooling': 'with cooling',
  'with warming': 'with warming',
  'under nitrogen': 'under nitrogen',
  'under an atmosphere of nitrogen': 'under nitrogen',
  'under a nitrogen atmosphere': 'under nitrogen',
  'under a stream of nitrogen': 'under nitrogen',
  'under argon': 'under argon',
  'under an argon atmosphere': 'under argon',
  'under an atmosphere of argon': 'under argon',
  'under an inert atmosphere': 'under nitrogen',
  'by syringe': 'by syringe',
  'via syringe': 'by syringe',
  'from a syringe': 'by syringe',
  'with a syringe': 'by syringe',
  'by pipette': 'by pipette',
  'with a pipette': 'by pipette',
  'from a pipette': 'by pipette',
  'with a pasteur pipette': 'by pipette',
  'from a dropping pipette': 'by pipette',
  'from a burette': 'by burette',
  'from a measuring cylinder': 'by cylinder',
  'through the addition funnel': 'from the addition funnel',
  'from the addition funnel': 'from the addition funnel',
  'from an addition funnel': 'from the addition funnel',
  'from the dropping funnel': 'from the addition funnel',
  'from a dropping funnel': 'from the addition funnel',
  'through the condenser': 'through the condenser',
  'down the condenser': 'through the condenser',
  'in the fume cupboard': 'in the hood',
  'in a fume cupboard': 'in the hood',
  'in the fume hood': 'in the hood',
  'in the hood': 'in the hood',
  'if necessary': 'if needed',
  'if needed': 'if needed',
  'as needed': 'if needed',
  again: 'again',
  'once more': 'again',
  'to dissolve': 'to dissolve',
  'to dissolve it': 'to dissolve',
  'to dissolve the solid': 'to dissolve',
  'with a stir bar': 'with a stir bar',
  'with a stirrer bar': 'with a stir bar',
  'with a magnetic stirrer': 'with stirring',
  'on a magnetic stirrer': 'with stirring',
  accurately: 'accurately',
  'to the nearest milligram': 'accurately',
  'in each case': 'each',
  'each time': 'each',
  each: 'each',
  occasionally: 'occasionally',
  'with occasional swirling': 'with swirling',
  'with occasional stirring': 'with stirring',
  'with occasional shaking': 'with shaking',
  'with venting': 'venting',
  undisturbed: 'standing',
  'through its neck': 'through the neck',
  'through the neck': 'through the neck',
  'with a drying tube': 'drying tube',
  'with a calcium chloride tube': 'drying tube',
  'with a lid': 'closed',
  'with foil': 'closed',
  'with a stopper': 'closed',
  'with a septum': 'closed',
  'a few boiling chips': 'boiling chips',
  'boiling chips': 'boiling chips',
  'two boiling chips': 'boiling chips',
  'a boiling chip': 'boiling chips',
  'boiling stones': 'boiling chips',
  'a few small chips of porous porcelain': 'boiling chips',
  'a few chips of porous porcelain': 'boiling chips',
  'a few pieces of porous pot': 'boiling chips',
  'a few pieces of porous porcelain': 'boiling chips',
  'a few boiling stones': 'boiling chips',
  'a boiling stone': 'boiling chips',
  'a few anti-bumping granules': 'boiling chips',
  'anti-bumping granules': 'boiling chips',
  'a stir bar': 'with a stir bar',
  'a magnetic stir bar': 'with a stir bar',
  'a stirrer bar': 'with a stir bar',
  'a magnetic stirrer bar': 'with a stir bar',
  'a magnetic follower': 'with a stir bar',
  'in small pieces': 'in portions',
  'in pieces': 'in portions',
  closed: 'closed',
  opened: 'opened',
  sealed: 'closed',
  stoppered: 'closed',
  'in the closed vessel': 'closed',
  'with the stopper in': 'closed',
  'in a sealed tube': 'closed',
  'in a sealed vessel': 'closed',
  'cooled in ice': 'with cooling',
  'cooled in an ice bath': 'with cooling',
  'with ice-cooling': 'with cooling',
  'out of the ice': 'out of the bath',
  'out of the ice bath': 'out of the bath',
  'out of the bath': 'out of the bath',
  'from the ice bath': 'out of the bath',
  'from the ice': 'out of the bath',
  'from the bath': 'out of the bath',
  'from the heat': 'out of the bath',
  'off the heat': 'out of the bath',
  'from the oil bath': 'out of the bath',
  'from the water bath': 'out of the bath',
  venting: 'venting',
  'venting often': 'venting',
  'venting frequently': 'venting',
  'with frequent venting': 'venting',
};

/** Words that carry no matter; they may stand anywhere. */
export const IDLE = new Set([
  ',', ':', ';', '–', '—', '-', 'then', 'now', 'next', 'finally', 'first', 'also', 'and', 'the', 'together', 'just',
  'please', 'meanwhile', 'afterwards', 'subsequently', 'further', 'freshly', 'by', 'so', 'that', 'thus', 'therefore',
  'only', 'directly', 'once', 'there', 'temperature', 'nearly', 'almost', 'both', 'all', 'when', 'it', 'is', 'to', 'a', 'still', 'simply', 'any', 'with', 'of', 'some',
]);

export interface PhraseTable {
  readonly byFirst: ReadonlyMap<string, readonly { readonly words: readonly string[]; readonly value: string }[]>;
}

export function phraseTable(phrases: Readonly<Record<string, string>>): PhraseTable {
  const byFirst = new Map<string, { words: string[]; value: string }[]>();
  for (const [phrase, value] of Object.entries(phrases)) {
    const words = phrase.split(' ');
    const list = byFirst.get(words[0]!) ?? [];
    list.push({ words, value });
    list.sort((a, b) => b.words.length - a.words.length);
    byFirst.set(words[0]!, list);
  }
  return { byFirst };
}

const DOING: Readonly<Record<string, string>> = {
  stirring: 'with stirring', swirling: 'with swirling', shaking: 'with shaking', cooling: 'with cooling', warming: 'with warming', heating: 'with warming', venting: 'venting',
};

/** "with efficient mechanical stirring": an adjective or two change nothing. */
export function doingAt(tokens: readonly Token[], at: number): { value: string; length: number } | undefined {
  if (tokens[at]?.word !== 'with' && tokens[at]?.word !== 'by') return undefined;
  for (let k = 1; k <= 3; k++) {
    const word = tokens[at + k]?.word;
    if (word === undefined || !/^[a-z-]+$/.test(word)) return undefined;
    const value = DOING[word];
    if (value !== undefined) return { value, length: k + 1 };
  }
  return undefined;
}

/** The longest phrase of the table that begins at a token. */
export function phraseAt(
  table: PhraseTable,
  tokens: readonly Token[],
  at: number,
): { value: string; length: number } | undefined {
  for (const { words, value } of table.byFirst.get(tokens[at]?.word ?? '') ?? [])
    if (words.every((word, i) => tokens[at + i]?.word === word))
      return { value, length: words.length };
  return undefined;
}

export const MANNER_TABLE = phraseTable(MANNERS);
