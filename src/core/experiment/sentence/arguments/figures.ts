import { readAmount } from '../../../quantity/amount.ts';
import type { Reader } from './reader.ts';

export const readTime: Reader = (piece) => {
  const amount = readAmount(
    piece.text
      .replace(/^(?:a period of|the next|about another)\s+/i, '')
      .replace(/^an?\s+(\d[\d.–-]*)[- ]([a-z]+)[- ]period$/i, '$1 $2')
      .replace(/^one[- ]half hour/i, 'half an hour')
      .replace(/^(?:a )?quarter of an hour/i, '15 min')
      .replace(/^three[- ]quarters of an hour/i, '45 min')
      .replace(/\s+(?:more|longer|further|or so|or more)$/i, ''),
  );
  return amount.kind === 'time' ||
    (amount.kind === 'unquantified' &&
      amount.sense === 'some' &&
      /minute|hour|second|while|moment/.test(amount.text))
    ? { argument: { kind: 'amount', amount }, cost: 0 }
    : undefined;
};

export const readTemperature: Reader = (piece) => {
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

export const readPortions: Reader = (piece) => {
  const match =
    /^(?:(?:about|ca\.)\s+)?(\w+)?\s*(?:\w+\s+)?(?:portions?|lots?|aliquots?|batches)$/i.exec(
      piece.text.trim(),
    );
  if (!match) return undefined;
  const word = match[1]?.toLowerCase() ?? '';
  const count = COUNTS[word] ?? (/^\d+$/.test(word) ? Number(word) : undefined);
  return { argument: { kind: 'portions', ...(count !== undefined && { count }) }, cost: 0 };
};

/** A time that needs no word before it. */
export const readBareTime: Reader = (piece, vocabulary) =>
  /^(?:overnight|briefly|until (?:the )?next|until tomorrow|a few (?:minutes|seconds)|a further|another|an hour|half an hour|\d[\d.,–-]*\s*(?:s|sec|seconds?|min|mins|minutes?|h|hr|hrs|hours?|d|days?))\b/i.test(
    piece.text,
  )
    ? readTime(piece, vocabulary)
    : undefined;

export const readVolume: Reader = (piece) => {
  const amount = readAmount(piece.text.trim().replace(/\s+(?:remains?|is left|are left)$/i, ''));
  return amount.kind === 'volume' ? { argument: { kind: 'amount', amount }, cost: 0 } : undefined;
};

export const readPressure: Reader = (piece) => {
  const amount = readAmount(piece.text.trim());
  return amount.kind === 'pressure' ? { argument: { kind: 'amount', amount }, cost: 0 } : undefined;
};

/** "to pH 7", "to constant mass": an end that can be told without a sentence. */
export const readEndpoint: Reader = (piece) => {
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
export const readAcidity: Reader = (piece) => {
  const amount = readAmount(`pH ${piece.text.trim()}`);
  return amount.kind === 'pH' ? { argument: { kind: 'amount', amount }, cost: 0 } : undefined;
};
