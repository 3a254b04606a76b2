import { readAmount } from '../../../quantity/amount.ts';
import { DONE, NEXT_DEED, beginsDeed } from './deeds.ts';
import type { Reader } from './reader.ts';

export const readUntil: Reader = (piece) => {
  const text = piece.text.trim().replace(/[\s,;:]+$/, '');
  if (
    /(?:,\s+(?:and\s+|then\s+)?|\s+and\s+(?:then\s+)?)(?:cool|acidify|add|pour|filter|decant|transfer|wash|stir|heat|collect|dry|weigh)\b/i.test(
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

/** What is done to something is no detail of anything else. */
const SAID =
  /^(?!(?:what|when|how|whether|that|which)\b).*\b(?:was|were)\s+(?:[a-z]+ly\s+)?[a-z-]+ed\b/i;

export const readDetail: Reader = (piece, vocabulary) =>
  SAID.test(piece.text)
    ? undefined
    : {
        argument: { kind: 'detail', text: piece.text.trim() },
        // What can be a vessel is one
        cost:
          0.2 +
          0.05 * piece.text.split(/\s+/).length +
          (vocabulary.canBeVessel(piece.text.replace(/[,:]$/, '')) ? 0.5 : 0) +
          (beginsDeed(piece.text.replace(/^(?:and|then)\s+/i, ''), vocabulary) ? 2 : 0) +
          0.5 * (piece.text.split(', ').length - 1) +
          (/\s(?:in|into|on) an?\s/.test(piece.text) ? 0.3 : 0) +
          (/\b(?:and|then|,) (?:weigh|filter|add|wash|stir|dry|collect|transfer|pour|heat|cool)\b/i.test(
            piece.text,
          )
            ? 1.5
            : 0) +
          (/\b(?:was|were|is|are) (?:[a-z]+ly )?[a-z-]+ed\b/i.test(piece.text) ||
          DONE.test(piece.text) ||
          NEXT_DEED.test(piece.text)
            ? 6
            : 0),
      };
