import type { Token } from './token.ts';
import type { Grammar } from './grammar.ts';

const MODAL = new Set(['is', 'are', 'was', 'were', 'be', 'been', 'being']);
const ADVERB = /ly$|^(?:then|now|dropwise|again|further|next|first|also|each|both|all)$/;
const PARTICLE = /^(?:off|out|up|down|away|over|in)$/;
const BEGINS = /^(?:continued|started|begun|resumed|commenced)$/;
const STANDS = /^(?:stand|sit|settle|react|separate)$/;
const LETS = /^(?:allowed|permitted|left|let|made)$/;
const FRONT =
  /^(?:to|into|in|with|under|after|when|once|while|using|from|over|for|at|on|by|through|as|slowly|carefully|cautiously|gently|then|next|now|finally|immediately|quickly|dropwise|meanwhile|if|,)$/;

/** Words put into imperative order; `breaks` are the places where neighbours were not so in the text. */
export interface Order {
  readonly tokens: readonly Token[];
  readonly breaks: ReadonlySet<number>;
  /** Where in `tokens` the head may stand. */
  readonly headAt: number;
  readonly penalty: number;
}

/** A sentence's possible orders: as it stands, with what is in front put last, and from the passive. */
export function orders(tokens: readonly Token[], grammar: Grammar): Order[] {
  const found: Order[] = [];
  const lead = skipLead(tokens);
  for (let p = lead; p < Math.min(tokens.length, lead + SUBJECT_WORDS); p++) {
    const token = tokens[p]!;
    if (token.depth > 0) continue;
    if (
      p < lead + FRONT_WORDS &&
      grammar.heads.has(token.word) &&
      (p === lead || FRONT.test(tokens[lead]!.word))
    )
      found.push(reorder(tokens, lead, p, p, p === lead ? 0 : 1.5));
    if (p === lead) found.push(...particleOrders(tokens, p, grammar));
    const passive = passiveAt(tokens, p, grammar);
    if (passive) found.push(...passiveOrders(tokens, lead, p, passive, grammar));
    if (p < lead + 3 && tokens.slice(lead, p).every((before) => ADVERB.test(before.word))) {
      const base = grammar.participles.get(token.word);
      if (base) found.push(...elidedOrders(tokens, lead, p, base, grammar));
    }
    const allow =
      p === lead && /^(?:allow|let|leave|permit|bring)$/.test(token.word)
        ? allowOrder(tokens, p, grammar)
        : undefined;
    if (allow) found.push(allow);
  }
  return found;
}

/** "Then", "Next," and a subordinate clause up to its comma are not part of what is done. */
export function skipLead(tokens: readonly Token[]): number {
  let i = 0;
  while (
    i < tokens.length &&
    /^(?:then|next|now|finally|and|first|second|third|lastly|meanwhile|afterwards|afterward|thereafter|subsequently|whereupon|,)$/.test(
      tokens[i]!.word,
    )
  )
    i++;
  // "after which time water was added", "which was dried"
  if (/^(?:after|upon|at|during)$/.test(tokens[i]?.word ?? '') && tokens[i + 1]?.word === 'which')
    i += /^(?:time|point|period)$/.test(tokens[i + 2]?.word ?? '') ? 3 : 2;
  else if (/^(?:which|that)$/.test(tokens[i]?.word ?? '') && MODAL.has(tokens[i + 1]?.word ?? ''))
    i++;
  // A notebook says who did it
  else if (/^(?:i|we|you|they)$/.test(tokens[i]?.word ?? '')) i++;
  const purpose =
    tokens[i]?.word === 'to' &&
    /^(?:obtain|prepare|make|give|produce|remove|ensure|avoid|complete|destroy|isolate|recover|purify)$/.test(
      tokens[i + 1]?.word ?? '',
    );
  if (
    purpose ||
    /^(?:when|once|after|while|as|if|before|because|since|during|following)$/.test(
      tokens[i]?.word ?? '',
    )
  ) {
    const comma = tokens.findIndex((token, k) => k > i && token.word === ',' && token.depth === 0);
    if (comma > 0 && comma < tokens.length - 1) return comma + 1;
  }
  return i;
}

/** "Set the flask aside", "pour the liquid off": the second word of a head may stand behind the object. */
function particleOrders(tokens: readonly Token[], p: number, grammar: Grammar): Order[] {
  const found: Order[] = [];
  for (let k = p + 2; k < Math.min(tokens.length, p + 8); k++) {
    const { word, depth } = tokens[k]!;
    if (depth > 0 || !/^(?:aside|off|out|down|away|up|in)$/.test(word)) continue;
    const head = grammar.heads
      .get(tokens[p]!.word)
      ?.some(({ words }) => words.length === 2 && words[1] === word);
    if (head)
      found.push(
        inOrder([[tokens[p]!, tokens[k]!], tokens.slice(p + 1, k), tokens.slice(k + 1)], 0.05),
      );
  }
  return found;
}

