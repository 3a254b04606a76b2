import type { BenchState } from './outbox/bench.ts';

const counted = (count: number): string => (count === 0 ? '' : `${count} to send`);

/** How the record stands with the server, in two or three quiet words. */
export function statusText({ way, waiting, refusal }: BenchState): string {
  const toSend = waiting.filter((each) => each.refusal === undefined).length;
  const refused = waiting.length - toSend;
  const words = [
    way === 'lost'
      ? refusal === undefined || refusal.status === 0
        ? 'No network'
        : 'Not kept yet'
      : '',
    way === 'not-let-in' && refusal?.status === 401 ? 'Not signed in' : '',
    counted(toSend),
    refused === 0 ? '' : `${refused} not taken`,
  ].filter((word) => word !== '');
  if (words.length > 0) return words.join(', ');
  return way === 'open' ? 'All kept' : '';
}
