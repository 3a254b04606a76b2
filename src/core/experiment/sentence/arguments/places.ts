import { tellsDeed } from './deeds.ts';
import type { RawKeep } from '../../verbs/verb.ts';
import { readReference } from '../reference.ts';
import type { Reader } from './reader.ts';

/** What a vessel costs that there is none of yet: "a flask" says so, and its article is not passed over. */
const newVessel = (phrase: string): number => (/^an?\s/i.test(phrase) ? 0.3 : 0.5);

export const readVessel: Reader = (piece, vocabulary) => {
  const text = piece.text.replace(/[,:]$/, '');
  if (!vocabulary.canBeVessel(text) || tellsDeed(text, vocabulary)) return undefined;
  const known = vocabulary.hasVessel(text);
  return {
    argument: { kind: 'vessel', phrase: text, start: piece.start },
    cost: known ? 0 : newVessel(text),
  };
};

export const readRef: Reader = (piece, vocabulary) => {
  if (tellsDeed(piece.text, vocabulary)) return undefined;
  const ref = readReference(piece.text, vocabulary);
  if (!ref) return undefined;
  const unknown = ref.vesselPhrase !== undefined && !vocabulary.hasVessel(ref.vesselPhrase);
  return {
    argument: { kind: 'ref', ref, start: piece.start },
    cost:
      (unknown ? newVessel(piece.text) : ref.named !== undefined ? 0.3 : 0) +
      (/\son\s/i.test(piece.text) && ref.vesselPhrase !== undefined ? 0.1 : 0) +
      (/\bwaste\b/i.test(ref.vesselPhrase ?? '') ? 1 : 0),
  };
};

/** "the extracts and the washings": two or more references. */
export const readRefs: Reader = (piece, vocabulary) => {
  const parts = piece.text
    .split(/,\s+(?:and\s+)?|\s+and\s+|\s+with\s+/)
    .filter((part) => part.trim() !== '');
  const refs = parts.map((part) => readReference(part, vocabulary));
  if (refs.length === 0 || refs.some((ref) => ref === undefined)) return undefined;
  return { argument: { kind: 'refs', refs: refs.map((ref) => ref!), start: piece.start }, cost: 0 };
};

export const readStream: Reader = (piece) => {
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

export const readKeep: Reader = (piece, vocabulary) => {
  if (/^(?:with|it|them)\b/i.test(piece.text)) return undefined;
  const text = piece.text.trim().toLowerCase().replace(/[,:]$/, '');
  const split = /^(.*?)\s+(?:in|into|on)\s+(.+)$/.exec(text);
  const vesselPhrase = split && vocabulary.canBeVessel(split[2]!) ? split[2]! : undefined;
  const what = (vesselPhrase ? split![1]! : text).replace(
    /^(?:the|all the|this|each|each of the|combined)\s+/,
    '',
  );
  const found =
    KEEPS.find(([pattern]) => pattern.test(what))?.[1] ??
    (vocabulary.isProduct(what) || vocabulary.knows(what) ? 'solid' : undefined);
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
