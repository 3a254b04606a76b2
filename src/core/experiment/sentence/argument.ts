import { readAmount } from '../../quantity/amount.ts';
import type { Amount } from '../../quantity/amount.ts';
import type { BathKind, VesselDeclaration } from '../step.ts';
import type { Piece } from '../text.ts';
import type { Argument, ArgumentKind, RawKeep } from '../verbs/verb.ts';
import { looksLikeVessel, readVesselPhrase, findVessel } from '../vessels.ts';
import { readMaterials } from './materials.ts';
import type { MaterialTrouble, RawMaterial } from './materials.ts';
import { readReference } from './reference.ts';

/** What is known of names while sentences are read. */
export interface Vocabulary {
  readonly vessels: readonly VesselDeclaration[];
  /** Names of declared products, lower case. */
  readonly products: readonly string[];
  /** Whether a name is a material that can be looked up. */
  knows(name: string): boolean;
  /** Whether a sentence may begin with a word: no name of a material does. */
  begins?(word: string): boolean;
}

export interface ReadArgument {
  readonly argument: Argument;
  /** Nought where nothing speaks against the reading. */
  readonly cost: number;
  readonly trouble?: readonly MaterialTrouble[];
}

type Reader = (piece: Piece, vocabulary: Vocabulary) => ReadArgument | undefined;

const readVessel: Reader = (piece, { vessels }) => {
  const text = piece.text.replace(/[,:]$/, '');
  if (!looksLikeVessel(text, vessels)) return undefined;
  const known = findVessel(readVesselPhrase(text), vessels) !== undefined;
  return { argument: { kind: 'vessel', phrase: text, start: piece.start }, cost: known ? 0 : 0.5 };
};

const readRef: Reader = (piece, { vessels, products, knows }) => {
  const ref = readReference(piece.text, vessels, products, knows);
  if (!ref) return undefined;
  const unknown =
    ref.vesselPhrase !== undefined &&
    findVessel(readVesselPhrase(ref.vesselPhrase), vessels) === undefined;
  return {
    argument: { kind: 'ref', ref, start: piece.start },
    cost:
      (unknown ? 0.5 : ref.named !== undefined ? 0.3 : 0) +
      (/\son\s/i.test(piece.text) && ref.vesselPhrase !== undefined ? 0.1 : 0) +
      (/\bwaste\b/i.test(ref.vesselPhrase ?? '') ? 1 : 0),
  };
};

/** "the extracts and the washings": two or more references. */
const readRefs: Reader = (piece, vocabulary) => {
  const parts = piece.text
    .split(/,\s+(?:and\s+)?|\s+and\s+|\s+with\s+/)
    .filter((part) => part.trim() !== '');
  const refs = parts.map((part) =>
    readReference(part, vocabulary.vessels, vocabulary.products, vocabulary.knows),
  );
  if (refs.length === 0 || refs.some((ref) => ref === undefined)) return undefined;
  return { argument: { kind: 'refs', refs: refs.map((ref) => ref!), start: piece.start }, cost: 0 };
};

/** Words that go back to something said before, or tell what is done: never the name of a material. */
const NO_MATERIAL =
  /^(?:it|them|this|that|these|those|everything|the (?:rest|remainder)|rest|remainder|(?:this|that) (?:solution|mixture)|remainder of .*|(?:dissolving|diluting|using)\b.*|per \w+|which .*|by which .*)$/i;

/** A passive, whole or begun ("was poured", "dried over it"), tells what is done. */
const DEEDS = String.raw`added|filtered|dried|air-dried|washed|weighed|poured|cooled|decanted|transferred|treated|collected|stirred|heated|evaporated|separated|recrystalli[sz]ed|rinsed|acidified|extracted|distilled|drained|stoppered|shaken|pressed|refluxed|concentrated|diluted|allowed|left`;
const DONE = new RegExp(
  String.raw`\b(?:is|are|was|were|been|being)\b|^(?:${DEEDS})(?:$| (?:by|in|on|at|to|into|with|through|from|over|under|for|off|as)\b)`,
  'i',
);
/** "..., filtered and concentrated": more that is done. */
const NEXT_DEED = new RegExp(
  String.raw`(?:,|\band)\s+(?:then\s+)?(?:[a-z]+ly\s+)?(?:${DEEDS})\b`,
  'i',
);