function passiveAt(
  tokens: readonly Token[],
  p: number,
  grammar: Grammar,
): { at: number; base: readonly string[] } | undefined {
  if (!MODAL.has(tokens[p]!.word)) return undefined;
  for (let k = p + 1; k < Math.min(tokens.length, p + 5); k++) {
    const base = grammar.participles.get(tokens[k]!.word);
    if (base) return { at: k, base };
    if (!ADVERB.test(tokens[k]!.word) && !/^(?:not|to|be)$/.test(tokens[k]!.word)) return undefined;
  }
  return undefined;
}

function reorder(
  tokens: readonly Token[],
  lead: number,
  from: number,
  p: number,
  penalty: number,
): Order {
  const front = tokens.slice(lead, p);
  const rest = tokens.slice(from);
  const breaks = new Set<number>(front.length > 0 ? [rest.length] : []);
  return { tokens: [...rest, ...front], breaks, headAt: 0, penalty };
}

/** Where a participle stands, the head that it is of, how many words after it belong to the head. */
interface Passive {
  readonly at: number;
  readonly base: readonly string[];
  readonly past?: number;
}

/** "was filtered off", "was drawn off": heads of two words, the second of which stands after the participle. */
function formsOf(tokens: readonly Token[], passive: Passive, grammar: Grammar): Passive[] {
  const { at, base } = passive;
  const after = tokens.slice(at + 1);
  // "air was drawn through it": the other words of the head stand somewhere
  const whole =
    base.length === 1 ||
    (after[0]?.word !== base[1] &&
      base.slice(1).every((each) => tokens.some((token) => token.word === each)));
  const found: Passive[] = whole ? [passive] : [];
  for (const { words } of grammar.heads.get(base[0]!) ?? [])
    if (
      words.length > 1 &&
      PARTICLE.test(words[1]!) &&
      words.slice(1).every((each, k) => after[k]?.word === each)
    )
      // "poured off the crystals": the particle may open a clause too
      found.push({ at, base: words, past: words.length - 1 }, { at, base: words });
  return found;
}

/** What a passive may mean: as it stands, "was allowed to cool" (cool it), "stirring was continued" (stir it). */
function passiveOrders(
  tokens: readonly Token[],
  lead: number,
  p: number,
  passive: Passive,
  grammar: Grammar,
): Order[] {
  const found: Order[] = [];
  for (const form of formsOf(tokens, passive, grammar)) {
    found.push(passiveOrder(tokens, lead, p, form));
    const fronted = frontedOrder(tokens, lead, p, form);
    if (fronted) found.push(fronted);
  }
  const word = tokens[passive.at]!.word;
  const doing =
    BEGINS.test(word) && p > lead ? imperativeOf(tokens[p - 1]!.word, grammar) : undefined;
  if (doing !== undefined) {
    const before = tokens
      .slice(lead, p - 1)
      .filter(
        (token) =>
          !/^(?:the|vigorous|gentle|rapid|constant|steady|mechanical|magnetic|efficient|good)$/.test(
            token.word,
          ),
      );
    found.push(
      inOrder([[{ ...tokens[p - 1]!, word: doing }], tokens.slice(passive.at + 1), before], 0),
    );
  }
  const let_ = letOrder(tokens, lead, p, passive.at);
  if (let_ && grammar.heads.has(let_.tokens[0]!.word)) found.push(let_);
  return found;
}

function passiveOrder(tokens: readonly Token[], lead: number, p: number, passive: Passive): Order {
  const subject = tokens.slice(lead, p);
  const rest = tokens.slice(passive.at + 1 + (passive.past ?? 0));
  const between = tokens.slice(p + 1, passive.at);
  // "To the flask was added sodium borohydride": what is in front is a clause, not the subject
  const inverted =
    subject.length > 0 && /^(?:to|into|in|under|with|over|at|on|onto|from)$/.test(subject[0]!.word);
  return inOrder(
    [
      headOf(tokens[passive.at]!, passive.base),
      ...(inverted ? [rest, subject, between] : [subject, rest, between]),
    ],
    0.2,
  );
}

/** "With good stirring, the bromine was run in": the clause in front ends at its comma. */
function frontedOrder(
  tokens: readonly Token[],
  lead: number,
  p: number,
  passive: Passive,
): Order | undefined {
  if (!FRONT.test(tokens[lead]?.word ?? '')) return undefined;
  const comma = tokens.findIndex(
    (token, i) => i > lead && i < p && token.word === ',' && token.depth === 0,
  );
  if (comma < 0) return undefined;
  const rest = tokens.slice(passive.at + 1 + (passive.past ?? 0));
  return inOrder(
    [
      headOf(tokens[passive.at]!, passive.base),
      tokens.slice(comma + 1, p),
      rest,
      tokens.slice(p + 1, passive.at),
      tokens.slice(lead, comma),
    ],
    0.3,
  );
}

