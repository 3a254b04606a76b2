import { phraseTable } from './manner.ts';
import type { ReadyClause, ReadyVerb } from './clause.ts';
import type { Verb } from '../verbs/verb.ts';

interface Head {
  readonly words: readonly string[];
  readonly ready: ReadyVerb;
}

/** All verbs, made ready once: heads by their first word, participles by their form. */
export interface Grammar {
  readonly heads: ReadonlyMap<string, readonly Head[]>;
  readonly participles: ReadonlyMap<string, readonly string[]>;
}

export function grammarOf(verbs: readonly Verb[]): Grammar {
  const heads = new Map<string, Head[]>();
  const participles = new Map<string, string[]>();
  const addParticiple = (form: string, head: readonly string[]) => {
    if (!participles.has(form)) participles.set(form, [...head]);
  };
  for (const verb of verbs) {
    const clauses = verb.clauses
      .flatMap((form): ReadyClause[] =>
        form.words.length === 0
          ? [{ words: [], form }]
          : form.words.map((words) => ({ words: words.split(' '), form })),
      )
      .sort((a, b) => b.words.length - a.words.length);
    const ready: ReadyVerb = {
      verb,
      clauses,
      byFirst: byFirstWord(clauses),
      manners: phraseTable(verb.manners ?? {}),
    };
    for (const head of verb.heads) {
      const words = head.split(' ');
      heads.set(words[0]!, [...(heads.get(words[0]!) ?? []), { words, ready }]);
      for (const form of participlesOf(words[0]!)) addParticiple(form, [words[0]!]);
    }
    for (const [form, head] of Object.entries(verb.participles ?? {}))
      participles.set(form, head.split(' '));
  }
  return { heads, participles };
}

function byFirstWord(clauses: readonly ReadyClause[]): Map<string, ReadyClause[]> {
  const found = new Map<string, ReadyClause[]>();
  for (const clause of clauses) {
    const first = clause.words[0] ?? '';
    const there = found.get(first);
    if (there) there.push(clause);
    else found.set(first, [clause]);
  }
  return found;
}

/** add -> added, charge -> charged, dry -> dried, stir -> stirred. */
function participlesOf(word: string): string[] {
  if (word.endsWith('e')) return [`${word}d`];
  if (/[^aeiou]y$/.test(word)) return [`${word.slice(0, -1)}ied`];
  const doubled = /[^aeiou][aeiou][bdglmnprt]$/.test(word) ? [`${word}${word.at(-1)}ed`] : [];
  return [...doubled, `${word}ed`];
}