/** "water in ice" stands in a bath. */
const IN_BATH =
  /\bin (?:(?:an?|the) )?(?:ice|ice[- ](?:water|salt)|(?:water|oil|ice|steam|sand)[- ]?bath)$/i;

const readList: Reader = (piece, vocabulary) => {
  const list = readMaterials(piece);
  const { trouble } = list;
  const materials = list.materials.map((material) => lying(material, vocabulary));
  if (materials.length === 0) return undefined;
  let cost = 0;
  for (const material of materials) {
    if (NO_MATERIAL.test(material.name) || DONE.test(material.name)) return undefined;
    if (!material.ref && /\b(?:to|into|onto|in|on|from) (?:the|an?)\b/i.test(material.name))
      cost += 8;
    if (material.name === '') cost += 1.5;
    else if (material.ref) cost += 1;
    else if (!vocabulary.knows(material.name))
      cost += (material.amounts.length > 0 ? 4 : 9) + 0.2 * material.name.split(' ').length;
    else if (material.amounts.length === 0) cost += 0.6;
    if (/^(?:dry|dried) \(/i.test(material.name)) return undefined;
    if (/\b(?:by|and) (?:dissolving|mixing|adding|diluting)\b/i.test(material.name))
      return undefined;
    if (material.name.split(' ').length > 8) cost += 6;
    if (IN_BATH.test(material.name)) cost += 3;
    if (!material.definite && beginsDeed(material.name, vocabulary)) cost += 12;
  }
  return { argument: { kind: 'materials', materials }, cost, trouble };
};

/** "the filtrate" among materials is what lies in a vessel already. */
function lying(material: RawMaterial, { vessels, products, knows }: Vocabulary): RawMaterial {
  const part =
    /^(?:half|most|two thirds|three quarters|an? (?:third|quarter|fifth|tenth)) of the /i.test(
      material.name,
    );
  if ((!material.definite && !part) || material.amounts.length > 0 || knows(material.name))
    return material;
  const ref = readReference(
    part ? material.name : `the ${material.name}`,
    vessels,
    products,
    knows,
  );
  return ref ? { ...material, ref } : material;
}

/** "(MgSO4)", "(Na2SO4, 1 g)": only a material that is known. */
const readBracket: Reader = (piece, vocabulary) => {
  const inner = /^\(([^()]+)\)[,;:]?$/.exec(piece.text);
  if (!inner || !vocabulary.knows(inner[1]!.split(',')[0]!.trim())) return undefined;
  return readList({ text: inner[1]!, start: piece.start + 1 }, vocabulary);
};

/** "dried (MgSO4)": a material in brackets that has nothing before it. */
const readBracketed: Reader = (piece, vocabulary) => {
  const inner = /^\((?:over )?([^()]*(?:\([^()]*\))?[^()]*)\)$/.exec(piece.text.trim());
  return inner
    ? readList({ text: inner[1]!, start: piece.start + piece.text.indexOf(inner[1]!) }, vocabulary)
    : undefined;
};

function beginsDeed(text: string, vocabulary: Vocabulary): boolean {
  const word = /^[\p{L}-]+/u.exec(text.trim())?.[0].toLowerCase();
  return word !== undefined && vocabulary.begins?.(word) === true && !vocabulary.knows(text.trim());
}

const readTime: Reader = (piece) => {
  const amount = readAmount(
    piece.text
      .replace(/^(?:a period of|the next|about another)\s+/i, '')
      .replace(/^an?\s+(\d[\d.–-]*)[- ]([a-z]+)[- ]period$/i, '$1 $2')
      .replace(/^one[- ]half hour/i, 'half an hour')
      .replace(/\s+(?:more|longer|further|or so|or more)$/i, ''),
  );
  return amount.kind === 'time' ||
    (amount.kind === 'unquantified' &&
      amount.sense === 'some' &&
      /minute|hour|second|while|moment/.test(amount.text))
    ? { argument: { kind: 'amount', amount }, cost: 0 }
    : undefined;
};

const readTemperature: Reader = (piece) => {
  const text = piece.text
    .replace(/^(?:the|a|about the)\s+/i, '')
    .replace(/^(?:(?:head|bath|oil-bath|internal|still-head) )?temperature of\s+(?:about\s+)?/i, '')
    .replace(/^(?:between\s+)?([-−]?\d[\d.]*)(?:\s*°\s*C)?\s+and\s+(?=[-−]?\d)/i, '$1–')
    .replace(/^between\s+/i, '');
  const amount = readAmount(text);
  return amount.kind === 'temperature'
    ? { argument: { kind: 'amount', amount }, cost: 0 }
    : undefined;
};

const BATHS: readonly (readonly [RegExp, BathKind, number | undefined])[] = [
  [/^(dry ice|solid co2|dry[- ]ice.*|acetone.?dry ice.*)( bath)?$/, 'dry-ice', -78],
  [/^(ice.?(and|-|–|\/)?.?(salt|nacl|brine).*|salt.?ice.*)$/, 'ice-salt', -10],
  [/^(crushed )?(ice|ice.?(and.)?water)( ?-?bath)?( mixture)?$/, 'ice', 0],
  [
    /^(cold )(water|tap water)( bath)?$|^((running )?(cold )?tap|running (cold )?water)$/,
    'water',
    15,
  ],
  [/^((boiling|hot|warm) )?water( ?-?bath)?$/, 'water', undefined],
  [/^steam( bath| cone)?$/, 'steam', 95],
  [/^(silicone |mineral |hot )?oil( ?-?bath)?$/, 'oil', undefined],
  [/^sand( ?-?bath)?$/, 'sand', undefined],
  [
    /^(aluminium |aluminum |metal |heating )?(block|hotplate|hot ?plate|hot-plate|stirrer hotplate)$/,
    'block',
    undefined,
  ],
  [
    /^(small |gentle |naked |low |luminous )*(flame|bunsen( burner| flame)?|burner)$/,
    'flame',
    undefined,
  ],
  [/^(heating |electric )?mantle$/, 'mantle', undefined],
  [/^(bunsen|gas)( burner)?( flame)?$|^(naked |small |open )*flame$/, 'block', undefined],
  [/^(refrigerator|fridge)$/, 'air', 4],
  [/^freezer$/, 'air', -18],
  [/^(air|air bath|oven|drying oven)$/, 'air', undefined],
];

/** Bath temperatures that are no figure in the text are common practice. */
const readBath: Reader = (piece) => {
  let text = piece.text
    .trim()
    .toLowerCase()
    .replace(/^(?:an?|the)\s+/, '')
    .replace(/[,:]$/, '');
  let temperature: Amount | undefined;
  const at = /^(.*?)\s+(?:at|held at|kept at|maintained at|set to|set at|near)\s+(.+)$/.exec(text);
  const front = /^((?:[-−]?\d[\d–.,-]*\s*°\s*c)|(?:[-−]?\d[\d–.,-]*\s*degrees c))\s+(.+)$/.exec(
    text,
  );
  const bracket = /^(.*?)\s+\(([^()]*°\s*c)\)$/.exec(text);
  const figure = at?.[2] ?? bracket?.[2] ?? front?.[1];
  if (figure) {
    const amount = readAmount(figure.replace(/°\s*c/, '°C'));
    if (amount.kind !== 'temperature') return undefined;
    temperature = amount;
    text = at?.[1] ?? bracket?.[1] ?? front![2]!;
  }
  const found = BATHS.find(([pattern]) => pattern.test(text));
  if (!found) return undefined;
  const usual = /boiling/.test(text)
    ? 100
    : /hot/.test(text)
      ? 80
      : /warm/.test(text)
        ? 45
        : found[2];
  const temperature_C = temperature?.value ?? usual;
  return {
    argument: {
      kind: 'bath',
      bath: found[1],
      ...(temperature_C !== undefined && { temperature_C }),
      ...(temperature && { figure: temperature }),
      ...(temperature === undefined &&
        temperature_C !== undefined && {
          assumed: `${text.replace(/ bath$/, '')} bath taken as ${temperature_C} °C (common practice)`,
        }),
    },
    cost: 0,
  };
};

const COUNTS: Record<string, number> = {
  two: 2,
  three: 3,
  four: 4,
  five: 5,
  six: 6,
  seven: 7,
  eight: 8,
  ten: 10,
};

const readPortions: Reader = (piece) => {
  const match =
    /^(?:(?:about|ca\.)\s+)?(\w+)?\s*(?:\w+\s+)?(?:portions?|lots?|aliquots?|batches)$/i.exec(
      piece.text.trim(),
    );
  if (!match) return undefined;
  const word = match[1]?.toLowerCase() ?? '';
  const count = COUNTS[word] ?? (/^\d+$/.test(word) ? Number(word) : undefined);
  return { argument: { kind: 'portions', ...(count !== undefined && { count }) }, cost: 0 };
};

const readUntil: Reader = (piece) => {
  const text = piece.text.trim().replace(/[\s,;:]+$/, '');
  if (
    /,\s+(?:and\s+|then\s+)?(?:cool|acidify|add|pour|filter|decant|transfer|wash|stir|heat|collect|dry|weigh)\b/i.test(
      text,
    )
  )
    return undefined;
  // "until it dissolved and was then poured", "..., and allowed to stand": what follows is done next
  if (
    /\band\s+then\s+(?:[a-z]+ly\s+)?[a-z]+(?:ed|wn)\b|\b(?:and|,\s+which)\s+(?:then\s+)?(?:is|are|was|were)\b|,\s+and\s+(?:the|an?)\s[^,]*\b(?:is|are|was|were)\b|,\s+(?:(?:and|then)\s+)*(?:[a-z]+ly\s+)?[a-z]+(?:ed|wn)\b/i.test(
      text,
    )
  )
    return undefined;
  if (
    /^dryness\s+\S/i.test(text) ||
    (/\d/.test(text) &&
      /\b(?:is|are|was|were)\s+(?:[a-z]+ly\s+)?(?:added|introduced|poured|dropped|run)\b/i.test(
        text,
      ))
  )
    return undefined;
  const direct = readAmount(text);
  if (
    direct.kind === 'pH' ||
    direct.kind === 'temperature' ||
    (direct.kind === 'unquantified' && direct.sense !== 'some')
  )
    return { argument: { kind: 'amount', amount: direct }, cost: 0 };
  return {
    argument: {
      kind: 'amount',
      amount: {
        kind: 'unquantified',
        word: `until ${text}`,
        text: `until ${text}`,
        sense: 'until',
      },
    },
    cost: 0.02 * text.split(/\s+/).length,
  };
};

const readStream: Reader = (piece) => {
  const text = piece.text
    .trim()
    .toLowerCase()
    .replace(/[,:]$/, '')
    .replace(/^(?:an?|the|your)\s+/, '');
  if (text.split(' ').length > 6 || /\b(?:to|into|in|and|with)\b/.test(text)) return undefined;
  if (!/\b(waste|sink|drain|bin|residues?|container|stream|bottle|recycling|spent)\b/.test(text))
    return undefined;
  const stream = text
    .replace(/\b(waste|container|bottle|stream|bin|labelled|liquid|for)\b/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();
  return { argument: { kind: 'stream', stream: stream === '' ? 'general' : stream }, cost: 0 };
};

/** A time that needs no word before it. */
const readBareTime: Reader = (piece, vocabulary) =>
  /^(?:overnight|briefly|until (?:the )?next|until tomorrow|a few (?:minutes|seconds)|a further|another|an hour|half an hour|\d[\d.,–-]*\s*(?:s|sec|seconds?|min|mins|minutes?|h|hr|hrs|hours?|d|days?))\b/i.test(
    piece.text,
  )
    ? readTime(piece, vocabulary)
    : undefined;

const readVolume: Reader = (piece) => {
  const amount = readAmount(piece.text.trim().replace(/\s+(?:remains?|is left|are left)$/i, ''));
  return amount.kind === 'volume' ? { argument: { kind: 'amount', amount }, cost: 0 } : undefined;
};

const readPressure: Reader = (piece) => {
  const amount = readAmount(piece.text.trim());
  return amount.kind === 'pressure' ? { argument: { kind: 'amount', amount }, cost: 0 } : undefined;
};

const KEEPS: readonly (readonly [RegExp, RawKeep])[] = [
  [/^(both|both parts|both layers|everything)$/, 'both'],
  [/(upper|top)( \w+)? ?(layers?|phases?)?$/, 'upper'],
  [/(lower|bottom)( \w+)? ?(layers?|phases?)?$/, 'lower'],
  [/(aqueous|water|acid|basic|alkaline)( \w+)? ?(layers?|phases?|extracts?)$/, 'aqueous'],
  [
    /(organic|ether|ethereal|dichloromethane|dcm|ethyl acetate|hexane|toluene|chloroform|mtbe|pentane)( \w+)? ?(layers?|phases?|extracts?|solutions?)?$|extracts?$/,
    'organic',
  ],
  [/(filtrates?|liquids?|solution|mother liquors?|liquor|decanted \w+)$/, 'liquid'],
  [/(solids?|crystals|precipitate|cake|product|powder|residue|metal|salt|needles|crude)$/, 'solid'],
];

const readKeep: Reader = (piece, { vessels, products, knows }) => {
  if (/^(?:with|it|them)\b/i.test(piece.text)) return undefined;
  const text = piece.text.trim().toLowerCase().replace(/[,:]$/, '');
  const split = /^(.*?)\s+(?:in|into|on)\s+(.+)$/.exec(text);
  const vesselPhrase = split && looksLikeVessel(split[2]!, vessels) ? split[2]! : undefined;
  const what = (vesselPhrase ? split![1]! : text).replace(
    /^(?:the|all the|this|each|each of the|combined)\s+/,
    '',
  );
  const found =
    KEEPS.find(([pattern]) => pattern.test(what))?.[1] ??
    (products.includes(what) || knows(what) ? 'solid' : undefined);
  if (!found) return undefined;
  return {
    argument: {
      kind: 'keep',
      what: found,
      ...(vesselPhrase !== undefined && { vesselPhrase }),
      start: piece.start,
    },
    cost: 0,
  };
};

/** What is done to something is no detail of anything else. */
const SAID =
  /^(?!(?:what|when|how|whether|that|which)\b).*\b(?:was|were)\s+(?:[a-z]+ly\s+)?[a-z-]+ed\b/i;

const readDetail: Reader = (piece, vocabulary) =>
  SAID.test(piece.text)
    ? undefined
    : {
        argument: { kind: 'detail', text: piece.text.trim() },
        // What can be a vessel is one
        cost:
          0.2 +
          0.05 * piece.text.split(/\s+/).length +
          (looksLikeVessel(piece.text.replace(/[,:]$/, ''), vocabulary.vessels) ? 0.5 : 0) +
          (beginsDeed(piece.text, vocabulary) ? 2 : 0) +
          0.5 * (piece.text.split(', ').length - 1) +
          (/\s(?:in|into|on) an?\s/.test(piece.text) ? 0.3 : 0) +
          (/\b(?:and|then|,) (?:weigh|filter|add|wash|stir|dry|collect|transfer|pour|heat|cool)\b/i.test(
            piece.text,
          )
            ? 0.6
            : 0) +
          (/\b(?:was|were|is|are) (?:[a-z]+ly )?[a-z-]+ed\b/i.test(piece.text) ||
          DONE.test(piece.text) ||
          NEXT_DEED.test(piece.text)
            ? 6
            : 0),
      };

/** "to pH 7", "to constant mass": an end that can be told without a sentence. */
const readEndpoint: Reader = (piece) => {
  const stated = readAmount(piece.text.trim());
  const amount = stated.kind === 'refused' ? readAmount(`to ${piece.text.trim()}`) : stated;
  const ends =
    amount.kind === 'pH' || (amount.kind === 'unquantified' && amount.sense === 'constantMass');
  if (ends) return { argument: { kind: 'amount', amount }, cost: 0 };
  // "acidified to Congo red": the colour of an indicator
  const text = piece.text.trim();
  return /^(?:(?:acid|alkaline|basic|neutral|faintly acid) to )?(?:congo red|litmus|phenolphthalein|universal indicator)(?: paper)?$/i.test(
    text,
  )
    ? {
        argument: {
          kind: 'amount',
          amount: { kind: 'unquantified', word: `to ${text}`, text: `to ${text}`, sense: 'until' },
        },
        cost: 0,
      }
    : undefined;
};

/** "adjust the pH to 9": the figure alone. */
const readAcidity: Reader = (piece) => {
  const amount = readAmount(`pH ${piece.text.trim()}`);
  return amount.kind === 'pH' ? { argument: { kind: 'amount', amount }, cost: 0 } : undefined;
};

export const ARGUMENT_READERS: Record<ArgumentKind, Reader> = {
  vessel: readVessel,
  ref: readRef,
  refs: readRefs,
  materials: readList,
  bracketed: readBracketed,
  time: readTime,
  bareTime: readBareTime,
  bracket: readBracket,
  pressure: readPressure,
  volume: readVolume,
  temperature: readTemperature,
  bath: readBath,
  portions: readPortions,
  until: readUntil,
  endpoint: readEndpoint,
  acidity: readAcidity,
  stream: readStream,
  keep: readKeep,
  detail: readDetail,
};