/** "... and filtered through cotton wool", "Stirred for 1 h": what is acted on is what is in hand. */
function elidedOrders(
  tokens: readonly Token[],
  lead: number,
  p: number,
  base: readonly string[],
  grammar: Grammar,
): Order[] {
  const found = formsOf(tokens, { at: p, base }, grammar).map((form) =>
    inOrder(
      [
        headOf(tokens[p]!, form.base),
        tokens.slice(p + 1 + (form.past ?? 0)),
        tokens.slice(lead, p),
      ],
      0.3,
    ),
  );
  const let_ = letOrder(tokens, lead, lead, p);
  return let_ && grammar.heads.has(let_.tokens[0]!.word) ? [...found, let_] : found;
}

/** "was allowed to cool" is "cool". */
function letOrder(
  tokens: readonly Token[],
  lead: number,
  p: number,
  at: number,
): Order | undefined {
  const to = tokens[at + 1]?.word === 'to' ? tokens[at + 2] : undefined;
  if (!LETS.test(tokens[at]!.word) || !to) return undefined;
  const head = STANDS.test(to.word) ? 'stand' : to.word;
  return inOrder(
    [[{ ...to, word: head }], tokens.slice(lead, p), tokens.slice(at + 3), tokens.slice(p + 1, at)],
    0,
  );
}

function headOf(token: Token, base: readonly string[]): Token[] {
  return base.map((word, i) => ({ ...token, word, text: i === 0 ? token.text : word }));
}

/** Runs of words put one after another; where two of them meet no argument reaches across. */
function inOrder(parts: readonly (readonly Token[])[], penalty: number): Order {
  const ordered: Token[] = [];
  const breaks = new Set<number>();
  for (const part of parts) {
    ordered.push(...part);
    breaks.add(ordered.length);
  }
  breaks.delete(ordered.length);
  return { tokens: ordered, breaks, headAt: 0, penalty };
}

/** "Allow the mixture to cool to room temperature" -> "cool the mixture to room temperature". */
function allowOrder(tokens: readonly Token[], p: number, grammar: Grammar): Order | undefined {
  const bare = tokens[p]!.word === 'let';
  for (let k = p + 1; k < tokens.length; k++) {
    if (tokens[k]!.depth > 0) continue;
    const to = tokens[k]!.word === 'to';
    if (to && k === tokens.length - 1) break;
    if (
      !to &&
      !(
        bare &&
        k > p + 1 &&
        (grammar.heads.has(tokens[k]!.word) || /^(?:sit|settle|react)$/.test(tokens[k]!.word))
      )
    )
      continue;
    const next = to ? tokens[k + 1]! : tokens[k]!;
    const head = STANDS.test(next.word) ? 'stand' : next.word;
    if (!grammar.heads.has(head)) continue;
    const subject = tokens.slice(p + 1, k);
    let rest = tokens.slice(to ? k + 2 : k + 1);
    // "let them air dry": a verb of two words stays one
    const second = (grammar.heads.get(head) ?? []).some(
      (form) => form.words.length > 1 && form.words[1] === rest[0]?.word,
    )
      ? rest[0]
      : undefined;
    if (second) rest = rest.slice(1);
    const ordered = [{ ...next, word: head }, ...(second ? [second] : []), ...subject, ...rest];
    const begin = second ? 2 : 1;
    return {
      tokens: ordered,
      breaks: new Set([begin, begin + subject.length]),
      headAt: 0,
      penalty: 0,
    };
  }
  return undefined;
}

/** stirring -> stir, rinsing -> rinse, where a verb begins so. */
export function imperativeOf(word: string, grammar: Grammar): string | undefined {
  if (word.length < 6 || !word.endsWith('ing')) return undefined;
  const stem = word.slice(0, -3);
  const undoubled = stem.at(-1) === stem.at(-2) ? stem.slice(0, -1) : undefined;
  return [stem, `${stem}e`, undoubled].find(
    (form) => form !== undefined && grammar.heads.has(form),
  );
}

/** Whether a passive begins at a token: "was poured", "the layers were separated", "filtered". */
export function passiveBegins(tokens: readonly Token[], i: number, grammar: Grammar): boolean {
  let k = i;
  while (k < i + 3 && ADVERB.test(tokens[k]?.word ?? '')) k++;
  return grammar.participles.has(tokens[k]?.word ?? '') || passiveClauseBegins(tokens, i, grammar);
}

/** Whether a passive with its subject begins at a token: "the layers were separated". */
export function passiveClauseBegins(
  tokens: readonly Token[],
  i: number,
  grammar: Grammar,
): boolean {
  for (let k = i; k < Math.min(tokens.length, i + SUBJECT_WORDS); k++) {
    if (tokens[k]!.depth === 0 && passiveAt(tokens, k, grammar)) return true;
    if (tokens[k]!.word === ';') return false;
  }
  return false;
}

/** No subject of a passive is longer. */
const SUBJECT_WORDS = 90;
/** No clause in front of an imperative is longer. */
const FRONT_WORDS = 24;
